using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Looks for shorts under a wheel: at every gap, pit edge and open blade, in the positions in which a train can be there. Gaps
/// that always have opposite polarity on their two sides are left to <see cref="GapFinder"/>.
/// </summary>
internal sealed class WheelFinder
{
    private readonly MendedRails _rails;
    private readonly BridgeSearchWorkspace _search;
    private readonly BridgePaths _paths;
    private readonly TrainStands _stands;
    private readonly SortedSet<PieceId> _undecided = [];

    internal WheelFinder(MendedRails rails)
    {
        _rails = rails;
        _search = new(ContactWeb.AtRest(rails.Graph, rails.Nets), rails.Nets, rails.Relations);
        _paths = new(rails, _search);
        _stands = new(rails.Graph);
    }

    /// <summary>Shorts under one wheel: gaps first, then pit edges and open blades in the order of the track.</summary>
    internal ImmutableArray<WheelMeeting> Find(IEnumerable<GapMeeting> always)
    {
        if (_rails.Fed.IsEmpty)
        {
            return [];
        }

        HashSet<(RailPoint, RailPoint)> known = [.. always.SelectMany(meeting => new[] { (meeting.Near, meeting.Far), (meeting.Far, meeting.Near) })];
        return
        [
            .. from gap in GapFaces.All(_rails.Graph)
               let near = _rails.Graph.Nodes[gap.Near]
               let far = _rails.Graph.Nodes[gap.Far]
               where !known.Contains((near, far)) && MayDiffer(gap.Near, gap.Far)
               let meeting = Fewest(gap.Near, gap.Far, _stands.At(gap.At))
               where meeting is not null
               select new WheelMeeting(WheelPlace.Gap, near, far, meeting),
            .. from piece in _rails.Graph.Layout.Track
               from wheel in piece is Piece.Section ? [] : _stands.Row(piece.Id).Wheels
               let near = NodeOf(piece, wheel.From)
               let far = NodeOf(piece, wheel.To)
               let meeting = near < 0 || far < 0 ? null : Meeting(near, far, ImmutableSortedDictionary<PieceId, string>.Empty.Add(piece.Id, wheel.Position))
               where meeting is not null
               select new WheelMeeting(PlaceOf(wheel.Kind), _rails.Graph.Nodes[near], _rails.Graph.Nodes[far], meeting),
        ];
    }

    /// <summary>Dead rails between two gaps, up to the longest train, and the shorts of what bridges them.</summary>
    internal (ImmutableArray<LongBridge> Bridges, ImmutableArray<DeadLength> Dead) FindLong(
        IEnumerable<GapMeeting> always, IEnumerable<WheelMeeting> underWheels)
    {
        if (_rails.Fed.IsEmpty)
        {
            return ([], []);
        }

        LongBridgeFinderWorkspace finder = new(_rails, _search, _stands, Meeting);
        (ImmutableArray<LongBridge> Bridges, ImmutableArray<DeadLength> Dead) found = finder.Find(
            [.. always.SelectMany(meeting => new[] { meeting.Near, meeting.Far }), .. underWheels.SelectMany(meeting => new[] { meeting.Near, meeting.Far })]);
        _undecided.UnionWith(finder.Undecided);
        return found;
    }

    /// <summary>Pieces at which a search for shorts under wheels or vehicles was given up.</summary>
    internal IEnumerable<PieceId> Undecided => _undecided;

    private static WheelPlace PlaceOf(WheelBridgeKind kind) => kind switch
    {
        WheelBridgeKind.PitEdge => WheelPlace.PitEdge,
        WheelBridgeKind.OpenBlade => WheelPlace.OpenBlade,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such kind"),
    };

    /// <summary>The node of a conductor of a piece, or −1 where the piece has none of that name.</summary>
    private int NodeOf(Piece piece, PieceNode node) => node.Side is { } side
        ? _rails.Graph.NodeAt(new(piece.End(node.Name), side))
        : _rails.Graph.NodeInside(piece.Id, node.Name) ?? -1;

    /// <summary>Two rails that always have a feed and do not always meet badly never do.</summary>
    private bool MayDiffer(int near, int far) => !_rails.Nets.IsFed(_rails.Nets.NetOf[near]) || !_rails.Nets.IsFed(_rails.Nets.NetOf[far]);

    private RailMeeting? Fewest(int near, int far, IEnumerable<ImmutableSortedDictionary<PieceId, string>> stands) => stands
        .Select(given => Meeting(near, far, given)).OfType<RailMeeting>()
        .MinBy(meeting => meeting.Turnouts.Count);

    private RailMeeting? Meeting(int near, int far, ImmutableSortedDictionary<PieceId, string> given)
    {
        Bridging? found = _search.Worst(
            _rails.Nets.NetOf[near], _rails.Nets.NetOf[far], given,
            (kind, from, to) => kind == MeetingKind.Short || (kind == MeetingKind.Reversing && _rails.Relations.BothSwap(from, to)));
        if (_search.GaveUp)
        {
            _undecided.Add(_rails.Graph.Nodes[near].Piece);
        }

        if (found is null)
        {
            return null;
        }

        RailMeeting meeting = _paths.Describe(near, far, found);
        return meeting with { Turnouts = meeting.Turnouts.SetItems(given) };
    }
}
