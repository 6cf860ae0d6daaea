using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>
/// Makes a signed graph smaller without changing what it costs to balance it. A vertex with one edge is labelled by it; one with two
/// becomes a single edge, of their common sign, that costs what the cheaper costs; parallel edges of one sign add up, and of
/// opposite sign the cheaper one is lost for certain; so is a negative loop. What remains has three edges at each vertex.
/// </summary>
/// <remarks>
/// Source: F. Hüffner, N. Betzler, R. Niedermeier, "Separator-based data reduction for signed graph balancing", Journal of
/// Combinatorial Optimization 20 (2010), pages 335–360 (from memory); here with separators of one and two vertices only.
/// </remarks>
internal sealed class SignedReductionWorkspace
{
    private readonly SortedDictionary<int, (bool Negative, int Weight)>[] _edges;
    private readonly Stack<Removed> _removed = new();
    private readonly Queue<int> _open;

    internal SignedReductionWorkspace(SignedGraph graph)
    {
        _edges = [.. Enumerable.Range(0, graph.Vertices).Select(_ => new SortedDictionary<int, (bool, int)>())];
        foreach (SignedEdge edge in graph.Edges)
        {
            Add(edge.One, edge.Other, edge.Negative, edge.Weight);
        }

        _open = new(Enumerable.Range(0, graph.Vertices));
        while (_open.TryDequeue(out int vertex))
        {
            Remove(vertex);
        }
    }

    /// <summary>What is lost whatever labels are chosen.</summary>
    internal int Lost { get; private set; }

    /// <summary>The edges that remain, in order of their ends.</summary>
    internal ImmutableArray<SignedEdge> Core =>
    [
        .. from one in Enumerable.Range(0, _edges.Length)
           from edge in _edges[one]
           where one < edge.Key
           select new SignedEdge(one, edge.Key, edge.Value.Negative, edge.Value.Weight),
    ];

    /// <summary>Labels the vertices that were taken out, given labels of those that remained.</summary>
    internal void Restore(bool[] labels)
    {
        while (_removed.TryPop(out Removed? removed))
        {
            labels[removed.Vertex] = removed.Label(labels);
        }
    }

    private void Add(int one, int other, bool negative, int weight)
    {
        if (one == other)
        {
            Lost += negative ? weight : 0;
            return;
        }

        if (!_edges[one].TryGetValue(other, out (bool Negative, int Weight) known))
        {
            Set(one, other, negative, weight);
        }
        else if (known.Negative == negative)
        {
            Set(one, other, negative, known.Weight + weight);
        }
        else
        {
            Lost += Math.Min(known.Weight, weight);
            Set(one, other, known.Weight > weight ? known.Negative : negative, Math.Abs(known.Weight - weight));
        }
    }

    private void Set(int one, int other, bool negative, int weight)
    {
        if (weight == 0)
        {
            _edges[one].Remove(other);
            _edges[other].Remove(one);
        }
        else
        {
            _edges[one][other] = _edges[other][one] = (negative, weight);
        }
    }

    private void Remove(int vertex)
    {
        if (_edges[vertex].Count is 0 or > 2)
        {
            return;
        }

        (int neighbour, (bool negative, int weight)) = _edges[vertex].First();
        (int second, (bool secondNegative, int secondWeight)) = _edges[vertex].Last();
        bool isLeaf = neighbour == second;
        _removed.Push(new(vertex, new(vertex, neighbour, negative, weight), isLeaf ? null : new(vertex, second, secondNegative, secondWeight)));
        Set(vertex, neighbour, negative, 0);
        if (!isLeaf)
        {
            Set(vertex, second, secondNegative, 0);
            Add(neighbour, second, negative != secondNegative, Math.Min(weight, secondWeight));
            _open.Enqueue(second);
        }

        _open.Enqueue(neighbour);
    }

    /// <summary>A vertex taken out with the one or two edges it had.</summary>
    private sealed record Removed(int Vertex, SignedEdge First, SignedEdge? Second)
    {
        /// <summary>The label that heeds both edges where that can be, else the dearer one.</summary>
        internal bool Label(bool[] labels)
        {
            bool bySecond = Second is { } second && second.Weight > First.Weight;
            SignedEdge heeded = bySecond ? Second!.Value : First;
            return labels[heeded.Opposite(Vertex)] != heeded.Negative;
        }
    }
}
