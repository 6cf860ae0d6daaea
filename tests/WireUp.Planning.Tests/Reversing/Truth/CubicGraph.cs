using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing.Truth;

/// <summary>
/// A graph with three edges at every vertex, and the track that is the same graph with signs: a turnout for each vertex, a section for
/// each edge. Where two ends of the same kind meet (points and points, leg and leg) the edge is negative, else positive.
/// </summary>
internal sealed record CubicGraph(int Vertices, IReadOnlyList<(int One, int Other)> Edges)
{
    /// <summary>
    /// A cycle with a chord from each vertex: the steps of the chords repeat. Notation of J. Lederberg, H. S. M. Coxeter and R. Frucht.
    /// </summary>
    public static CubicGraph Chords(int repeats, params int[] steps)
    {
        int n = repeats * steps.Length;
        int Over(int vertex) => ((vertex + steps[vertex % steps.Length]) % n + n) % n;
        return new(n,
        [
            .. Enumerable.Range(0, n).Select(vertex => (vertex, (vertex + 1) % n)),
            .. Enumerable.Range(0, n).Where(vertex => vertex < Over(vertex)).Select(vertex => (vertex, Over(vertex))),
        ]);
    }

    /// <summary>The generalised Petersen graph: an outer ring, an inner ring stepping by k, and spokes.</summary>
    public static CubicGraph Petersen(int n, int k) => new(2 * n,
    [
        .. Enumerable.Range(0, n).Select(i => (i, (i + 1) % n)),
        .. Enumerable.Range(0, n).Select(i => (n + i, n + ((i + k) % n))),
        .. Enumerable.Range(0, n).Select(i => (i, n + i)),
    ]);

    /// <summary>For each vertex the edge of a perfect matching, which are the last edges listed: turn the points that way.</summary>
    public int[] MatchedPoints =>
        [.. Enumerable.Range(0, Vertices).Select(vertex => Enumerable.Range(0, Edges.Count).Last(edge => Touches(edge, vertex)))];

    /// <summary>The signs that result when each vertex turns its points to the given edge.</summary>
    public bool[] Negative(int[] points) =>
        [.. Edges.Select((edge, i) => (points[edge.One] == i) == (points[edge.Other] == i))];

    /// <summary>The fewest edges to delete for balance, by trying every two-colouring.</summary>
    public int IndexByTrial(bool[] negative)
    {
        int best = Edges.Count;
        for (int colours = 0; colours < 1 << (Vertices - 1); colours++)
        {
            int wrong = 0;
            for (int i = 0; i < Edges.Count && wrong < best; i++)
            {
                bool differ = (((colours >> Edges[i].One) ^ (colours >> Edges[i].Other)) & 1) == 1;
                wrong += differ == negative[i] ? 0 : 1;
            }

            best = Math.Min(best, wrong);
        }

        return best;
    }

    /// <summary>The track, every section of a length that a train fits into.</summary>
    public Layout Track(int[] points)
    {
        int[] legsUsed = new int[Vertices];
        string Leg(int vertex) => legsUsed[vertex]++ == 0 ? "through" : "diverging";
        string End(int vertex, int edge) => $"T{vertex:D2}." + (points[vertex] == edge ? "points" : Leg(vertex));
        IEnumerable<string> sections = Edges.Select((_, i) => $"e{i:D2} 3");
        return Reversing.Track.Of(
            string.Join("; ", Enumerable.Range(0, Vertices).Select(vertex => $"T{vertex:D2} right").Concat(sections)),
            [.. Edges.Select((edge, i) => $"{End(edge.One, i)} > e{i:D2} > {End(edge.Other, i)}")]);
    }

    private bool Touches(int edge, int vertex) => Edges[edge].One == vertex || Edges[edge].Other == vertex;
}
