using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>
/// The parts of a graph that hang together in single vertices only: every two edges of a part lie on one closed walk that passes no vertex
/// twice. An edge on no closed walk is a part by itself, and so is a loop.
/// </summary>
/// <remarks>
/// J. Hopcroft, R. Tarjan, Algorithm 447: efficient algorithms for graph manipulation, CACM 16 (1973), pages 372–378; here without
/// recursion and with parallel edges told apart.
/// </remarks>
public static class BiconnectedParts
{
    /// <summary>The edges of each part, ascending; the parts in order of their first edge.</summary>
    /// <param name="vertices">How many vertices there are, numbered from 0.</param>
    /// <param name="edges">The two ends of each edge.</param>
    public static ImmutableArray<ImmutableArray<int>> Of(int vertices, IReadOnlyList<(int From, int To)> edges)
    {
        Workspace workspace = new(vertices, edges);
        for (int vertex = 0; vertex < vertices; vertex++)
        {
            workspace.VisitFrom(vertex);
        }

        return [.. workspace.Parts.OrderBy(part => part[0])];
    }

    private sealed class Workspace
    {
        private readonly IReadOnlyList<(int From, int To)> _edges;
        private readonly int[][] _at;
        private readonly int[] _number;
        private readonly int[] _low;
        private readonly bool[] _seen;
        private readonly Stack<int> _open = new();
        private int _count;

        public Workspace(int vertices, IReadOnlyList<(int From, int To)> edges)
        {
            (_edges, _number, _low, _seen) = (edges, new int[vertices], new int[vertices], new bool[edges.Count]);
            List<int>[] at = [.. Enumerable.Range(0, vertices).Select(_ => new List<int>())];
            for (int edge = 0; edge < edges.Count; edge++)
            {
                at[edges[edge].From].Add(edge);
                at[edges[edge].To].Add(edge);
            }

            _at = [.. at.Select(list => list.ToArray())];
        }

        public List<ImmutableArray<int>> Parts { get; } = [];

        public void VisitFrom(int start)
        {
            if (_number[start] > 0)
            {
                return;
            }

            _number[start] = _low[start] = ++_count;
            Stack<(int Vertex, int ByEdge, int Turn)> path = new([(start, -1, 0)]);
            while (path.TryPop(out (int Vertex, int ByEdge, int Turn) now))
            {
                if (now.Turn < _at[now.Vertex].Length)
                {
                    path.Push(now with { Turn = now.Turn + 1 });
                    Follow(now.Vertex, _at[now.Vertex][now.Turn], path);
                }
                else if (now.ByEdge >= 0)
                {
                    Leave(now.Vertex, path.Peek().Vertex, now.ByEdge);
                }
            }
        }

        private void Follow(int vertex, int edge, Stack<(int Vertex, int ByEdge, int Turn)> path)
        {
            if (_seen[edge])
            {
                return;
            }

            _seen[edge] = true;
            int next = _edges[edge].From == vertex ? _edges[edge].To : _edges[edge].From;
            if (next == vertex)
            {
                Parts.Add([edge]);
                return;
            }

            _open.Push(edge);
            if (_number[next] == 0)
            {
                _number[next] = _low[next] = ++_count;
                path.Push((next, edge, 0));
            }
            else
            {
                _low[vertex] = Math.Min(_low[vertex], _number[next]);
            }
        }

        private void Leave(int vertex, int parent, int byEdge)
        {
            _low[parent] = Math.Min(_low[parent], _low[vertex]);
            if (_low[vertex] < _number[parent])
            {
                return;
            }

            List<int> part = [];
            do
            {
                part.Add(_open.Pop());
            }
            while (part[^1] != byEdge);
            Parts.Add([.. part.Order()]);
        }
    }
}
