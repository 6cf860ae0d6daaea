using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>Places, lengths and sizes in the words of the papers: as they are measured on the bench.</summary>
internal static class PlaceWords
{
    /// <summary>The conductors that a gap parts: in three-rail track the centre conductor stands for the left rail, the running rails for the right one.</summary>
    public static string Rails(Gap gap, ControlSystem control)
    {
        (RailSide first, RailSide second) = RailSides.Of(control);
        return gap.Rails switch { RailSet.Both => "both", RailSet.Left => RailSides.Word(first), RailSet.Right => RailSides.Word(second), _ => "none" };
    }

    /// <summary><c>loop@1250 mm</c>, measured from the section's end a.</summary>
    public static string Place(TrackPlace place, LengthStyle lengths) => $"{place.Section}@{lengths.Measure(place.MetresFromA)}";

    /// <summary>The place of a gap: along a section, or at an end.</summary>
    public static string Place(GapPlace at, LengthStyle lengths) => at is GapPlace.InSection within ? Place(within.Place, lengths) : at.ToString()!;

    /// <summary><c>loop@1250 mm/left</c>.</summary>
    public static string Rail(TrackPlace place, RailSide side, LengthStyle lengths) => $"{Place(place, lengths)}/{RailSides.Word(side)}";

    /// <summary>How wide a saw cut through a rail is; common practice, no published source.</summary>
    public static string SawCut(LengthStyle lengths) => lengths == LengthStyle.Feet ? "0.02 to 0.04 in" : "0.5 to 1 mm";

    /// <summary>A length and what it is made of: <c>11.2 m in 4 pieces</c>, <c>36 ft 9 in, in 4 pieces</c>.</summary>
    public static string Parts(LengthStyle lengths, double metres, int decimals, string parts) =>
        $"{lengths.Say(metres, decimals)}{(lengths == LengthStyle.Feet ? "," : "")} in {parts}";

    /// <summary>What long lengths are counted in.</summary>
    public static string Unit(LengthStyle lengths) => lengths == LengthStyle.Feet ? "feet" : "metres";

    /// <summary>What short lengths are counted in, at the beginning of a sentence.</summary>
    public static string SmallUnit(LengthStyle lengths) => lengths == LengthStyle.Feet ? "Feet and inches" : "Millimetres";

    /// <summary>A wire's size with its sign: <c>2.5 mm²</c>, <c>12 AWG</c>.</summary>
    public static string Size(Wire wire) => wire switch
    {
        Wire.Metric metric => string.Create(CultureInfo.InvariantCulture, $"{metric.SquareMillimetres} mm²"),
        _ => wire.ToString()!,
    };
}
