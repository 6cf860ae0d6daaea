using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>Breadth-first search along what always conducts, with links that are taken out one by one.</summary>
internal sealed class RailPathWorkspace
{
    private readonly RailGraph _graph;
    private readonly List<int>[] _touching;
    private readonly bool[] _out;
    private readonly int[] _from;
    private readonly int[] _seen;
    private int _search;

    internal RailPathWorkspace(RailGraph graph)
    {
        _graph = graph;
        _touching = [.. graph.Nodes.Select(_ => new List<int>(3))];
        _out = new bool[graph.Links.Length];
        _from = new int[graph.Nodes.Length];
        _seen = new int[graph.Nodes.Length];
        for (int i = 0; i < graph.Links.Length; i++)
        {
            if (graph.Links[i] is not RailLink.Contact)
            {
                _touching[graph.Links[i].From].Add(i);
                _touching[graph.Links[i].To].Add(i);
            }
        }
    }

    /// <summary>How many nodes all searches together have come to.</summary>
    internal long Reached { get; private set; }

    /// <summary>The links that conduct always and are not taken out.</summary>
    internal IEnumerable<RailLink> Conducting =>
        _graph.Links.Where((link, i) => !_out[i] && link is not RailLink.Contact);

    /// <summary>Takes every link of some kind out of the search.</summary>
    internal void TakeOut(Func<RailLink, bool> which)
    {
        for (int i = 0; i < _out.Length; i++)
        {
            _out[i] |= which(_graph.Links[i]);
        }
    }

    /// <summary>Takes links, by index, out of the search or puts them back.</summary>
    internal void Take(IEnumerable<int> links, bool @out)
    {
        foreach (int link in links)
        {
            _out[link] = @out;
        }
    }

    /// <summary>The nodes of a shortest way from any of the starts to the nearest goal, both included; null where there is none.</summary>
    internal ImmutableArray<int>? Shortest(IEnumerable<int> starts, Func<int, bool> isGoal)
    {
        _search++;
        Queue<int> queue = new();
        foreach (int start in starts)
        {
            Reach(start, -1, queue);
        }

        while (queue.TryDequeue(out int node))
        {
            if (isGoal(node))
            {
                return Back(node);
            }

            foreach (int link in _touching[node])
            {
                if (!_out[link])
                {
                    Reach(_graph.Links[link].Opposite(node), node, queue);
                }
            }
        }

        return null;
    }

    /// <summary>The distance in links from one node to each node it reaches.</summary>
    internal Dictionary<int, int> Distances(int start)
    {
        Dictionary<int, int> distances = [];
        _ = Shortest([start], node =>
        {
            distances[node] = _from[node] < 0 ? 0 : distances[_from[node]] + 1;
            return false;
        });
        return distances;
    }

    internal ImmutableArray<RailPoint> Points(IEnumerable<int> nodes) => [.. nodes.Select(node => _graph.Nodes[node])];

    private void Reach(int node, int from, Queue<int> queue)
    {
        if (_seen[node] != _search)
        {
            Reached++;
            _seen[node] = _search;
            _from[node] = from;
            queue.Enqueue(node);
        }
    }

    private ImmutableArray<int> Back(int goal)
    {
        List<int> path = [];
        for (int node = goal; node >= 0; node = _from[node])
        {
            path.Add(node);
        }

        path.Reverse();
        return [.. path];
    }
}
