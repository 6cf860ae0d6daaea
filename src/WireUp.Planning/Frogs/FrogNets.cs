using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Planning.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Frogs;

/// <summary>
/// What always conducts when every possible heel gap is cut, and then again joined where a gap is not needed. A net knows whether
/// feeders will hold it to one polarity and which frogs belong to it.
/// </summary>
internal sealed class FrogNetsWorkspace
{
    private readonly RailGraph _graph;
    private readonly SignUnionWorkspace _joined;
    private readonly Dictionary<int, bool> _fed = [];
    private readonly Dictionary<int, ImmutableHashSet<(PieceId, string)>> _frogs = [];

    /// <param name="layout">The layout with every possible heel gap cut.</param>
    /// <param name="following">Sections that get no feeders because they follow the points.</param>
    internal FrogNetsWorkspace(Layout layout, IReadOnlySet<PieceId> following)
    {
        _graph = RailGraph.Build(layout);
        _joined = new(_graph.Nodes.Length);
        foreach (RailLink link in _graph.Links.Where(link => link is not RailLink.Contact))
        {
            _ = _joined.Join(link.From, link.To, differ: false);
        }

        foreach (int node in WiredNodes().Concat(BehindContacts()).Concat(RailsToBeFed(following)))
        {
            _fed[Net(node)] = true;
        }

        foreach (FollowingConductor frog in layout.Track.SelectMany(piece => FollowingConductor.Of(piece, layout.Control)))
        {
            int net = Net(_graph.NodeInside(frog.Piece.Id, frog.Names[0])!.Value);
            _frogs[net] = _frogs.GetValueOrDefault(net, []).Add((frog.Piece.Id, frog.Names[0]));
        }
    }

    /// <summary>
    /// Joins the two sides of a heel gap if that keeps every frog by itself, away from feeders and from the rail opposite; false when
    /// the gap must be cut.
    /// </summary>
    internal bool TryJoin(HeelGap gap)
    {
        (int near, int beyond) = (Net(_graph.NodeAt(gap.Rail)), Net(_graph.NodeAt(gap.Beyond)));
        ImmutableHashSet<(PieceId, string)> frogs = _frogs.GetValueOrDefault(near, []).Union(_frogs.GetValueOrDefault(beyond, []));
        bool fed = _fed.GetValueOrDefault(near) || _fed.GetValueOrDefault(beyond);
        if (near != beyond && (fed || frogs.Count > 1 || FaceEachOther(near, beyond)))
        {
            return false;
        }

        _ = _joined.Join(near, beyond, differ: false);
        _frogs[Net(near)] = frogs;
        return true;
    }

    /// <summary>Whether feeders hold the rail beyond a gap.</summary>
    internal bool IsFedBeyond(HeelGap gap) => _fed.GetValueOrDefault(Net(_graph.NodeAt(gap.Beyond)));

    /// <summary>Whether two nets are the two rails of the same track somewhere.</summary>
    private bool FaceEachOther(int one, int other)
    {
        foreach (TrackEnd end in _graph.Layout.Track.SelectMany(piece => piece.Ends))
        {
            (int left, int right) = (Net(_graph.NodeAt(new(end, RailSide.Left))), Net(_graph.NodeAt(new(end, RailSide.Right))));
            if ((left == one && right == other) || (left == other && right == one))
            {
                return true;
            }
        }

        return false;
    }

    private int Net(int node) => _joined.Find(node).Root;

    private IEnumerable<int> WiredNodes() => _graph.Layout.Wiring.Feeders
        .Select(feeder => _graph.StationAt(feeder.At))
        .SelectMany(station => new[] { station.FirstTowardsA, station.SecondTowardsA });

    /// <summary>
    /// Rails that something other than a frog's contact feeds in some position: at the edge of a lift-out section or of a pit, behind a
    /// switch, beyond the blades of a power-routing turnout.
    /// </summary>
    private IEnumerable<int> BehindContacts()
    {
        foreach (RailLink.Contact contact in _graph.Links.OfType<RailLink.Contact>())
        {
            bool from = IsFrog(contact.From), to = IsFrog(contact.To);
            if (!from && !to)
            {
                yield return contact.From;
                yield return contact.To;
            }
        }
    }

    private bool IsFrog(int node) => _graph.Nodes[node] is RailPoint.Inside { Owner: var owner } && _graph.Index.Piece(owner).PlacesMetres is null;

    /// <summary>
    /// Every length of rail that could strand the shortest engine gets a feeder, and every section that lifts out, unless it may have none.
    /// </summary>
    private IEnumerable<int> RailsToBeFed(IReadOnlySet<PieceId> following)
    {
        Layout layout = _graph.Layout;
        SolderSpots spots = new(layout);
        double strands = layout.ShortestPickup.Meters + CellMap.SamePlaceMetres;
        return _graph.Links.OfType<RailLink.Rail>()
            .GroupBy(rail => (rail.Section, Net: Net(rail.From)))
            .Where(rails => rails.Sum(rail => rail.LengthMetres) > strands || _graph.Index.Piece(rails.Key.Section) is Piece.Section { LiftOut: true })
            .Where(rails => spots.On(_graph.Index.Piece(rails.Key.Section)) && !following.Contains(rails.Key.Section))
            .Select(rails => rails.Key.Net);
    }
}
