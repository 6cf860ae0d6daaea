using System.Globalization;
using System.Text.RegularExpressions;
using WireUp.Layouts.Quantities;

namespace WireUp.Layouts;

/// <summary>In which units people are told lengths. What programs read keeps to metres.</summary>
public enum LengthStyle
{
    /// <summary>Metres and millimetres.</summary>
    Metric,

    /// <summary>Feet, inches and eighths of an inch.</summary>
    Feet,
}

/// <summary>Lengths in a person's units: the one place where they become text for people.</summary>
public static partial class LengthStyles
{
    /// <summary>A length in a sentence or a table: in metres, or in feet and inches, above two feet to the inch.</summary>
    /// <param name="style">The units.</param>
    /// <param name="metres">The length.</param>
    /// <param name="decimals">Decimals of metres.</param>
    public static string Say(this LengthStyle style, double metres, int decimals = 2) => style == LengthStyle.Feet
        ? FeetText.Rough(metres)
        : $"{metres.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture)} m";

    /// <summary>A length as it is measured on the bench: in whole millimetres, or to an eighth of an inch.</summary>
    public static string Measure(this LengthStyle style, double metres) =>
        style == LengthStyle.Feet ? FeetText.Fine(metres) : string.Create(CultureInfo.InvariantCulture, $"{Math.Round(metres * 1000)} mm");

    /// <summary>The same for a column whose head says the unit: millimetres without their sign. Feet and inches keep theirs.</summary>
    public static string Bare(this LengthStyle style, double metres) => style == LengthStyle.Feet ? FeetText.Fine(metres) : BareMillimetres(metres);

    /// <summary>The same as it is marked before drilling: to a sixteenth of an inch.</summary>
    public static string Mark(this LengthStyle style, double metres) => style == LengthStyle.Feet ? FeetText.Finest(metres) : BareMillimetres(metres);

    /// <summary>The head of a column of <see cref="Bare"/> lengths: <c>Cut mm</c> or <c>Cut</c>.</summary>
    public static string Head(this LengthStyle style, string name) => style == LengthStyle.Feet ? name : $"{name} mm";

    /// <summary>A place along the track: <c>loop@1.25 m</c> or <c>loop@4 ft 1 1/4 in</c>. Both can be typed where places are asked for.</summary>
    public static string Say(this LengthStyle style, TrackPlace place) =>
        style == LengthStyle.Feet ? $"{place.Section}@{FeetText.Fine(place.MetresFromA)}" : place.ToString();

    /// <summary>
    /// A sentence with the lengths in it told in another style. Sentences are made with lengths as <c>2.29 m</c>, <c>140 mm</c> and
    /// places as <c>loop@1.25 m</c>; in metric style they stay so, letter by letter.
    /// </summary>
    /// <remarks>A length is told no finer than it was: one of two decimals of a metre that is under two feet to half an inch.</remarks>
    public static string Retell(this LengthStyle style, string sentence) =>
        style == LengthStyle.Feet ? MetricLength().Replace(sentence, InFeet) : sentence;

    /// <summary>
    /// The same for a sentence about a layout: names of its trains and locomotives stay as they are, also where they have a length in them (<c>local 2 m</c>). One
    /// that is nothing else than a length is a name only in quotes. No other name can have a blank in it.
    /// </summary>
    public static string Retell(this Layout layout, string sentence)
    {
        if (layout.Lengths != LengthStyle.Feet) return sentence;
        string[] names =
        [
            .. layout.Stock.Trains.Select(train => train.Name).Concat(layout.Stock.Locomotives.Select(kind => kind.Name))
                .Where(name => MetricLength().IsMatch(name) && sentence.Contains(name, StringComparison.Ordinal))
                .Distinct().OrderByDescending(name => name.Length),
        ];
        return names.Length == 0 ? layout.Lengths.Retell(sentence) : MetricLength().Replace(sentence, length => names.Any(name => IsIn(name, sentence, length)) ? length.Value : InFeet(length));
    }

    /// <summary>Whether a length is part of a name where it stands.</summary>
    private static bool IsIn(string name, string sentence, Match length)
    {
        for (int at = sentence.IndexOf(name, StringComparison.Ordinal); at >= 0 && at <= length.Index; at = sentence.IndexOf(name, at + 1, StringComparison.Ordinal))
        {
            int end = at + name.Length;
            if (end < length.Index + length.Length) continue;
            char before = at == 0 ? ' ' : sentence[at - 1], after = end == sentence.Length ? ' ' : sentence[end];
            bool isQuoted = before is '"' or '\'' && after == before;
            if (isQuoted || (name.Length > length.Length && !char.IsLetterOrDigit(before) && !char.IsLetterOrDigit(after))) return true;
        }

        return false;
    }

    /// <summary>The style in which a length was typed: feet where feet or inches stand in it.</summary>
    public static LengthStyle OfText(string typed) => QuantityText.Split(typed)?.Any(part => IsImperial(part.Unit)) == true ? LengthStyle.Feet : LengthStyle.Metric;

    /// <summary>The style of lengths that are written in a unit.</summary>
    internal static LengthStyle OfUnit(string unit) => IsImperial(unit) ? LengthStyle.Feet : LengthStyle.Metric;

    private static bool IsImperial(string unit) => QuantityKinds.Length.Units.TryGetValue(unit, out UnitFactor factor)
        && (factor == QuantityKinds.Length.Units[QuantityKinds.Length.Greater] || factor == QuantityKinds.Length.Units[QuantityKinds.Length.Lesser]);

    private static string InFeet(Match length)
    {
        bool isMillimetres = length.Groups["unit"].Value == "mm", isPlace = length.Groups["at"].Length > 0;
        double metres = double.Parse(length.Groups["number"].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture) / (isMillimetres ? 1000 : 1);
        return isPlace ? $"@{FeetText.Fine(metres)}" : isMillimetres ? FeetText.Rough(metres) : FeetText.Coarse(metres);
    }

    private static string BareMillimetres(double metres) => (metres * 1000).ToString("0", CultureInfo.InvariantCulture);

    // A number, a blank and the unit, not within a word, a longer number or a unit such as mm².
    [GeneratedRegex(@"(?:(?<at>@)|(?<![\w.@]))(?<number>[0-9]+(?:\.[0-9]+)?) (?<unit>mm|m)(?![\w²])", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 1000)]
    private static partial Regex MetricLength();
}
