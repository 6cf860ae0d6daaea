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
    private readonly ImmutableArray<NetContact> _contacts;
    private readonly PositionSearchWorkspace _search;
    private readonly ILookup<int, FeederLeg> _wires;

    internal PositionMeetingFinder(
        RailGraph graph, RailNets nets, ImmutableArray<FedNode> fed, SupplyRelations relations, (RailPathWorkspace Paths, int Budget) means)
    {
        (_nets, _relations, _paths) = (nets, relations, means.Paths);
        _contacts = ContactsOf(graph, nets);
        _search = new(_contacts, net => !nets.IsFed(net), means.Budget);
        _wires = fed.ToLookup(wire => wire.Node, wire => wire.Wire);
    }

    /// <summary>The contacts that conduct while everything stands in some position, none of those that do so in mid-throw only.</summary>
    internal static ImmutableArray<NetContact> StandingContactsOf(RailGraph graph, RailNets nets) =>
        [.. ContactsOf(graph, nets).Where(contact => !Moment.Is(contact.Position))];

    internal static ImmutableArray<NetContact> ContactsOf(RailGraph graph, RailNets nets) =>
    [
        .. from link in graph.Links.OfType<RailLink.Contact>()
           let contact = new NetContact(nets.NetOf[link.From], nets.NetOf[link.To], link.Piece, link.Position, link)
           where contact.From != contact.To
           select contact,
    ];

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

            if (_search.GaveUp)
            {
                undecided.Add(_contacts[contact].Piece);
            }
        }

        HashSet<PieceId> explained = [.. ways.SelectMany(way => way.Way).Select(contact => _contacts[contact].Piece)];
        foreach ((int net, int contact) in Edges().Where(edge => !explained.Contains(_contacts[edge.Contact].Piece)))
        {
            if (Way(net, contact, MeetingKind.Joined) is { } way)
            {
                ways.Add((net, way));
            }
        }

        return ([.. Chosen(ways).Select(way => Describe(way.Net, way.Way))], [.. undecided]);
    }

    /// <summary>Each contact at the edge of a fed net, from that net's side.</summary>
    private IEnumerable<(int Net, int Contact)> Edges()
    {
        for (int i = 0; i < _contacts.Length; i++)
        {
            foreach (int net in new[] { _contacts[i].From, _contacts[i].To })
            {
                if (_nets.IsFed(net) && !IsSpoilt(net))
                {
                    yield return (net, i);
                }
            }
        }
    }

    /// <summary>A net in which wires meet already tells nothing about what meets it.</summary>
    private bool IsSpoilt(int net) => Worst(net, net) is not null;

    /// <summary>The worst that happens when two nets meet, or null when they may.</summary>
    private MeetingKind? Worst(int first, int second)
    {
        MeetingKind? worst = null;
        foreach (FeederLeg from in _nets.Legs[first])
        {
            foreach (FeederLeg to in _nets.Legs[second])
            {
                if (_relations.Between(from, to) is { } kind && !(kind >= worst))
                {
                    worst = kind;
                }
            }
        }

        return worst;
    }

    private ImmutableArray<int>? Way(int net, int contact, MeetingKind atLeastAsBadAs) =>
        _search.Find(net, contact, other => other != net && _nets.IsFed(other) && !IsSpoilt(other) && Worst(net, other) <= atLeastAsBadAs);

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
        foreach (NetContact contact in way.Select(index => _contacts[index]))
        {
            bool forward = contact.From == at;
            (int near, int far) = forward ? (contact.Link.From, contact.Link.To) : (contact.Link.To, contact.Link.From);
            nodes.AddRange(nodes.Count == 0 ? [near] : _paths.Shortest([nodes[^1]], node => node == near)!.Value.Skip(1));
            nodes.Add(far);
            at = forward ? contact.To : contact.From;
        }

        MeetingKind kind = Worst(net, at)!.Value;
        (FeederLeg from, FeederLeg to) = PairOf(net, at, kind);
        ImmutableArray<int> start = ToWire(nodes[0], from), end = ToWire(nodes[^1], to);
        return new(
            kind,
            _wires[start[^1]].First(wire => Like(wire, from)),
            _wires[end[^1]].First(wire => Like(wire, to)),
            _paths.Points([.. start.Reverse(), .. nodes.Skip(1), .. end.Skip(1)]))
        {
            Turnouts = way.Select(index => _contacts[index]).DistinctBy(contact => contact.Piece)
                .ToImmutableSortedDictionary(contact => contact.Piece, contact => contact.Position),
        };
    }

    private (FeederLeg From, FeederLeg To) PairOf(int first, int second, MeetingKind kind) =>
        (from one in _nets.Legs[first]
         from other in _nets.Legs[second]
         where _relations.Between(one, other) == kind
         select (one, other)).First();

    private ImmutableArray<int> ToWire(int node, FeederLeg model) =>
        _paths.Shortest([node], reached => _wires[reached].Any(wire => Like(wire, model)))!.Value;

    private static bool Like(FeederLeg wire, FeederLeg model) => wire.District == model.District && wire.Leg == model.Leg;
}
