using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>
/// Gaps at the border of a reversing section that is wired which part one rail only: the other rail joins the section to track of fixed
/// polarity and must be cut opposite.
/// </summary>
internal static class HalfGaps
{
    /// <summary>The missing cuts, in the order of the gaps they complete.</summary>
    public static ImmutableArray<Gap> ToComplete(Layout layout)
    {
        if (!layout.Wiring.Districts.Any(district => district.Reversing))
        {
            return [];
        }

        Gap[] missing = [.. layout.Wiring.Gaps
            .Where(gap => gap.BridgedWhen is null)
            .GroupBy(gap => gap.At, gap => gap.Rails)
            .Select(rails => new Gap(rails.Key, RailSet.Both & ~rails.Aggregate(RailSet.None, (all, one) => all | one)))
            .Where(gap => gap.Rails is RailSet.Left or RailSet.Right)];
        // Cuts in the two rails that no wheel base fits between part the track as one.
        Spot[] whole = [.. new RunMapBuilder(new(layout)).Build().Runs.SelectMany(run => run.DoubleGaps)];
        RunMap map = new RunMapBuilder(new(layout with { Wiring = layout.Wiring with { Gaps = [.. layout.Wiring.Gaps, .. missing] } })).Build();
        BuiltWiring built = BuiltWiring.Of(map);
        HashSet<GapPlace> borders = [.. built.Borders.Where(spot => IsBorder(built, spot)
            && !whole.Any(each => each.Run == spot.Run && Math.Abs(each.Position - spot.Position) < layout.ShortestPickup.Meters)).Select(spot => spot.Place)];
        return [.. missing.Where(gap => borders.Contains(gap.At))];
    }

    /// <summary>What to cut, and why.</summary>
    public static Proposal Words(Gap gap, int number) => new(
        $"turn-cut-{number.ToString(System.Globalization.CultureInfo.InvariantCulture)}",
        ProposalKind.Gap,
        $"{gap.At}/{(gap.Rails == RailSet.Left ? "left" : "right")}",
        "The other rail is cut here already. Without this cut the reversing section on one side and the track of fixed polarity on the other are one conductor.",
        "Every border of a reversing section has a gap in both rails, clear of frogs by a wheel base. Common practice, no published standard.",
        Cost: 1);

    /// <summary>Whether reversing track lies on one side of a gap and track of fixed polarity on the other.</summary>
    private static bool IsBorder(BuiltWiring built, Spot spot)
    {
        bool before = built.Stretches.Any(stretch => stretch.Run == spot.Run && Math.Abs(stretch.To - spot.Position) < CellMap.SamePlaceMetres);
        bool after = built.Stretches.Any(stretch => stretch.Run == spot.Run && Math.Abs(stretch.From - spot.Position) < CellMap.SamePlaceMetres);
        return before != after;
    }
}
