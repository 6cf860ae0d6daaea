using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Finds rails that no feeder reaches, and track that has current in some positions only.</summary>
internal sealed class FeedReach
{
    private readonly RailGraph _graph;
    private readonly RailNets _nets;
    private readonly SupplyRelations _relations;
    private readonly ContactWeb _web;
    private readonly FedKinds _kinds;
    private readonly PositionSearchWorkspace _search;
    private readonly Dictionary<(int Cluster, int? Beside), GoalField> _fields = [];
    private readonly Dictionary<(int, int), (ImmutableSortedDictionary<PieceId, string> Positions, bool GaveUp)> _liveWhen = [];
    private readonly HashSet<int> _reached;
    private readonly SortedSet<PieceId> _undecided = [];
    private bool _gaveUp;
    private readonly RailPairSearchWorkspace _pairs;
    private readonly BridgeSearchWorkspace _bridges;
    private readonly FeedStates _states;
    private readonly Dictionary<(int, int), ImmutableSortedDictionary<PieceId, string>?> _deadWhen = [];

    internal FeedReach(RailGraph graph, SupplyRelations relations, long budget)
    {
        (_graph, _relations) = (graph, relations);
        _nets = RailNets.Of(graph, graph.Links.Where(link => link is not RailLink.Contact), FedNode.All(graph));
        (_web, _kinds) = (ContactWeb.AtRest(graph, _nets), new(_nets, relations));
        _search = new(_web, budget);
        _reached = Reached();
        _pairs = new(_web, _nets, relations);
        _bridges = new(_web, _nets, relations);
        _states = new(graph, _nets, _bridges);
    }

    /// <summary>How many steps have been made to tell cases apart.</summary>
    internal long StepsMade => _search.StepsMade;

    /// <summary>Lengths of rail that no feeder reaches in any position, section by section, first conductor first.</summary>
    internal ImmutableArray<UnfedRail> Unfed() =>
    [
        .. from section in Places
           from rail in UnfedOf(section.Id)
           select rail,
    ];

    /// <summary>Track of which at least one rail has current through blades or contacts only.</summary>
    internal ImmutableArray<SwitchedTrack> Switched()
    {
        ImmutableArray<SwitchedTrack>.Builder found = ImmutableArray.CreateBuilder<SwitchedTrack>();
        foreach (Piece section in Places)
        {
            foreach ((Station from, Station to) in Stretches(section.Id))
            {
                int first = _nets.NetOf[from.FirstTowardsB], second = _nets.NetOf[from.SecondTowardsB];
                bool switches = _reached.Contains(first) && _reached.Contains(second) && !(_nets.IsFed(first) && _nets.IsFed(second));
                SwitchedTrack? track = switches ? new(section.Id, from.Metres, to.Metres, LiveWhen(first, second)) : null;
                if (track is { LiveWhen.IsEmpty: true } && _gaveUp)
                {
                    _undecided.Add(section.Id);
                }
                else if (track is not null)
                {
                    Add(found, track with { DeadWhen = DeadWhen(first, second) });
                }
            }
        }

        return found.ToImmutable();
    }

    /// <summary>Sections of which it was not found out in which positions they have current; known once <see cref="Switched"/> was asked.</summary>
    internal IEnumerable<PieceId> Undecided => _undecided;

    /// <summary>Sections and moving bridges.</summary>
    private IEnumerable<Piece> Places => _graph.Layout.Track.Where(piece => piece.PlacesMetres is not null);

    private ImmutableSortedDictionary<PieceId, string>? DeadWhen(int first, int second)
    {
        if (!_deadWhen.TryGetValue((first, second), out ImmutableSortedDictionary<PieceId, string>? positions))
        {
            positions = _states.TrackDeadWhen(first, second);
            _deadWhen[(first, second)] = positions ??= _bridges.RanOut ? ImmutableSortedDictionary<PieceId, string>.Empty : null;
        }

        return positions;
    }

    private IEnumerable<(Station From, Station To)> Stretches(PieceId section)
    {
        ImmutableArray<Station> stations = _graph.Stations(section);
        return stations.Zip(stations.Skip(1));
    }

    private IEnumerable<UnfedRail> UnfedOf(PieceId section)
    {
        (RailSide first, RailSide second) = RailSides.Of(_graph.Layout.Control);
        foreach ((RailSide side, Func<Station, int> nodeOf) in new (RailSide, Func<Station, int>)[]
            { (first, station => station.FirstTowardsB), (second, station => station.SecondTowardsB) })
        {
            UnfedRail? open = null;
            foreach ((Station from, Station to) in Stretches(section))
            {
                if (_reached.Contains(_nets.NetOf[nodeOf(from)]))
                {
                    continue;
                }

                if (open is not null && open.ToMetres < from.Metres)
                {
                    yield return open;
                    open = null;
                }

                open = open is null ? new(section, side, from.Metres, to.Metres) : open with { ToMetres = to.Metres };
            }

            if (open is not null)
            {
                yield return open;
            }
        }
    }

    /// <summary>
    /// Nets with a feeder of their own or a way to one for which no turnout has to be in two positions; where the search is given up,
    /// a net counts as reached.
    /// </summary>
    private HashSet<int> Reached() => [.. Enumerable.Range(0, _nets.Count).Where(net => _nets.IsFed(net) || HasWayToFeed(net))];

    private bool HasWayToFeed(int net)
    {
        foreach (int contact in _web.Touching(net))
        {
            if (Way(net, contact, beside: null) is not null || _search.GaveUp)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The fewest positions that bring opposite legs of one supply to the two rails.</summary>
    private ImmutableSortedDictionary<PieceId, string> LiveWhen(int first, int second)
    {
        (int beside, int other) = _nets.IsFed(first) ? (first, second) : (second, first);
        (int, int) question = _nets.IsFed(beside) ? (other, -1 - _kinds.Of(beside)) : (first, second);
        if (!_liveWhen.TryGetValue(question, out (ImmutableSortedDictionary<PieceId, string> Positions, bool GaveUp) answer))
        {
            _liveWhen[question] = answer = (LiveBeside(beside, other), _gaveUp);
        }

        _gaveUp = answer.GaveUp;
        return answer.Positions;
    }

    private ImmutableSortedDictionary<PieceId, string> LiveBeside(int beside, int other)
    {
        bool fed = _nets.IsFed(beside);
        ImmutableArray<int>? way = fed ? null : _pairs.Find(other, beside);
        _gaveUp = !fed && _pairs.GaveUp;
        foreach (int contact in fed ? _web.Touching(other) : [])
        {
            ImmutableArray<int>? next = Way(other, contact, beside);
            _gaveUp |= _search.GaveUp;
            way = way is { } known && !(next?.Length < known.Length) ? way : next;
        }

        return _pairs.Needed(beside, other, way ?? []).Select(index => _web.Contacts[index]).DistinctBy(contact => contact.Piece)
            .ToImmutableSortedDictionary(contact => contact.Piece, contact => contact.Position);
    }

    /// <summary>A way over contacts from a net without feed to one that has it, and that may serve as the other rail beside a given net.</summary>
    private ImmutableArray<int>? Way(int net, int contact, int? beside)
    {
        int step = _web.StepFrom(net, contact);
        int? kind = beside is { } fed ? _kinds.Of(fed) : null;
        if (_web.ClusterAt(step) is not { } cluster)
        {
            return _search.Direct(step, IsGoal);
        }

        if (!_fields.TryGetValue((cluster.Number, kind), out GoalField? field))
        {
            _fields[(cluster.Number, kind)] = field = new(cluster, IsGoal);
        }

        return _search.Find(step, field);

        bool IsGoal(int goal) => _nets.IsFed(goal) && (beside is not { } rail || Oppose(rail, goal));
    }

    private bool Oppose(int fed, int other) =>
        _nets.Legs[fed].Any(one => _nets.Legs[other].Any(leg => _relations.Between(one, leg) == MeetingKind.Short));

    private static void Add(ImmutableArray<SwitchedTrack>.Builder found, SwitchedTrack next)
    {
        bool continues = found.Count > 0 && found[^1].Section == next.Section && found[^1].ToMetres == next.FromMetres
            && found[^1].LiveWhen.SequenceEqual(next.LiveWhen);
        if (continues)
        {
            found[^1] = found[^1] with { ToMetres = next.ToMetres };
        }
        else
        {
            found.Add(next);
        }
    }
}
