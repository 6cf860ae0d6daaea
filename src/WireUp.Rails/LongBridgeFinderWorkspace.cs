using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Follows each rail from a gap away over dead rail, the way a train drives, to the next gaps in it: whatever reaches from the first
/// to a later one joins the rails on either side. On three-rail track nothing is looked for: its running rails are common.
/// </summary>
internal sealed class LongBridgeFinderWorkspace(
    MendedRails rails, BridgeSearchWorkspace search, TrainStands stands, Func<int, int, ImmutableSortedDictionary<PieceId, string>, RailMeeting?> meetingOf)
{
    private const int MostSteps = 60;

    /// <summary>How many pieces the walks from one gap in one position may enter, and all walks together: ways fork at every turnout.</summary>
    private const int MostEntered = 200, MostEnteredInAll = 50_000;

    private readonly RailGraph _graph = rails.Graph;
    private readonly RailNets _nets = rails.Nets;
    private readonly FeedStates _states = new(rails.Graph, rails.Nets, search);
    private readonly double _longest = rails.Graph.Layout.LongestTrain.Meters;
    private readonly Dictionary<(int, int), LongBridge> _found = [];

    private readonly Dictionary<(int, int), DeadLength> _dead = [];
    private readonly Dictionary<int, bool> _isEverFed = [];
    private readonly SortedSet<PieceId> _undecided = [];
    private int _entered;
    private int _enteredInAll;

    /// <summary>Pieces at whose gaps the walks were given up.</summary>
    internal IEnumerable<PieceId> Undecided => _undecided;

    /// <summary>Finds them, shortest first; gaps that are bad under one wheel already are left out of the bridges.</summary>
    internal (ImmutableArray<LongBridge> Bridges, ImmutableArray<DeadLength> Dead) Find(ImmutableHashSet<RailPoint> bad)
    {
        foreach (GapFaces gap in _graph.Layout.Control == ControlSystem.ThreeRail ? [] : GapFaces.All(_graph))
        {
            foreach (ImmutableSortedDictionary<PieceId, string> given in stands.At(gap.At))
            {
                _entered = 0;
                Start(gap, given);
                if (_entered > MostEntered || _enteredInAll > MostEnteredInAll)
                {
                    _undecided.Add(_graph.Nodes[gap.Near].Piece);
                }
            }
        }

        return (
        [
            .. _found.Values.Where(bridge => !bad.Contains(bridge.From) && !bad.Contains(bridge.To))
                .OrderBy(bridge => bridge.Metres).ThenBy(bridge => bridge.From.ToString(), StringComparer.Ordinal).ThenBy(bridge => bridge.To.ToString(), StringComparer.Ordinal),
        ],
        [
            .. _dead.Values.OrderBy(dead => dead.Metres).ThenBy(dead => dead.From.ToString(), StringComparer.Ordinal).ThenBy(dead => dead.To.ToString(), StringComparer.Ordinal),
        ]);
    }

    private void Start(GapFaces gap, ImmutableSortedDictionary<PieceId, string> given)
    {
        bool left = gap.Side == RailSide.Left;
        if (gap.At is GapPlace.InSection { Place: var place })
        {
            ImmutableArray<Station> stations = _graph.Index.Piece(place.Section) is Piece.Section ? _graph.Stations(place.Section) : [];
            for (int i = 0; i < stations.Length; i++)
            {
                if (stations[i].Metres == place.MetresFromA)
                {
                    Along(new(gap.Near, left, given, 0, 0, []), place.Section, i, 1);
                    Along(new(gap.Far, !left, given, 0, 0, []), place.Section, i, -1);
                }
            }
        }
        else if (gap.At is GapPlace.InJoint { End: var end })
        {
            Enter(new(gap.Near, left, given, 0, 0, []), _graph.Index.Opposite(end)!.Value);
            Enter(new(gap.Far, !left, given, 0, 0, []), end);
        }
    }

    /// <summary>Rolls into a piece at an end.</summary>
    private void Enter(Walk walk, TrackEnd end)
    {
        if (walk.Steps > MostSteps || ++_entered > MostEntered || ++_enteredInAll > MostEnteredInAll)
        {
            return;
        }

        Walk next = walk with { Steps = walk.Steps + 1 };
        if (_graph.Index.Piece(end.Piece) is Piece.Section)
        {
            bool fromA = end.Name == "a";
            Along(next, end.Piece, fromA ? 0 : _graph.Stations(end.Piece).Length - 1, fromA ? 1 : -1);
        }
        else if (Dead(next, _graph.NodeAt(new(end, walk.Left ? RailSide.Right : RailSide.Left))) is { } inside)
        {
            Pass(inside, end);
        }
    }

    /// <summary>Passes a piece over each way that is open.</summary>
    private void Pass(Walk walk, TrackEnd end)
    {
        Trackwork row = stands.Row(end.Piece);
        Piece piece = _graph.Index.Piece(end.Piece);
        foreach (DrivableWay way in row.Ways.Where(way => way.From == end.Name || way.To == end.Name))
        {
            TrackEnd exit = piece.End(way.From == end.Name ? way.To : way.From);
            bool agrees = way.Position is null || !walk.Given.TryGetValue(end.Piece, out string? settled) || settled == way.Position;
            if (agrees && walk.Metres + piece.WayMetres <= _longest)
            {
                Walk through = walk with
                {
                    Metres = walk.Metres + piece.WayMetres,
                    Given = way.Position is { } position ? walk.Given.SetItem(end.Piece, position) : walk.Given,
                };
                if (Dead(through, NodeOut(exit, walk.Left)) is { } beyond)
                {
                    Leave(beyond, exit);
                }
            }
        }
    }

    /// <summary>Rolls out of an end over its joint.</summary>
    private void Leave(Walk walk, TrackEnd end)
    {
        if (_graph.Index.Opposite(end) is not { } opposite)
        {
            return;
        }

        if (_graph.Index.OpenRails(end).Holds(walk.Left ? RailSide.Left : RailSide.Right))
        {
            Reach(walk, NodeOut(end, walk.Left), _graph.NodeAt(new(opposite, walk.Left ? RailSide.Right : RailSide.Left)));
        }

        Enter(walk, opposite);
    }

    /// <summary>Rolls along a section from one of its stations on.</summary>
    private void Along(Walk walk, PieceId section, int station, int step)
    {
        ImmutableArray<Station> stations = _graph.Stations(section);
        bool first = walk.Left == (step > 0);
        Walk? at = walk;
        for (int i = station; i + step >= 0 && i + step < stations.Length && at is not null; i += step)
        {
            (Station from, Station to) = (stations[i], stations[i + step]);
            double metres = at.Metres + Math.Abs(to.Metres - from.Metres);
            at = metres > _longest ? null : Dead(at with { Metres = metres }, Face(from, first, towardsB: step > 0));
            (int here, int beyond) = (Face(to, first, towardsB: step < 0), Face(to, first, towardsB: step > 0));
            if (at is not null && here != beyond)
            {
                Reach(at, here, beyond);
            }
        }

        if (at is not null)
        {
            Leave(at, new(section, step > 0 ? "b" : "a"));
        }
    }

    private static int Face(Station station, bool first, bool towardsB) => (first, towardsB) switch
    {
        (true, true) => station.FirstTowardsB,
        (true, false) => station.FirstTowardsA,
        (false, true) => station.SecondTowardsB,
        (false, false) => station.SecondTowardsA,
    };

    private int NodeOut(TrackEnd end, bool left) => _graph.NodeAt(new(end, left ? RailSide.Left : RailSide.Right));

    /// <summary>The walk, with the positions it takes for the rail at a node to be dead, or null where it is not.</summary>
    private Walk? Dead(Walk walk, int node) =>
        _states.DeadWhen(_nets.NetOf[node], walk.Given) is { } given
            ? walk with { Given = given, Nodes = walk.Nodes.Add(node) }
            : null;

    private void Reach(Walk walk, int last, int beyond)
    {
        (int, int) key = (Math.Min(walk.Start, beyond), Math.Max(walk.Start, beyond));
        if (walk.Metres > 0 && !_dead.ContainsKey(key) && IsFed(walk.Start) && IsFed(beyond) && !walk.Nodes.Append(last).Any(IsEverFed))
        {
            _dead[key] = new(_graph.Nodes[walk.Start], _graph.Nodes[beyond], walk.Metres, [.. walk.Nodes.Append(last).Distinct().Select(node => _graph.Nodes[node])]);
        }

        bool bridges = walk.Metres > 0 && last != walk.Start && !_found.ContainsKey(key);
        if (bridges && meetingOf(walk.Start, beyond, walk.Given) is { } meeting)
        {
            _found[key] = new(_graph.Nodes[walk.Start], _graph.Nodes[beyond], walk.Metres, meeting);
        }
    }

    private bool IsFed(int node) => _nets.IsFed(_nets.NetOf[node]);

    private bool IsEverFed(int node)
    {
        int net = _nets.NetOf[node];
        if (!_isEverFed.TryGetValue(net, out bool fed))
        {
            _isEverFed[net] = fed = _states.IsEverFed(net);
        }

        return fed;
    }

    /// <summary>Where a walk began, on which rail seen in its direction it is, what it has settled, how far it has come, and over what.</summary>
    private sealed record Walk(int Start, bool Left, ImmutableSortedDictionary<PieceId, string> Given, double Metres, int Steps, ImmutableArray<int> Nodes);
}
