namespace WireUp.Circuits.Numerics;

/// <summary>
/// The graph that is put in order before elimination. A vertex holds one unknown or two that belong together (both rails of
/// a place): ordering the pair as one costs little fill, keeps their common entry of the inverse at hand, and halves the work.
/// </summary>
/// <param name="vertexOf">For every unknown its vertex, from 0 to vertexCount − 1; unknowns of a vertex need not be neighbours.</param>
/// <param name="vertexCount">How many vertices there are; each holds one unknown or two.</param>
/// <param name="expectedEdges">Room made at once for so many couplings.</param>
internal sealed class VertexGraph(int[] vertexOf, int vertexCount, int expectedEdges = 0)
{
    private readonly List<(int From, int To)> _edges = new(expectedEdges);

    internal int UnknownCount => vertexOf.Length;

    internal int VertexCount => vertexCount;

    internal int[] VertexOf => vertexOf;

    /// <summary>Says that the unknowns of two vertices may be coupled. Repeats and loops are harmless.</summary>
    internal void Connect(int first, int second)
    {
        if (first != second)
        {
            _edges.Add((first, second));
        }
    }

    /// <summary>Neighbours of every vertex without repeats, one after the other: those of v lie from start[v] to start[v + 1].</summary>
    internal (int[] Start, int[] Neighbours) Adjacency()
    {
        int[] start = new int[vertexCount + 1];
        foreach ((int from, int to) in _edges)
        {
            start[from + 1]++;
            start[to + 1]++;
        }

        for (int v = 0; v < vertexCount; v++)
        {
            start[v + 1] += start[v];
        }

        int[] neighbours = GC.AllocateUninitializedArray<int>(2 * _edges.Count);
        int[] fill = start[..vertexCount];
        foreach ((int from, int to) in _edges)
        {
            neighbours[fill[from]++] = to;
            neighbours[fill[to]++] = from;
        }

        return WithoutRepeats(start, neighbours);
    }

    private (int[] Start, int[] Neighbours) WithoutRepeats(int[] start, int[] neighbours)
    {
        int[] seenFrom = new int[vertexCount];
        Array.Fill(seenFrom, -1);
        int kept = 0;
        for (int v = 0; v < vertexCount; v++)
        {
            int from = start[v];
            start[v] = kept;
            for (int i = from; i < start[v + 1]; i++)
            {
                int neighbour = neighbours[i];
                if (seenFrom[neighbour] != v)
                {
                    seenFrom[neighbour] = v;
                    neighbours[kept++] = neighbour;
                }
            }
        }

        start[vertexCount] = kept;
        return (start, neighbours);
    }
}
