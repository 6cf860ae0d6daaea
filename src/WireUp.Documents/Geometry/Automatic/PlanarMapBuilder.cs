using System.Collections.Immutable;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// Puts the runs of a network on paper one by one, each between its two arms; where the order of arms forces a run to cross
/// others, it crosses as few as it can, given what lies there already.
/// </summary>
/// <remarks>
/// Fixed rotation system, edge by edge insertion along a shortest path of faces.
/// Source: R. Tamassia (ed.), Handbook of Graph Drawing and Visualization, 2013, chapter 2 (crossings and planarization).
/// </remarks>
internal sealed class PlanarMapBuilder
{
    private readonly List<int[]> _arms = [];
    private readonly List<NetworkNode> _nodes = [];
    private readonly List<MapEdge> _edges = [];
    private readonly List<int>[] _edgesOfRun;
    private readonly List<int> _component = [];
    private readonly TrackNetwork _network;
    private readonly double[] _runLengths;

    /// <summary>An empty sheet.</summary>
    /// <param name="network">The network, crossings turned as they shall be.</param>
    /// <param name="runLengths">Drawn lengths: longer runs are crossed rather than shorter ones.</param>
    public PlanarMapBuilder(TrackNetwork network, double[] runLengths)
    {
        (_network, _runLengths) = (network, runLengths);
        foreach (NetworkNode node in network.Nodes)
        {
            var arms = new int[node.Halves.Length];
            Array.Fill(arms, -1);
            _arms.Add(arms);
            _nodes.Add(node);
            _component.Add(_component.Count);
        }

        _edgesOfRun = [.. network.Runs.Select(_ => new List<int>())];
    }

    /// <summary>How many bridges were needed so far.</summary>
    public int Bridges => _nodes.Count - _network.Nodes.Length;

    /// <summary>Draws one run.</summary>
    public void Insert(int run)
    {
        (int from, int to) = (_network.Runs[run].From, _network.Runs[run].To);
        int fromArm = _network.Nodes[from].Halves.IndexOf(2 * run), toArm = _network.Nodes[to].Halves.IndexOf((2 * run) + 1);
        IReadOnlyList<int> crossed = [];
        if (_component[from] != _component[to])
        {
            Merge(_component[from], _component[to]);
        }
        else if (Array.Exists(_arms[from], half => half >= 0))
        {
            int[] faces = FaceOfHalf();
            crossed = ShortestWay(faces, CornerFace(faces, from, fromArm), CornerFace(faces, to, toArm));
        }

        (int node, int arm) = (from, fromArm);
        foreach (int half in crossed)
        {
            int bridge = Split(half);
            AddEdge(run, (node, arm), (bridge, 1));
            (node, arm) = (bridge, 3);
        }

        AddEdge(run, (node, arm), (to, toArm));
    }

    /// <summary>The map.</summary>
    public PlanarMap Build() => new(
        [.. _nodes.Select((node, i) => MapNode.Of(node, [.. _arms[i]]))],
        [.. _edges],
        [.. _edgesOfRun.Select(edges => edges.ToImmutableArray())]);

    private void Merge(int keep, int drop)
    {
        for (int node = 0; node < _component.Count; node++)
        {
            if (_component[node] == drop) _component[node] = keep;
        }
    }

    private void AddEdge(int run, (int Node, int Arm) from, (int Node, int Arm) to)
    {
        int edge = _edges.Count;
        _edges.Add(new(run, from.Node, to.Node));
        _edgesOfRun[run].Add(edge);
        _arms[from.Node][from.Arm] = 2 * edge;
        _arms[to.Node][to.Arm] = (2 * edge) + 1;
    }

    // Puts a bridge into the edge of a half. Its arms: ahead along the half, to the left, back, to the right.
    private int Split(int half)
    {
        int edge = half / 2, bridge = _nodes.Count, beyond = _edges.Count;
        MapEdge whole = _edges[edge];
        _nodes.Add(new(NodeKind.Bridge, null, [], []));
        _component.Add(_component[whole.From]);
        _arms[whole.To][Array.IndexOf(_arms[whole.To], (2 * edge) + 1)] = (2 * beyond) + 1;
        _edges[edge] = whole with { To = bridge };
        _edges.Add(whole with { From = bridge });
        _edgesOfRun[whole.Run].Insert(_edgesOfRun[whole.Run].IndexOf(edge) + 1, beyond);
        (int on, int back) = (2 * beyond, (2 * edge) + 1);
        _arms.Add((half & 1) == 0 ? [on, -1, back, -1] : [back, -1, on, -1]);
        return bridge;
    }

    private int NodeOf(int half) => (half & 1) == 0 ? _edges[half / 2].From : _edges[half / 2].To;

    private int NextClockwise(int node, int arm)
    {
        int[] arms = _arms[node];
        int next = arm;
        do next = (next + arms.Length - 1) % arms.Length;
        while (arms[next] < 0);
        return arms[next];
    }

    private int CornerFace(int[] faces, int node, int arm) => faces[NextClockwise(node, arm)];

    private int[] FaceOfHalf()
    {
        var faces = new int[2 * _edges.Count];
        Array.Fill(faces, -1);
        int count = 0;
        for (int first = 0; first < faces.Length; first++)
        {
            if (faces[first] >= 0) continue;
            for (int half = first; faces[half] < 0;)
            {
                faces[half] = count;
                int node = NodeOf(half ^ 1);
                half = NextClockwise(node, Array.IndexOf(_arms[node], half ^ 1));
            }

            count++;
        }

        return faces;
    }

    // Dijkstra over faces; the halves to cross, each from its left to its right.
    private List<int> ShortestWay(int[] faces, int start, int goal)
    {
        int count = faces.Max() + 1;
        var cost = new double[count];
        Array.Fill(cost, double.PositiveInfinity);
        var entered = new int[count];
        var halvesOf = faces.Select((face, half) => (face, half)).ToLookup(pair => pair.face, pair => pair.half);
        var open = new PriorityQueue<int, (double, int)>();
        cost[start] = 0;
        open.Enqueue(start, (0, start));
        while (open.TryDequeue(out int face, out (double Cost, int) key) && face != goal)
        {
            if (key.Cost > cost[face]) continue;
            foreach (int half in halvesOf[face])
            {
                (int beyond, double there) = (faces[half ^ 1], cost[face] + 1 + (0.1 / (1 + _runLengths[_edges[half / 2].Run])));
                if (there >= cost[beyond]) continue;
                (cost[beyond], entered[beyond]) = (there, half);
                open.Enqueue(beyond, (there, beyond));
            }
        }

        var way = new List<int>();
        for (int face = goal; face != start; face = faces[entered[face]]) way.Add(entered[face]);
        way.Reverse();
        return way;
    }
}
