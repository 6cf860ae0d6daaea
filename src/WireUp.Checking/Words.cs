using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>How findings write names, numbers and lists.</summary>
internal static class Words
{
    private const int MostNames = 4;

    /// <summary><c>"T1"</c>.</summary>
    internal static string Quote(object name) => $"\"{name}\"";

    /// <summary>Two names in order of the alphabet, so that a pair is the same from either side.</summary>
    internal static (string First, string Second) InOrder(string one, string other) =>
        string.CompareOrdinal(one, other) < 0 ? (one, other) : (other, one);

    /// <summary><c>"a", "b" and "c"</c>; of many the first few and how many more.</summary>
    internal static string List(IEnumerable<string> names)
    {
        ImmutableArray<string> all = [.. names];
        ImmutableArray<string> shown = [.. all.Take(all.Length > MostNames + 1 ? MostNames : all.Length).Select(Quote)];
        string last = all.Length > shown.Length
            ? string.Create(CultureInfo.InvariantCulture, $"{all.Length - shown.Length} more")
            : shown[^1];
        ImmutableArray<string> before = all.Length > shown.Length ? shown : shown[..^1];
        return before.IsEmpty ? last : $"{string.Join(", ", before)} and {last}";
    }

    /// <summary>A count with its noun: <c>1 section</c>, <c>3 sections</c>.</summary>
    internal static string Count(int count, string noun) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {noun}{(count == 1 ? "" : "s")}");

    internal static string Say(Length length) => length.Meters < 1
        ? Number(length.Millimeters, "0", "mm")
        : Number(length.Meters, "0.##", "m");

    internal static string Say(ElectricCurrent current) => Number(current.Amperes, "0.##", "A");

    internal static string Say(ElectricPotential potential) => Number(potential.Volts, "0.##", "V");

    internal static string Say(ElectricResistance resistance) => Number(resistance.Ohms, "0.###", "ohm");

    /// <summary>In milliseconds below one second.</summary>
    internal static string Say(Duration time) => time.Seconds < 1
        ? Number(time.Milliseconds, "0.##", "ms")
        : Number(time.Seconds, "0.##", "s");

    internal static string Say(Power power) => Number((double)power.Watts, "0.##", "W");

    internal static string Say(ElectricCapacitance capacitance) => Number(capacitance.Nanofarads, "0.##", "nF");

    /// <summary><c>3 A to 12.5 A</c>, or one current where both are the same.</summary>
    internal static string Range(ElectricCurrent from, ElectricCurrent to) => Say(from) == Say(to) ? Say(from) : $"{Say(from)} to {Say(to)}";

    internal static string Say(Ratio ratio) => Number(ratio.Percent, "0.#", "%");

    /// <summary>A plain number with at most two decimals.</summary>
    internal static string Say(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>Points of a path as results write them, a feeder's wire at either end; the contact between that wire and the rail is no point.</summary>
    internal static ImmutableArray<string> Path(RailMeeting meeting) =>
        [meeting.From.ToString(), .. meeting.Path.Where(point => point is not RailPoint.AtWire).Select(point => point.ToString()), meeting.To.ToString()];

    /// <summary>
    /// <c>when "T1" is set to through and "T2" to diverging</c>; of a moment in mid-throw <c>while "T1" moves from through to diverging</c>,
    /// and then <c>with "T2" set to through</c>.
    /// </summary>
    internal static string When(ImmutableSortedDictionary<PieceId, string> turnouts)
    {
        ImmutableArray<string> moving =
            [.. turnouts.Where(pair => Moment.Is(pair.Value)).Select(pair => $"{Quote(pair.Key)} moves from {Moment.Of(pair.Value)!.Value.From} to {Moment.Of(pair.Value)!.Value.To}")];
        ImmutableSortedDictionary<PieceId, string> standing = turnouts.RemoveRange(turnouts.Where(pair => Moment.Is(pair.Value)).Select(pair => pair.Key));
        return (moving.IsEmpty, standing.IsEmpty) switch
        {
            (true, _) => $"when {Set(standing)}",
            (_, true) => $"while {string.Join(" and ", moving)}",
            _ => $"while {string.Join(" and ", moving)}, with {string.Join(" and ", standing.Select((pair, i) => $"{Quote(pair.Key)} {(i == 0 ? "set " : "")}to {pair.Value}"))}",
        };
    }

    /// <summary><c>"T1" is set to through and "T2" to diverging</c>.</summary>
    internal static string Set(ImmutableSortedDictionary<PieceId, string> turnouts) =>
        string.Join(" and ", turnouts.Select((pair, i) => $"{Quote(pair.Key)} {(i == 0 ? "is set " : "")}to {pair.Value}"));

    /// <summary>A length of track: the section, or the part of it.</summary>
    internal static string Stretch(Piece section, double fromMetres, double toMetres)
    {
        bool whole = fromMetres <= 0 && section.PlacesMetres is { } length && toMetres >= length;
        return whole
            ? Quote(section.Id)
            : string.Create(CultureInfo.InvariantCulture, $"{Quote(section.Id)} from {Say(fromMetres)} m to {Say(toMetres)} m");
    }

    private static string Number(double value, string format, string unit) =>
        $"{value.ToString(format, CultureInfo.InvariantCulture)} {unit}";
}
