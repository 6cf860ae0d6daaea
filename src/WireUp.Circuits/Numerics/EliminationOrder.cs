namespace WireUp.Circuits.Numerics;

/// <summary>
/// The order in which vertices are eliminated: in rounds, each of vertices of least degree in the graph that elimination has left, no
/// two of them neighbours (multiple minimum degree); then put into postorder of the elimination tree so that what is used
/// together lies together, and run by run into order of height so that neighbours in the order do not wait for each other.
/// Source: T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, chapters 4.1 (elimination tree) and 7.1 (minimum degree);
/// J. W. H. Liu, Modification of the minimum-degree algorithm by multiple elimination, ACM Transactions on Mathematical Software 11 (1985).
/// </summary>
/// <remarks>
/// The graph is kept as explicit neighbour lists, not as a quotient graph: a layout is nearly a tree, so the lists stay short,
/// and the list that a vertex has when it goes is at once the pattern of its column.
/// </remarks>
internal sealed class EliminationOrder
{
    /// <summary>Vertices that fit, with their columns, into a fast memory.</summary>
    private const int Run = 4096;

    /// <summary>
    /// Degree, in unknowns, up to which a vertex may go although another has less: five places on a railway, hardly more fill, and
    /// ways to the root many times shorter.
    /// </summary>
    private const int AlwaysAllowed = 10;

    private readonly int[] _weight;
    private readonly int[] _start;
    private readonly int[] _length;
    private readonly int[] _room;
    private readonly int[] _mark;
    private readonly int[] _waiting;
    private readonly DegreeQueue _queue;
    private int[] _pool;
    private int _used;
    private int _stamp;

    private EliminationOrder(VertexGraph graph)
    {
        int n = graph.VertexCount;
        (_start, _pool) = graph.Adjacency();
        _used = _start[n];
        _length = new int[n];
        _weight = new int[n];
        foreach (int vertex in graph.VertexOf)
        {
            _weight[vertex]++;
        }

        for (int v = 0; v < n; v++)
        {
            _length[v] = _start[v + 1] - _start[v];
        }

        _room = [.. _length];
        _mark = new int[n];
        _waiting = GC.AllocateUninitializedArray<int>(n);
        _queue = new DegreeQueue(n, graph.UnknownCount);
        Sequence = GC.AllocateUninitializedArray<int>(n);
        PlaceOf = GC.AllocateUninitializedArray<int>(n);
    }

    /// <summary>The vertices in the order they go.</summary>
    internal int[] Sequence { get; private set; }

    /// <summary>For every vertex its place in <see cref="Sequence"/>.</summary>
    internal int[] PlaceOf { get; }

    /// <summary>The vertices that a vertex is coupled to when it goes; all of them go later.</summary>
    internal ReadOnlySpan<int> Pattern(int vertex) => _pool.AsSpan(_start[vertex], _length[vertex]);

    internal static EliminationOrder Of(VertexGraph graph)
    {
        EliminationOrder order = new(graph);
        order.Eliminate();
        int[] parent = order.Parents();
        order.Sequence = order.Postorder(parent);
        order.Sequence = order.LeavesFirst(parent);
        order.NumberPlaces();
        return order;
    }

    private void Eliminate()
    {
        int n = Sequence.Length;
        for (int v = n - 1; v >= 0; v--)
        {
            _queue.Put(v, Degree(v));
        }

        int done = 0;
        while (done < n)
        {
            done = EliminateApart(Math.Max(_queue.LeastDegree(), AlwaysAllowed), done);
        }

        NumberPlaces();
    }

    /// <summary>
    /// One round: vertices of at most that degree, none beside another, so that none of them waits for another. Those beside them come
    /// back when the round is over.
    /// </summary>
    private int EliminateApart(int degree, int done)
    {
        int waiting = 0;
        while (done < Sequence.Length && _queue.LeastDegree() <= degree)
        {
            int vertex = _queue.Take();
            Sequence[done++] = vertex;
            for (int i = 0; i < _length[vertex]; i++)
            {
                int neighbour = _pool[_start[vertex] + i];
                Merge(neighbour, vertex);
                if (_queue.TryRemove(neighbour))
                {
                    _waiting[waiting++] = neighbour;
                }
            }
        }

        while (waiting > 0)
        {
            int vertex = _waiting[--waiting];
            _queue.Put(vertex, Degree(vertex));
        }

        return done;
    }

    private int Degree(int vertex)
    {
        int degree = 0;
        foreach (int neighbour in Pattern(vertex))
        {
            degree += _weight[neighbour];
        }

        return degree;
    }

    /// <summary>Takes the eliminated vertex out of a neighbour's list and puts the other neighbours of it in.</summary>
    private void Merge(int neighbour, int eliminated)
    {
        _stamp++;
        _mark[neighbour] = _stamp;
        int kept = 0;
        Span<int> own = _pool.AsSpan(_start[neighbour], _length[neighbour]);
        foreach (int other in own)
        {
            if (other != eliminated)
            {
                own[kept++] = other;
                _mark[other] = _stamp;
            }
        }

        _length[neighbour] = kept;
        for (int i = 0; i < _length[eliminated]; i++)
        {
            int other = _pool[_start[eliminated] + i];
            if (_mark[other] != _stamp)
            {
                Append(neighbour, other);
            }
        }
    }

    private void Append(int vertex, int neighbour)
    {
        if (_length[vertex] == _room[vertex])
        {
            Relocate(vertex, Math.Max(4, 2 * _room[vertex]));
        }

        _pool[_start[vertex] + _length[vertex]++] = neighbour;
    }

    private void Relocate(int vertex, int room)
    {
        if (_used + room > _pool.Length)
        {
            Array.Resize(ref _pool, Math.Max(_used + room, checked(2 * _pool.Length)));
        }

        _pool.AsSpan(_start[vertex], _length[vertex]).CopyTo(_pool.AsSpan(_used));
        _start[vertex] = _used;
        _room[vertex] = room;
        _used += room;
    }

    private void NumberPlaces()
    {
        for (int i = 0; i < Sequence.Length; i++)
        {
            PlaceOf[Sequence[i]] = i;
        }
    }

    /// <summary>Davis 2006, chapter 4.3: depth-first through the elimination tree, children before parents.</summary>
    private int[] Postorder(int[] parentOf)
    {
        int n = Sequence.Length;
        int[] firstChild = GC.AllocateUninitializedArray<int>(n + 1), sibling = GC.AllocateUninitializedArray<int>(n);
        Array.Fill(firstChild, -1);
        for (int i = n - 1; i >= 0; i--)
        {
            int parent = parentOf[Sequence[i]];
            int slot = parent < 0 ? n : parent;
            sibling[Sequence[i]] = firstChild[slot];
            firstChild[slot] = Sequence[i];
        }

        int[] order = GC.AllocateUninitializedArray<int>(n);
        int[] path = GC.AllocateUninitializedArray<int>(n);
        int done = 0;
        for (int root = firstChild[n]; root >= 0; root = sibling[root])
        {
            int depth = 0;
            path[0] = root;
            while (depth >= 0)
            {
                int vertex = path[depth], child = firstChild[vertex];
                if (child >= 0)
                {
                    firstChild[vertex] = sibling[child];
                    path[++depth] = child;
                }
                else
                {
                    order[done++] = vertex;
                    depth--;
                }
            }
        }

        return order;
    }

    /// <summary>
    /// Runs of the postorder that fit into a fast memory, each put in order of height over the leaves: children still come before
    /// parents, but a vertex no longer waits for the one just before it, so that several are on the way at once.
    /// </summary>
    private int[] LeavesFirst(int[] parent)
    {
        int n = Sequence.Length;
        int[] height = new int[n], next = new int[n + 2], order = GC.AllocateUninitializedArray<int>(n);
        for (int from = 0; from < n; from += Run)
        {
            ReadOnlySpan<int> run = Sequence.AsSpan(from, Math.Min(Run, n - from));
            int most = CountHeights(run, parent, height, next);
            next[0] = from;
            for (int i = 0; i <= most; i++)
            {
                next[i + 1] += next[i];
            }

            foreach (int vertex in run)
            {
                order[next[height[vertex]]++] = vertex;
            }

            Array.Clear(next, 0, most + 2);
        }

        return order;
    }

    private static int CountHeights(ReadOnlySpan<int> run, int[] parentOf, int[] height, int[] count)
    {
        int most = 0;
        foreach (int vertex in run)
        {
            count[height[vertex] + 1]++;
            most = Math.Max(most, height[vertex]);
            if (parentOf[vertex] is var parent and >= 0)
            {
                height[parent] = Math.Max(height[parent], height[vertex] + 1);
            }
        }

        return most;
    }

    /// <summary>For every vertex the first of those it is coupled to when it goes: its parent in the elimination tree; −1 for a root.</summary>
    private int[] Parents()
    {
        int[] parents = GC.AllocateUninitializedArray<int>(Sequence.Length);
        for (int vertex = 0; vertex < parents.Length; vertex++)
        {
            int parent = -1;
            foreach (int other in Pattern(vertex))
            {
                parent = parent < 0 || PlaceOf[other] < PlaceOf[parent] ? other : parent;
            }

            parents[vertex] = parent;
        }

        return parents;
    }
}
