using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>A wire that can feed a rail.</summary>
/// <param name="Wire">The wire.</param>
/// <param name="When">The positions it takes, the fewest that will do; empty where it always does.</param>
public sealed record FeedWay(FeederLeg Wire, ImmutableSortedDictionary<PieceId, string> When);

/// <summary>
/// Tells of any rail which districts can feed it, and in which positions. Of every blade or contact that leads to the rail, and every
/// district, one way is told: that over the fewest contacts. A rail with an unswitched feeder has those feeders only.
/// </summary>
public sealed class FeedWays
{
    private const long Budget = 20_000_000;

    private readonly RailNets _nets;
    private readonly ContactWeb _web;
    private readonly PositionSearchWorkspace _search;
    private readonly FrozenDictionary<string, int> _order;
    private readonly Dictionary<int, ImmutableArray<string>> _districts = [];
    private readonly Dictionary<(int Cluster, string District), GoalField> _fields = [];
    private readonly Dictionary<int, ImmutableArray<FeedWay>> _known = [];

    private FeedWays(RailGraph graph)
    {
        _nets = RailNets.Of(graph, graph.Links.Where(link => link is not RailLink.Contact), FedNode.All(graph));
        _web = ContactWeb.AtRest(graph, _nets);
        _search = new(_web, Budget);
        _order = graph.Layout.Wiring.Districts.Select((district, i) => (district.Name, i)).ToFrozenDictionary(pair => pair.Name, pair => pair.i);
    }

    /// <summary>Makes ready to tell; each rail is searched when it is first asked for.</summary>
    public static FeedWays Of(RailGraph graph) => new(graph);

    /// <summary>Whether two sets of positions can be at the same time.</summary>
    public static bool Agree(IReadOnlyDictionary<PieceId, string> first, IReadOnlyDictionary<PieceId, string> second) =>
        first.All(setting => !second.TryGetValue(setting.Key, out string? position) || position == setting.Value);

    /// <summary>The ways in which a node can get current, fewest positions first, then in the order of the layout.</summary>
    public ImmutableArray<FeedWay> At(int node)
    {
        int net = _nets.NetOf[node];
        if (!_known.TryGetValue(net, out ImmutableArray<FeedWay> ways))
        {
            _known[net] = ways = _nets.IsFed(net) ? [.. _nets.Legs[net].Select(wire => new FeedWay(wire, Nothing))] : Search(net);
        }

        return ways;
    }

    internal RailNets Nets => _nets;

    internal ImmutableArray<NetContact> Contacts => _web.Contacts;

    private static ImmutableSortedDictionary<PieceId, string> Nothing => ImmutableSortedDictionary<PieceId, string>.Empty;

    private ImmutableArray<FeedWay> Search(int net)
    {
        List<FeedWay> found = [];
        foreach (int contact in _web.Touching(net))
        {
            int step = _web.StepFrom(net, contact);
            foreach (string district in DistrictsBeyond(step))
            {
                if (Way(step, district) is { } way)
                {
                    found.AddRange(Described(net, district, way));
                }
            }
        }

        return Least([.. found.OrderBy(way => way.When.Count)]);
    }

    private ImmutableArray<int>? Way(int step, string district)
    {
        if (_web.ClusterAt(step) is not { } cluster)
        {
            return _search.Direct(step, IsGoal);
        }

        if (!_fields.TryGetValue((cluster.Number, district), out GoalField? field))
        {
            _fields[(cluster.Number, district)] = field = new(cluster, IsGoal);
        }

        return _search.Find(step, field);

        bool IsGoal(int goal) => _nets.Legs[goal].Any(wire => wire.District == district);
    }

    /// <summary>The districts that feed what lies where a step leads, in the order of the layout.</summary>
    private ImmutableArray<string> DistrictsBeyond(int step)
    {
        if (_web.ClusterAt(step) is not { } cluster)
        {
            return DistrictsOf([_web.Head(step)]);
        }

        if (!_districts.TryGetValue(cluster.Number, out ImmutableArray<string> districts))
        {
            _districts[cluster.Number] = districts = DistrictsOf(cluster.FedNets);
        }

        return districts;
    }

    private ImmutableArray<string> DistrictsOf(ImmutableArray<int> nets) =>
        [.. nets.SelectMany(net => _nets.Legs[net]).Select(wire => wire.District).Distinct().OrderBy(district => _order[district])];

    /// <summary>Without those that take the positions of another way of the same wire, and more.</summary>
    private static ImmutableArray<FeedWay> Least(ImmutableArray<FeedWay> ways) =>
        [.. ways.Where((way, i) => !ways.Take(i).Any(less => less.Wire.District == way.Wire.District && less.Wire.Leg == way.Wire.Leg
            && less.When.All(setting => way.When.Contains(setting))))];

    private IEnumerable<FeedWay> Described(int net, string district, ImmutableArray<int> way)
    {
        int at = way.Aggregate(net, (from, contact) => _web.Contacts[contact].From == from ? _web.Contacts[contact].To : _web.Contacts[contact].From);
        ImmutableSortedDictionary<PieceId, string> when = way.Select(contact => _web.Contacts[contact])
            .DistinctBy(contact => contact.Piece).ToImmutableSortedDictionary(contact => contact.Piece, contact => contact.Position);
        return _nets.Legs[at].Where(wire => wire.District == district).Select(wire => new FeedWay(wire, when));
    }
}
