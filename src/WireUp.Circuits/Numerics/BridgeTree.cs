namespace WireUp.Circuits.Numerics;

/// <summary>
/// Which conductances of a network are bridges: the only way between the reference and what lies beyond them. Found once in the
/// graph alone, by whole numbers; asking costs two comparisons.
/// </summary>
/// <remarks>
/// Depth-first from the reference. Every edge that is not of the tree leads back to an ancestor, so a tree edge is a bridge if and
/// only if nothing beyond it leads back before it. What lies beyond is one run of the order in which unknowns were reached.
/// Source: R. E. Tarjan, A note on finding the bridges of a graph, Information Processing Letters 2 (1974).
/// </remarks>
internal sealed class BridgeTree
{
    /// <summary>Stands for "no bridge".</summary>
    internal const int None = -2;

    private readonly int[] _start;
    private readonly int[] _edge;
    private readonly int[] _reached;
    private readonly int[] _below;
    private readonly int[] _parent;
    private readonly bool[] _isBridge;

    /// <param name="unknowns">How many unknowns there are.</param>
    /// <param name="from">One end of each conductance, an unknown or the reference.</param>
    /// <param name="to">The other end.</param>
    internal BridgeTree(int unknowns, ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int n = unknowns + 1;
        (_start, _edge) = Ends(n, from, to);
        (_reached, _below, _parent, _isBridge) = (new int[n], new int[n], new int[n], new bool[n]);
        Array.Fill(_reached, -1);
        int[] order = new int[n], parentEdge = new int[n];
        int count = Reach(order, parentEdge, from, to);
        FindBridges(order.AsSpan(0, count), parentEdge, from, to);
    }

    /// <summary>
    /// The unknown at the far end, seen from the reference, of the conductance between two unknowns, if it is a bridge; else
    /// <see cref="None"/>.
    /// </summary>
    internal int Beyond(int from, int to)
    {
        (int a, int b) = (Vertex(from), Vertex(to));
        return _isBridge[a] && _parent[a] == b ? from : _isBridge[b] && _parent[b] == a ? to : None;
    }

    /// <summary>Whether an unknown lies beyond a bridge, given by its far end.</summary>
    internal bool IsBeyond(int bridge, int unknown)
    {
        int depth = _reached[Vertex(unknown)] - _reached[Vertex(bridge)];
        return depth >= 0 && depth <= _below[Vertex(bridge)];
    }

    /// <summary>The reference comes last.</summary>
    private int Vertex(int unknown) => unknown == ConductanceWorkspace.Reference ? _parent.Length - 1 : unknown;

    private static (int[] Start, int[] Edge) Ends(int n, ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int[] start = new int[n + 1];
        for (int i = 0; i < from.Length; i++)
        {
            start[(from[i] < 0 ? n - 1 : from[i]) + 1]++;
            start[(to[i] < 0 ? n - 1 : to[i]) + 1]++;
        }

        for (int v = 0; v < n; v++)
        {
            start[v + 1] += start[v];
        }

        int[] edges = new int[2 * from.Length], next = start[..n];
        for (int i = 0; i < from.Length; i++)
        {
            edges[next[from[i] < 0 ? n - 1 : from[i]]++] = i;
            edges[next[to[i] < 0 ? n - 1 : to[i]]++] = i;
        }

        return (start, edges);
    }

    private int Reach(int[] order, int[] parentEdge, ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int root = order.Length - 1, count = 0, vertex = root;
        int[] next = _start[..^1];
        (parentEdge[root], _parent[root], _reached[root], order[count++]) = (-1, -1, 0, root);
        while (vertex >= 0)
        {
            if (next[vertex] == _start[vertex + 1])
            {
                vertex = _parent[vertex];
                continue;
            }

            int edge = _edge[next[vertex]++], other = Other(edge, vertex, from, to);
            if (_reached[other] < 0)
            {
                (parentEdge[other], _parent[other], _reached[other]) = (edge, vertex, count);
                order[count++] = vertex = other;
            }
        }

        return count;
    }

    private void FindBridges(ReadOnlySpan<int> order, int[] parentEdge, ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int[] earliest = [.. _reached];
        for (int i = order.Length - 1; i > 0; i--)
        {
            int vertex = order[i], parent = _parent[vertex];
            for (int k = _start[vertex]; k < _start[vertex + 1]; k++)
            {
                if (_edge[k] != parentEdge[vertex])
                {
                    earliest[vertex] = Math.Min(earliest[vertex], earliest[Other(_edge[k], vertex, from, to)]);
                }
            }

            _isBridge[vertex] = earliest[vertex] == _reached[vertex];
            _below[parent] += _below[vertex] + 1;
        }
    }

    private int Other(int edge, int vertex, ReadOnlySpan<int> from, ReadOnlySpan<int> to)
    {
        int first = Vertex(from[edge]);
        return first == vertex ? Vertex(to[edge]) : first;
    }
}
