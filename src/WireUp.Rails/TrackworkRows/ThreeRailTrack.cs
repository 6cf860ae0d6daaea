using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Three-rail track: all centre conductors of the ways of a piece are one, and so are all running rails, frogs included; crossing
/// tracks keep their centre conductors apart. A moving bridge joins the road it stands at.
/// </summary>
internal static class ThreeRailTrack
{
    internal static Trackwork Row(Trackwork twoRail)
    {
        ImmutableArray<(string From, string To)> ways = [.. twoRail.Ways.Select(way => (way.From, way.To)).Distinct()];
        bool wipers = twoRail.Switched.Any(bond => IsPitEdge(bond.From, bond.To));
        ImmutableArray<WheelBridge> edges = [.. twoRail.Wheels.Where(wheel => wheel.Kind == WheelBridgeKind.PitEdge),
            .. twoRail.Switched.Where(bond => IsPitEdge(bond.From, bond.To)).Select(bond => new WheelBridge(bond.From, bond.To, bond.Position, WheelBridgeKind.PitEdge))];
        bool moves = !edges.IsEmpty;
        return twoRail with
        {
            Fixed = moves ? [] : [.. ways.SelectMany(Along), .. RunningRails(ways)],
            Switched = [.. Edges(edges, RailSide.Running), .. wipers ? Edges(edges, RailSide.Centre) : []],
            Wheels = wipers ? [] : [.. Edges(edges, RailSide.Centre).Select(bond => new WheelBridge(bond.From, bond.To, bond.Position, WheelBridgeKind.PitEdge))],
            Moments = [],
            Useless = [],
        };
    }

    private static bool IsPitEdge(PieceNode road, PieceNode bridge) =>
        road.Side is not null && bridge.Side is null && (IsAt(bridge, "head") || IsAt(bridge, "tail"));

    private static bool IsAt(PieceNode bridge, string end) => bridge.Name.StartsWith($"{end}/", StringComparison.Ordinal);

    private static IEnumerable<FixedBond> Along((string From, string To) way) =>
    [
        new(new(way.From, RailSide.Centre), new(way.To, RailSide.Centre)),
        new(new(way.From, RailSide.Running), new(way.To, RailSide.Running)),
    ];

    /// <summary>The frogs of a crossing join the running rails of its two tracks.</summary>
    private static IEnumerable<FixedBond> RunningRails(ImmutableArray<(string From, string To)> ways) => ways.Skip(1)
        .Where(way => way.From != ways[0].From)
        .Select(way => new FixedBond(new(ways[0].From, RailSide.Running), new(way.From, RailSide.Running), 0))
        .Take(1);

    /// <summary>One conductor from the road to the end of the bridge that stands at it.</summary>
    private static IEnumerable<SwitchedBond> Edges(ImmutableArray<WheelBridge> edges, RailSide side) => edges
        .Select(edge => new SwitchedBond(
            new(edge.From.Name, side), Turntables.Bridge(IsAt(edge.To, "head") ? "head" : "tail", side), edge.Position))
        .Distinct();
}
