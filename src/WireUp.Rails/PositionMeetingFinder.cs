using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds wires that meet in some positions of the turnouts. Every blade or contact at the edge of fed track that can help to make such
/// a meeting is in at least one of the answers.
/// </summary>
internal sealed class PositionMeetingFinder
{
    private readonly RailNets _nets;
    private readonly SupplyRelations _relations;
    private readonly RailPathWorkspace _paths;
    private readonly ContactWeb _web;
    private readonly FedKinds _kinds;
    private readonly PositionSearchWorkspace _search;
    private readonly Dictionary<(int Cluster, int Kind, MeetingKind AtLeast), GoalField> _fields = [];
    private readonly ILookup<int, FeederLeg> _wires;

    internal PositionMeetingFinder(
        RailGraph graph, RailNets nets, ImmutableArray<FedNode> fed, SupplyRelations relations, (RailPathWorkspace Paths, long Budget) means)
    {
        (_nets, _relations, _paths) = (nets, relations, means.Paths);
        (_web, _kinds) = (ContactWeb.Of(graph, nets), new(nets, relations));
        _search = new(_web, means.Budget);
        _wires = fed.ToLookup(wire => wire.Node, wire => wire.Wire);
    }

    /// <summary>How many steps have been made to tell cases apart.</summary>
    internal long StepsMade => _search.StepsMade;

    internal (ImmutableArray<RailMeeting> Meetings, ImmutableArray<PieceId> Undecided) Find()
    {
        List<(int Net, ImmutableArray<int> Way)> ways = [];
        SortedSet<PieceId> undecided = [];
        foreach ((int net, int contact) in Edges())
        {
            if (Way(net, contact, MeetingKind.Reversing) is { } way)
            {
                ways.Add((net, way));
            }

            NoteIfGivenUp(contact);
        }

        HashSet<PieceId> explained = [.. ways.SelectMany(way => way.Way).Select(contact => _web.Contacts[contact].Piece)];
        foreach ((int net, int contact) in Edges().Where(edge => !explained.Contains(_web.Contacts[edge.Contact].Piece)))
        {
            if (Way(net, contact, MeetingKind.Joined) is { } way)
            {
                ways.Add((net, way));
            }

            NoteIfGivenUp(contact);
        }

        FewerPositions fewer = new(_web);
        return ([.. Chosen(ways).Select(way => Describe(way.Net, fewer.Of(way.Net, way.Way)))], [.. undecided]);

        void NoteIfGivenUp(int contact)
        {
            if (_search.GaveUp)
            {
                undecided.Add(_web.Contacts[contact].Piece);
            }
        }
    }

    /// <summary>Each contact at the edge of a fed net, from that net's side.</summary>
    private IEnumerable<(int Net, int Contact)> Edges()
    {
        for (int i = 0; i < _web.Contacts.Length; i++)
        {
            foreach (int net in new[] { _web.Contacts[i].From, _web.Contacts[i].To })
            {
                if (_nets.IsFed(net) && !_kinds.IsSpoilt(net))
                {
                    yield return (net, i);
                }
            }
        }
    }

    private ImmutableArray<int>? Way(int net, int contact, MeetingKind atLeastAsBadAs)
    {
        int step = _web.StepFrom(net, contact), kind = _kinds.Of(net);
        if (_web.ClusterAt(step) is not { } cluster)
        {
            return _search.Direct(step, IsGoal);
        }

        if (!_fields.TryGetValue((cluster.Number, kind, atLeastAsBadAs), out GoalField? field))
        {
            _fields[(cluster.Number, kind, atLeastAsBadAs)] = field = new(cluster, IsGoal);
        }

        return _search.Find(step, field);

        bool IsGoal(int other) => _nets.IsFed(other) && !_kinds.IsSpoilt(other) && _kinds.Worst(net, other) <= atLeastAsBadAs;
    }

    /// <summary>Few contacts first; each way that shows a contact which no way before it did.</summary>
    private static IEnumerable<(int Net, ImmutableArray<int> Way)> Chosen(List<(int Net, ImmutableArray<int> Way)> ways)
    {
        HashSet<int> shown = [];
        foreach ((int net, ImmutableArray<int> way) in ways.OrderBy(way => way.Way.Length).ThenBy(way => way.Way.Min()).ThenBy(way => way.Net))
        {
            if (!shown.Contains(way[0]) || !shown.Contains(way[^1]))
            {
                shown.UnionWith(way);
                yield return (net, way);
            }
        }
    }

    private RailMeeting Describe(int net, ImmutableArray<int> way)
    {
        List<int> nodes = [];
        int at = net;
        foreach (NetContact contact in way.Select(index => _web.Contacts[index]))
        {
            bool forward = contact.From == at;
            (int near, int far) = forward ? (contact.Link.From, contact.Link.To) : (contact.Link.To, contact.Link.From);
            nodes.AddRange(nodes.Count == 0 ? [near] : _paths.Shortest([nodes[^1]], node => node == near)!.Value.Skip(1));
            nodes.Add(far);
            at = forward ? contact.To : contact.From;
        }

        MeetingKind kind = _kinds.Worst(net, at)!.Value;
        (FeederLeg from, FeederLeg to) = PairOf(net, at, kind);
        ImmutableArray<int> start = ToWire(nodes[0], from), end = ToWire(nodes[^1], to);
        return new(
            kind,
            _wires[start[^1]].First(wire => wire.IsLike(from)),
            _wires[end[^1]].First(wire => wire.IsLike(to)),
            _paths.Points([.. start.Reverse(), .. nodes.Skip(1), .. end.Skip(1)]))
        {
            Turnouts = way.Select(index => _web.Contacts[index]).DistinctBy(contact => contact.Piece)
                .ToImmutableSortedDictionary(contact => contact.Piece, contact => contact.Position),
        };
    }

    private (FeederLeg From, FeederLeg To) PairOf(int first, int second, MeetingKind kind) =>
        (from one in _nets.Legs[first]
         from other in _nets.Legs[second]
         where _relations.Between(one, other) == kind
         select (one, other)).First();

    private ImmutableArray<int> ToWire(int node, FeederLeg model) =>
        _paths.Shortest([node], reached => _wires[reached].Any(wire => wire.IsLike(model)))!.Value;
}
