using System.Collections.Immutable;

namespace WireUp.Planning.Buses;

/// <summary>
/// The parts of a corridor that hang together in single points only. Source: J. Hopcroft, R. Tarjan, Algorithm 447: efficient algorithms
/// for graph manipulation, CACM 16 (1973) 372–378; here without recursion and with parallel edges told apart.
/// </summary>
internal sealed class BiconnectedPartsWorkspace
{
    private readonly Corridor _corridor;
    private readonly int[] _number;
    private readonly int[] _low;
    private readonly bool[] _seen;
    private readonly Stack<int> _edges = new();
    private readonly List<ImmutableArray<int>> _parts = [];
    private int _next;

    private BiconnectedPartsWorkspace(Corridor corridor)
    {
        _corridor = corridor;
        (_number, _low, _seen) = (new int[corridor.PointCount], new int[corridor.PointCount], new bool[corridor.Edges.Length]);
    }

    /// <summary>The edges of each part, ascending.</summary>
    public static ImmutableArray<ImmutableArray<int>> Of(Corridor corridor)
    {
        BiconnectedPartsWorkspace workspace = new(corridor);
        for (int point = 0; point < corridor.PointCount; point++)
        {
            if (workspace._number[point] == 0)
            {
                workspace.Visit(point);
            }
        }

        return [.. workspace._parts];
    }

    private void Visit(int start)
    {
        Stack<(int Point, int ByEdge, int Turn)> path = new([(start, -1, 0)]);
        _number[start] = _low[start] = ++_next;
        while (path.TryPop(out (int Point, int ByEdge, int Turn) now))
        {
            (int at, int byEdge, int turn) = now;
            if (turn == _corridor.EdgesAt[at].Length)
            {
                if (path.TryPeek(out (int Point, int ByEdge, int Turn) parent))
                {
                    Leave(parent.Point, at, byEdge);
                }

                continue;
            }

            path.Push((at, byEdge, turn + 1));
            int edge = _corridor.EdgesAt[at][turn], other = _corridor.Opposite(edge, at);
            if (_seen[edge])
            {
                continue;
            }

            _seen[edge] = true;
            _edges.Push(edge);
            if (_number[other] == 0)
            {
                _number[other] = _low[other] = ++_next;
                path.Push((other, edge, 0));
            }
            else
            {
                _low[at] = Math.Min(_low[at], _number[other]);
            }
        }
    }

    private void Leave(int parent, int child, int byEdge)
    {
        _low[parent] = Math.Min(_low[parent], _low[child]);
        if (_low[child] >= _number[parent])
        {
            List<int> part = [];
            do
            {
                part.Add(_edges.Pop());
            }
            while (part[^1] != byEdge);
            _parts.Add([.. part.Order()]);
        }
    }
}
