using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>Finds the 2-connected blocks of a <see cref="ParityGraph"/>, depth first with an explicit stack.</summary>
/// <remarks>J. Hopcroft, R. Tarjan, "Algorithm 447: efficient algorithms for graph manipulation", CACM 16 (1973).</remarks>
internal sealed class BlockFinderWorkspace
{
    private readonly ParityGraph _graph;
    private readonly ImmutableArray<ImmutableArray<int>> _adjacency;
    private readonly int[] _depth;
    private readonly int[] _low;
    private readonly bool[] _used;
    private readonly Stack<int> _open = new();
    private readonly List<ParityBlock> _blocks = [];
    private int _count;

    internal BlockFinderWorkspace(ParityGraph graph)
    {
        _graph = graph;
        _adjacency = SignedForest.Adjacency(graph);
        _depth = new int[graph.Parts.Length];
        _low = new int[graph.Parts.Length];
        _used = new bool[graph.Links.Length];
    }

    internal ImmutableArray<ParityBlock> Find()
    {
        for (int part = 0; part < _depth.Length; part++)
        {
            if (_depth[part] == 0)
            {
                Search(part);
            }
        }

        return [.. _blocks.OrderBy(block => block.Links[0])];
    }

    private void Search(int root)
    {
        Stack<(int Part, int ByLink, int Next)> path = new();
        Enter(root);
        path.Push((root, -1, 0));
        while (path.TryPop(out (int Part, int ByLink, int Next) at))
        {
            if (at.Next < _adjacency[at.Part].Length)
            {
                path.Push((at.Part, at.ByLink, at.Next + 1));
                Follow(at.Part, _adjacency[at.Part][at.Next], path);
            }
            else if (at.ByLink >= 0)
            {
                Leave(at.Part, _graph.Links[at.ByLink].Opposite(at.Part), at.ByLink);
            }
        }
    }

    private void Enter(int part) => _depth[part] = _low[part] = ++_count;

    private void Follow(int part, int link, Stack<(int Part, int ByLink, int Next)> path)
    {
        if (_used[link])
        {
            return;
        }

        _used[link] = true;
        int next = _graph.Links[link].Opposite(part);
        if (next == part)
        {
            Add([link]);
        }
        else if (_depth[next] == 0)
        {
            _open.Push(link);
            Enter(next);
            path.Push((next, link, 0));
        }
        else
        {
            _open.Push(link);
            _low[part] = Math.Min(_low[part], _depth[next]);
        }
    }

    private void Leave(int part, int parent, int byLink)
    {
        _low[parent] = Math.Min(_low[parent], _low[part]);
        if (_low[part] < _depth[parent])
        {
            return;
        }

        List<int> links = [];
        int link;
        do
        {
            link = _open.Pop();
            links.Add(link);
        }
        while (link != byLink);
        if (links.Count > 1)
        {
            Add(links);
        }
    }

    private void Add(List<int> links)
    {
        links.Sort();
        List<int> parts = [.. links.SelectMany(link => new[] { _graph.Links[link].From, _graph.Links[link].To }).Distinct().Order()];
        SignUnionWorkspace union = new(parts.Count);
        bool odd = false;
        foreach (PartLink link in links.Select(link => _graph.Links[link]))
        {
            odd |= !union.Join(parts.BinarySearch(link.From), parts.BinarySearch(link.To), link.Flips);
        }

        _blocks.Add(new([.. parts], [.. links], odd));
    }
}
