using System.Globalization;
using WireUp.Checking;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Rails;

namespace WireUp.Web.Components;

/// <summary>Words and numbers as the page says them.</summary>
internal static class Say
{
    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    public static string Number(double value, string unit, int digits = 2) =>
        value.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) + " " + unit;

    public static string Word(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        Severity.Advice => "advice",
        _ => throw new ArgumentOutOfRangeException(nameof(severity), severity, "no word"),
    };

    public static string Position(KeyValuePair<PieceId, string> turnout) => Moment.Of(turnout.Value) is { } moment
        ? $"{turnout.Key} moving from {moment.From} to {moment.To}"
        : $"{turnout.Key} set {turnout.Value}";

    public static string Kind(ProposalKind kind) => kind switch
    {
        ProposalKind.Gap => "Gaps",
        ProposalKind.ReversingSection => "Reversing sections",
        ProposalKind.District => "Power districts",
        ProposalKind.Booster => "Boosters",
        ProposalKind.Supply => "Supplies",
        ProposalKind.Feeder => "Feeders",
        ProposalKind.BusRun => "Bus",
        ProposalKind.FrogContact => "Frog contacts",
        ProposalKind.Rework => "Changes of what is built",
        ProposalKind.TerminalStrip => "Terminal strips",
        ProposalKind.Selector => "Selectors of blocks",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no words"),
    };
}
