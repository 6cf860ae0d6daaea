using System.Collections.Immutable;

namespace WireUp.Rails;

/// <summary>
/// A graph in which every vertex but the root is matched to another, and the tree of alternating paths from that root. A vertex is even
/// when a path that begins with an unmatched edge at the root and alternates ends there with a matched edge; odd cycles are
/// shrunk, and make all their vertices even.
/// </summary>
/// <remarks>
/// Source: H. N. Gabow, R. E. Tarjan, "A linear-time algorithm for a special case of disjoint set union", Journal of Computer and System
/// Sciences 30 (1985), pages 209–221, for shrinking with disjoint sets (from memory). An odd vertex that becomes even keeps the edge
/// that closed its cycle, from its own side; its path goes back to that edge, over it, and on to the root.
/// </remarks>
internal sealed class AlternatingTreeWorkspace
{
    private readonly List<int> _mate = [-1];
    private readonly List<List<int>> _adjacent = [[]];
    private State[] _state = [];
    private int[] _parent = [];
    private (int Near, int Far)[] _bridge = [];
    private int[] _base = [];
    private int[] _climbed = [];
    private DisjointSetsWorkspace _sets = new(0);
    private int _climb;

    private enum State : byte
    {
        Unseen,
        Odd,
        Even,
        EvenByCycle,
    }

    /// <summary>Two new vertices, matched to each other. The root, vertex 0, is there from the beginning.</summary>
    internal (int One, int Other) AddMatched()
    {
        (int one, int other) = (_mate.Count, _mate.Count + 1);
        _mate.AddRange([other, one]);
        _adjacent.AddRange([[], []]);
        return (one, other);
    }

    /// <summary>An unmatched edge.</summary>
    internal void Join(int one, int other)
    {
        _adjacent[one].Add(other);
        _adjacent[other].Add(one);
    }

    internal bool IsEven(int vertex) => _state[vertex] >= State.Even;

    /// <summary>Grows the tree from the root as far as it goes.</summary>
    internal void Grow(int root)
    {
        int count = _mate.Count;
        (_state, _parent, _bridge, _base, _climbed) = (new State[count], new int[count], new (int, int)[count], [.. Enumerable.Range(0, count)], new int[count]);
        _sets = new(count);
        _state[root] = State.Even;
        Queue<int> even = new([root]);
        while (even.TryDequeue(out int vertex))
        {
            foreach (int next in _adjacent[vertex])
            {
                if (_state[next] == State.Unseen)
                {
                    int mate = _mate[next];
                    (_state[next], _parent[next], _state[mate]) = (State.Odd, vertex, State.Even);
                    even.Enqueue(mate);
                }
                else if (IsEven(next) && BaseOf(next) != BaseOf(vertex))
                {
                    int top = Meeting(vertex, next);
                    Shrink(vertex, next, top, even);
                    Shrink(next, vertex, top, even);
                }
            }
        }
    }

    /// <summary>The vertices of an alternating path from an even vertex, over its mate, to the root.</summary>
    internal ImmutableArray<int> PathToRoot(int vertex)
    {
        ImmutableArray<int>.Builder path = ImmutableArray.CreateBuilder<int>();
        Stack<Part> parts = new([new(vertex, 0, IsReversed: false)]);
        while (parts.TryPop(out Part part))
        {
            if (part.From == part.To)
            {
                path.Add(part.From);
                continue;
            }

            int mate = _mate[part.From];
            Part[] inOrder = _state[part.From] == State.Even
                ? [Part.One(part.From), Part.One(mate), new(_parent[mate], part.To, IsReversed: false)]
                : [Part.One(part.From), new(_bridge[part.From].Near, mate, IsReversed: true), new(_bridge[part.From].Far, part.To, IsReversed: false)];
            foreach (Part next in part.IsReversed ? inOrder.Select(each => each with { IsReversed = !each.IsReversed }) : Enumerable.Reverse(inOrder))
            {
                parts.Push(next);
            }
        }

        return path.ToImmutable();
    }

    private int BaseOf(int vertex) => _base[_sets.Find(vertex)];

    /// <summary>The base at which the paths of two even vertices to the root meet.</summary>
    private int Meeting(int one, int other)
    {
        _climb++;
        (int first, int second) = (BaseOf(one), BaseOf(other));
        while (true)
        {
            if (first >= 0)
            {
                if (_climbed[first] == _climb)
                {
                    return first;
                }

                _climbed[first] = _climb;
                first = Above(first);
            }

            (first, second) = second >= 0 ? (second, first) : (first, second);
        }
    }

    private int Above(int @base) => _mate[@base] is var mate and >= 0 ? BaseOf(_parent[mate]) : -1;

    /// <summary>Shrinks one side of an odd cycle into its top; the odd vertices on it become even.</summary>
    private void Shrink(int near, int far, int top, Queue<int> even)
    {
        int at = BaseOf(near);
        while (at != top)
        {
            int odd = _mate[at], above = BaseOf(_parent[odd]);
            (_state[odd], _bridge[odd]) = (State.EvenByCycle, (near, far));
            even.Enqueue(odd);
            Unite(at, top);
            Unite(odd, top);
            at = above;
        }
    }

    private void Unite(int vertex, int top)
    {
        _sets.Join(vertex, top);
        _base[_sets.Find(top)] = top;
    }

    /// <summary>A part of a path: from a vertex down to another, or the same backwards.</summary>
    private readonly record struct Part(int From, int To, bool IsReversed)
    {
        internal static Part One(int vertex) => new(vertex, vertex, IsReversed: false);
    }
}
