using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Turntables. No rail crosses the pit's edge: wheels bridge it. A bridge on wires of its own may meet any road in either phase, so it
/// must be a reversing district or its roads must agree with it; a split ring ties each road to one half; wipers let the road feed it.
/// </summary>
internal static class Turntables
{
    /// <summary>Inner conductors of every moving bridge: its rails at head and tail, outward-looking, and the halves of its ring.</summary>
    internal static PieceNode Bridge(string end, RailSide side) => PieceNode.Inner($"{end}/{RailSides.Word(side)}");

    internal static Trackwork Row(Piece.Turntable table)
    {
        ImmutableArray<(string Position, string? Head, string? Tail)> stands = Stands(table.RoadCount);
        Trackwork row = new(
            [.. stands.Select(stand => stand.Position)],
            [],
            [],
            [.. stands.Where(stand => stand is { Head: not null, Tail: not null }).Select(stand => new DrivableWay(stand.Head!, stand.Tail!, stand.Position))],
            [.. table.EndNames.Select(road => new PhaseGroup([road], []))])
        {
            Wheels = [.. stands.SelectMany(stand => Edges(stand.Position, ("head", stand.Head), ("tail", stand.Tail)))],
        };
        return table.Feed switch
        {
            BridgeFeed.SplitRing => SplitRing(table, row, stands),
            BridgeFeed.Roads => row with { Switched = [.. row.Wheels.Select(wheel => new SwitchedBond(wheel.From, wheel.To, wheel.Position))], Wheels = [], Phases = Opposite(table) },
            _ => row,
        };
    }

    /// <summary>What a wheel bridges where a bridge end stands at a road: the rails that continue each other.</summary>
    internal static IEnumerable<WheelBridge> Edges(string position, params IEnumerable<(string End, string? Road)> stand) =>
        from pair in stand
        where pair.Road is not null
        from side in new[] { RailSide.Left, RailSide.Right }
        select new WheelBridge(new(pair.Road, side), Bridge(pair.End, side), position, WheelBridgeKind.PitEdge);

    /// <summary>An even number of roads: wherever the head stands at a road, the tail stands at the opposite one.</summary>
    private static ImmutableArray<(string Position, string? Head, string? Tail)> Stands(int roads)
    {
        IEnumerable<string> names = Enumerable.Range(1, roads).Select(road => $"t{road}");
        return roads % 2 == 0
            ? [.. names.Select((road, i) => (road, (string?)road, (string?)$"t{((i + (roads / 2)) % roads) + 1}"))]
            : [.. names.SelectMany(road => new[] { (road, (string?)road, (string?)null), ($"{road}-tail", null, road) })];
    }

    /// <summary>
    /// The bridge rails change halves as the axis of the split is passed. Every road of the first half has its right rail, looking outward,
    /// on the ring half <c>ring/left</c>, every other road its left rail, whichever end of the bridge serves it.
    /// </summary>
    private static Trackwork SplitRing(Piece.Turntable table, Trackwork row, ImmutableArray<(string Position, string? Head, string? Tail)> stands)
    {
        ImmutableArray<string> first = [.. table.EndNames.Where((_, i) => IsFirstHalf(table, i))], second = [.. table.EndNames.Except(first)];
        IEnumerable<SwitchedBond> ring =
            from stand in stands
            let headInFirst = stand.Head is { } head ? first.Contains(head) : !first.Contains(stand.Tail!)
            from side in new[] { RailSide.Left, RailSide.Right }
            select new SwitchedBond(Bridge("ring", headInFirst ? side.Across() : side), Bridge("head", side), stand.Position);
        return row with { Switched = [.. ring], Phases = [new(first, second)], BridgeInPhase = true };
    }

    /// <summary>
    /// The half of the roads up to the split, going clockwise. Of an odd number the smaller half, and the split lies a little off the middle
    /// between two roads, so that its other end misses the road there.
    /// </summary>
    private static bool IsFirstHalf(Piece.Turntable table, int road)
    {
        int beyond = ((road - table.SplitAfter) % table.RoadCount + table.RoadCount) % table.RoadCount;
        return beyond >= table.RoadCount - (table.RoadCount / 2);
    }

    private static ImmutableArray<PhaseGroup> Opposite(Piece.Turntable table)
    {
        int half = table.RoadCount / 2;
        return table.RoadCount % 2 == 0
            ? [.. Enumerable.Range(1, half).Select(road => new PhaseGroup([$"t{road}"], [$"t{road + half}"]))]
            : [.. table.EndNames.Select(road => new PhaseGroup([road], []))];
    }
}
