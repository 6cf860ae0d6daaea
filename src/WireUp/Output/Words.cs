using System.Globalization;
using Spectre.Console;
using WireUp.Checking;
using WireUp.Planning;

namespace WireUp.Output;

/// <summary>The words a person reads for the engine's closed choices, and numbers with their units.</summary>
internal static class Words
{
    /// <summary>Kind of proposal as in results.</summary>
    public static string Of(ProposalKind kind) => kind switch
    {
        ProposalKind.Gap => "gap",
        ProposalKind.ReversingSection => "reversing-section",
        ProposalKind.District => "district",
        ProposalKind.Booster => "booster",
        ProposalKind.Supply => "supply",
        ProposalKind.Feeder => "feeder",
        ProposalKind.BusRun => "bus-run",
        ProposalKind.FrogContact => "frog-contact",
        ProposalKind.Rework => "rework",
        ProposalKind.TerminalStrip => "terminal-strip",
        ProposalKind.Selector => "selector",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of proposal"),
    };

    /// <summary>Markup of a severity: word and colour, never colour alone.</summary>
    public static string Marked(Severity severity) => severity switch
    {
        Severity.Error => "[bold red]error[/]",
        Severity.Warning => "[yellow]warning[/]",
        _ => "advice",
    };

    /// <summary>A number with a unit, to the given places.</summary>
    public static string Number(double value, string unit, int places = 2) => double.IsFinite(value)
        ? $"{value.ToString("F" + places.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)} {unit}"
        : "–";

    /// <summary>Volts at the wheels. Constant currents can ask for more than there is; what is below nothing is not a number to show.</summary>
    public static string Volts(double volts) => volts <= 0 ? "none left" : Number(volts, "V");

    /// <summary>How many, with the word in the right number.</summary>
    public static string Count(int count, string one, string many) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>Text that may hold anything, for use in markup.</summary>
    public static string Plain(string text) => Markup.Escape(text);
}
