using System.Globalization;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Web.Components;

/// <summary>Words and numbers as the page says them.</summary>
internal static class Say
{
    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    public static string Number(double value, string unit, int digits = 2) =>
        value.ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) + " " + unit;

    /// <summary>Words as a sentence: with a capital and a full stop.</summary>
    public static string Sentence(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..] + (words[^1] is '.' or '?' or '!' ? "" : ".");

    public static string Position(KeyValuePair<PieceId, string> turnout) => Moment.Of(turnout.Value) is { } moment
        ? $"{turnout.Key} moving from {moment.From} to {moment.To}"
        : $"{turnout.Key} set {turnout.Value}";
}
