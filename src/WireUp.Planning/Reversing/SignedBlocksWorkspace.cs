using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>Splits a graph without loops into its 2-connected parts, as lists of edges.</summary>
/// <remarks>J. Hopcroft, R. Tarjan, Algorithm 447: efficient algorithms for graph manipulation, CACM 16 (1973), pages 372–378; without recursion.</remarks>
internal sealed class SignedBlocksWorkspace
{
    private readonly ImmutableArray<SignedEdge> _edges;
    private readonly ILookup<int, int> _touching;
    private readonly int[] _number;
    private readonly int[] _low;
    private readonly bool[] _seen;
    private readonly Stack<int> _stack = new();
    private readonly List<ImmutableArray<int>> _blocks = [];
    private int _next;

    private SignedBlocksWorkspace(int vertices, ImmutableArray<SignedEdge> edges)
    {
        (_edges, _number, _low, _seen) = (edges, new int[vertices], new int[vertices], new bool[edges.Length]);
        _touching = Enumerable.Range(0, edges.Length)
            .SelectMany(i => new[] { (Vertex: edges[i].One, i), (Vertex: edges[i].Other, i) })
            .ToLookup(pair => pair.Vertex, pair => pair.i);
    }

    /// <summary>The parts, in order of their first edge; edges ascending.</summary>
    internal static ImmutableArray<ImmutableArray<int>> Of(int vertices, ImmutableArray<SignedEdge> edges)
    {
        SignedBlocksWorkspace workspace = new(vertices, edges);
        for (int vertex = 0; vertex < vertices; vertex++)
        {
            if (workspace._number[vertex] == 0)
            {
                workspace.Visit(vertex);
            }
        }

        return [.. workspace._blocks.OrderBy(block => block[0])];
    }

    private void Visit(int root)
    {
        Stack<(int Vertex, int ByEdge, IEnumerator<int> Edges)> path = new();
        Enter(path, root, -1);
        while (path.TryPeek(out (int Vertex, int ByEdge, IEnumerator<int> Edges) at))
        {
            if (at.Edges.MoveNext())
            {
                Step(path, at.Vertex, at.Edges.Current);
            }
            else
            {
                path.Pop();
                if (path.TryPeek(out (int Vertex, int ByEdge, IEnumerator<int> Edges) parent))
                {
                    Leave(parent.Vertex, at.Vertex, at.ByEdge);
                }
            }
        }
    }

    private void Enter(Stack<(int Vertex, int ByEdge, IEnumerator<int> Edges)> path, int vertex, int byEdge)
    {
        _number[vertex] = _low[vertex] = ++_next;
        path.Push((vertex, byEdge, _touching[vertex].GetEnumerator()));
    }

    private void Step(Stack<(int Vertex, int ByEdge, IEnumerator<int> Edges)> path, int vertex, int edge)
    {
        if (_seen[edge])
        {
            return;
        }

        _seen[edge] = true;
        _stack.Push(edge);
        int next = _edges[edge].Opposite(vertex);
        if (_number[next] == 0)
        {
            Enter(path, next, edge);
        }
        else
        {
            _low[vertex] = Math.Min(_low[vertex], _number[next]);
        }
    }

    private void Leave(int parent, int child, int byEdge)
    {
        _low[parent] = Math.Min(_low[parent], _low[child]);
        if (_low[child] >= _number[parent])
        {
            List<int> block = [];
            do
            {
                block.Add(_stack.Pop());
            }
            while (block[^1] != byEdge);
            _blocks.Add([.. block.Order()]);
        }
    }
}
