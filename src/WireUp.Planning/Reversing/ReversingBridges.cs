using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;

namespace WireUp.Planning.Reversing;

/// <summary>
/// Moving bridges as far as reversing is concerned. A turntable's bridge on wires meets each road either way round: it is a reversing
/// section by itself, bounded by the air gaps at the pit's edge. Other bridges have the polarity of their roads.
/// </summary>
internal sealed class ReversingBridges
{
    private readonly Layout _layout;

    internal ReversingBridges(Layout layout)
    {
        _layout = layout;
        All = [.. layout.Track.OrderBy(piece => piece.Id).Where(piece => MovingBridges.Reverses(piece, layout.Control))];
        HashSet<string> reversing = [.. layout.Wiring.Districts.Where(district => district.Reversing).Select(district => district.Name)];
        Unfed = [.. All.Where(bridge => !layout.Wiring.Feeders.Any(feeder => feeder.At.Section == bridge.Id && reversing.Contains(feeder.District)))];
    }

    /// <summary>Bridges that must reverse, in order of name.</summary>
    internal ImmutableArray<Piece> All { get; }

    /// <summary>Those that no reversing district feeds yet.</summary>
    internal ImmutableArray<Piece> Unfed { get; }

    /// <summary>All of a bridge as a stretch.</summary>
    internal static TrackStretch StretchOf(Piece bridge) => new(bridge.Id, 0, bridge.PlacesMetres!.Value);

    /// <summary>Bridges that are fed by themselves and go with more roads than two: how each is to be fed, given the junction of its roads.</summary>
    /// <param name="map">The map.</param>
    /// <param name="leftIsB">Whether the left rail of a junction's frame carries B.</param>
    internal IEnumerable<PhaseStretch> WithRoads(RunMap map, Func<int, bool> leftIsB) =>
        from piece in _layout.Track.OrderBy(piece => piece.Id)
        where MovingBridges.IsFedByItself(piece, _layout.Control) && !All.Contains(piece)
        from junction in map.Junctions.Where(junction => junction.Id == piece.Id)
        select new PhaseStretch(StretchOf(piece), leftIsB(junction.Index));
}
