using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>Rails that certain links join, by union and find.</summary>
internal sealed class RailIslands
{
    private readonly int[] _parents;

    /// <summary>Joins what the links join.</summary>
    public RailIslands(RailGraph graph, IEnumerable<RailLink> links)
    {
        _parents = [.. Enumerable.Range(0, graph.Nodes.Length)];
        foreach (RailLink link in links) _parents[Of(link.From)] = Of(link.To);
    }

    /// <summary>The island of a node, by the number of one of its nodes.</summary>
    public int Of(int node)
    {
        while (_parents[node] != node)
        {
            _parents[node] = _parents[_parents[node]];
            node = _parents[node];
        }

        return node;
    }
}
