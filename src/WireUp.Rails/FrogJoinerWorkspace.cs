using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Joins the rails beyond each live frog, one turnout after the other, and refuses where that would join the two rails of some track
/// or two wires of opposite polarity. What is refused is a fault, and stays out of the paths for what is looked for afterwards.
/// </summary>
internal sealed class FrogJoinerWorkspace
{
    private readonly RailGraph _graph;
    private readonly RailPathWorkspace _paths;
    private readonly SupplyRelations _relations;
    private readonly ILookup<int, FeederLeg> _wires;
    private readonly Dictionary<int, int> _mates = [];
    private readonly SignUnionWorkspace _nets;
    private readonly Dictionary<int, List<int>> _mated = [];
    private readonly Dictionary<int, List<FeederLeg>> _legs = [];

    internal FrogJoinerWorkspace(RailGraph graph, RailPathWorkspace paths, SupplyRelations relations, ImmutableArray<FedNode> fed)
    {
        (_graph, _paths, _relations) = (graph, paths, relations);
        _wires = fed.ToLookup(wire => wire.Node, wire => wire.Wire);
        _nets = new(graph.Nodes.Length);
        foreach (RailLink link in paths.Conducting)
        {
            _nets.Join(link.From, link.To);
        }

        CollectMates();
        foreach (FedNode wire in fed)
        {
            AddLeg(_nets.Find(wire.Node).Root, wire.Wire);
        }
    }

    internal List<FrogFault> Faults { get; } = [];

    internal List<RailMeeting> Shorts { get; } = [];

    /// <summary>Whether a link belongs to the frog of a live turnout.</summary>
    internal static bool IsOfFrog(RailGraph graph, RailLink link) =>
        link is RailLink.Bond { IsFoil: false } && (graph.Nodes[link.From] is RailPoint.Inside || graph.Nodes[link.To] is RailPoint.Inside);

    internal void JoinAll()
    {
        var frogs = Enumerable.Range(0, _graph.Links.Length).Where(link => IsOfFrog(_graph, _graph.Links[link]))
            .GroupBy(link => FrogOf(_graph.Links[link]))
            .OrderBy(frog => frog.Key);
        foreach (IGrouping<int, int> links in frogs)
        {
            Frog frog = new(links.Key, [.. links], [.. links.Select(link => _graph.Links[link].Opposite(links.Key))]);
            _paths.Take(frog.Links, @out: false);
            if (frog.Rails.Select((rail, i) => frog.Rails.Skip(i + 1).All(other => CanJoin(frog, rail, other))).All(fits => fits))
            {
                frog.Rails.ForEach(rail => Join(frog.Node, rail));
            }
            else
            {
                _paths.Take(frog.Links, @out: true);
            }
        }
    }

    private int FrogOf(RailLink link) => _graph.Nodes[link.From] is RailPoint.Inside ? link.From : link.To;

    private void CollectMates()
    {
        (RailSide first, RailSide second) = RailSides.Of(_graph.Layout.Control);
        foreach (TrackEnd end in _graph.Layout.Track.SelectMany(piece => piece.Ends))
        {
            int one = _graph.NodeAt(new(end, first)), other = _graph.NodeAt(new(end, second));
            (_mates[one], _mates[other]) = (other, one);
            ListOf(_mated, _nets.Find(one).Root).Add(one);
            ListOf(_mated, _nets.Find(other).Root).Add(other);
        }
    }

    private bool CanJoin(Frog frog, int left, int right)
    {
        (int a, int b) = (_nets.Find(left).Root, _nets.Find(right).Root);
        if (a == b)
        {
            return true;
        }

        if (Short(a, b) is { } pair)
        {
            Shorts.Add(Describe(pair.From, pair.To, left));
            return false;
        }

        if (MatesAcross(a, b).Any())
        {
            Faults.Add(new(_graph.Nodes[frog.Node].Piece, MatesPath(frog, left, right)));
            return false;
        }

        return true;
    }

    private (FeederLeg From, FeederLeg To)? Short(int a, int b)
    {
        foreach (FeederLeg from in ListOf(_legs, a))
        {
            foreach (FeederLeg to in ListOf(_legs, b))
            {
                if (_relations.Between(from, to) == MeetingKind.Short)
                {
                    return (from, to);
                }
            }
        }

        return null;
    }

    /// <summary>The shortest way from a wire like one of the two to a wire like the other; the frog is on it, for nothing else joins them.</summary>
    private RailMeeting Describe(FeederLeg from, FeederLeg to, int railOfFrom)
    {
        ImmutableArray<int> toFirst = _paths.Shortest([railOfFrom], node => _wires[node].Any(wire => wire.IsLike(from)))!.Value;
        ImmutableArray<int> path = _paths.Shortest([toFirst[^1]], node => _wires[node].Any(wire => wire.IsLike(to)))!.Value;
        return new(
            MeetingKind.Short,
            _wires[path[0]].First(wire => wire.IsLike(from)),
            _wires[path[^1]].First(wire => wire.IsLike(to)),
            _paths.Points(path));
    }

    private IEnumerable<int> MatesAcross(int a, int b)
    {
        List<int> inA = ListOf(_mated, a), inB = ListOf(_mated, b);
        (List<int> fewer, int other) = inA.Count < inB.Count ? (inA, b) : (inB, a);
        return fewer.Where(node => _nets.Find(_mates[node]).Root == other);
    }

    private ImmutableArray<RailPoint> MatesPath(Frog frog, int left, int right)
    {
        _paths.Take(frog.Links, @out: true);
        Dictionary<int, int> fromLeft = _paths.Distances(left), fromRight = _paths.Distances(right);
        _paths.Take(frog.Links, @out: false);
        int start = MatesAcross(_nets.Find(left).Root, _nets.Find(right).Root)
            .Select(node => fromLeft.ContainsKey(node) ? node : _mates[node])
            .MinBy(node => (fromLeft[node] + fromRight[_mates[node]], node));
        return _paths.Points(_paths.Shortest([start], node => node == _mates[start])!.Value);
    }

    private void Join(int first, int second)
    {
        (int a, int b) = (_nets.Find(first).Root, _nets.Find(second).Root);
        if (a == b)
        {
            return;
        }

        _nets.Join(a, b);
        (int root, int child) = _nets.Find(a).Root == a ? (a, b) : (b, a);
        (List<int> few, List<int> many) = (ListOf(_mated, child), ListOf(_mated, root));
        (few, many) = few.Count > many.Count ? (many, few) : (few, many);
        many.AddRange(few);
        _mated[root] = many;
        ListOf(_legs, child).ForEach(leg => AddLeg(root, leg));
        _mated.Remove(child);
        _legs.Remove(child);
    }

    /// <summary>One wire of each district and leg is enough to tell what a net carries.</summary>
    private void AddLeg(int root, FeederLeg wire)
    {
        if (!ListOf(_legs, root).Any(wire.IsLike))
        {
            ListOf(_legs, root).Add(wire);
        }
    }

    private static List<T> ListOf<T>(Dictionary<int, List<T>> lists, int key)
    {
        if (!lists.TryGetValue(key, out List<T>? list))
        {
            lists[key] = list = [];
        }

        return list;
    }

    /// <summary>A live frog: its node, the links from it to the rails beyond, and those rails.</summary>
    private sealed record Frog(int Node, List<int> Links, List<int> Rails);
}
