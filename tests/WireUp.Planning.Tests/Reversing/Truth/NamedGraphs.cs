using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Truth;

/// <summary>Graphs that books print, as lists of edges.</summary>
internal static class NamedGraphs
{
    /// <summary>The graph of a name; its vertices are numbered from 0.</summary>
    internal static (int Vertices, (int One, int Other)[] Edges) Of(string name) => name switch
    {
        "K4" => Complete(4),
        "K5" => Complete(5),
        "K6" => Complete(6),
        "C5" => Cycle(5),
        "C7" => Cycle(7),
        "wheel 4" => Wheel(4),
        "wheel 5" => Wheel(5),
        "wheel 6" => Wheel(6),
        "prism" => Petersen(3, 1),
        "octahedron" => (6, [.. Pairs(6).Where(pair => pair.Other - pair.One != 3)]),
        "cube" => Petersen(4, 1),
        "Wagner" => Chords(8, [4]),
        "Petersen" => Petersen(5, 2),
        "Groetzsch" => Groetzsch(),
        "Frucht" => Chords(12, [-5, -2, -4, 2, 5, -2, 2, 5, -2, -5, 4, 2]),
        "Chvatal" => Chvatal(),
        "truncated tetrahedron" => Chords(12, [2, 6, -2]),
        "icosahedron" => Icosahedron(),
        "Heawood" => Chords(14, [5, -5]),
        "Moebius-Kantor" => Petersen(8, 3),
        "Pappus" => Chords(18, [5, 7, -7, 7, -7, -5]),
        "dodecahedron" => Petersen(10, 2),
        "Desargues" => Petersen(10, 3),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such graph"),
    };

    internal static (int Vertices, (int One, int Other)[] Edges) Complete(int n) => (n, [.. Pairs(n)]);

    internal static (int Vertices, (int One, int Other)[] Edges) Cycle(int n) => (n, [.. Ring(n)]);

    /// <summary>The generalised Petersen graph: an outer ring, an inner ring stepping by k, and spokes.</summary>
    internal static (int Vertices, (int One, int Other)[] Edges) Petersen(int n, int k) => (2 * n,
        [.. Ring(n), .. Enumerable.Range(0, n).Select(i => (n + i, n + ((i + k) % n))), .. Enumerable.Range(0, n).Select(i => (i, n + i))]);

    /// <summary>The graph with every edge negative.</summary>
    internal static SignedGraph AllNegative((int Vertices, (int One, int Other)[] Edges) graph) =>
        new(graph.Vertices, [.. graph.Edges.Select(edge => new SignedEdge(edge.One, edge.Other, Negative: true))]);

    /// <summary>The index by trying every labelling.</summary>
    internal static int IndexByTrial(SignedGraph graph)
    {
        int best = int.MaxValue;
        for (int labels = 0; labels < 1 << (graph.Vertices - 1); labels++)
        {
            int cost = 0;
            foreach (SignedEdge edge in graph.Edges)
            {
                cost += edge.IsHeeded((labels >> edge.One & 1) == 1, (labels >> edge.Other & 1) == 1) ? 0 : edge.Weight;
            }

            best = Math.Min(best, cost);
        }

        return best;
    }

    private static IEnumerable<(int One, int Other)> Pairs(int n) =>
        from one in Enumerable.Range(0, n) from other in Enumerable.Range(one + 1, n - one - 1) select (one, other);

    private static IEnumerable<(int One, int Other)> Ring(int n) => Enumerable.Range(0, n).Select(i => (i, (i + 1) % n));

    private static (int, (int, int)[]) Wheel(int rim) => (rim + 1, [.. Ring(rim), .. Enumerable.Range(0, rim).Select(i => (i, rim))]);

    /// <summary>A ring and a chord from each vertex, whose steps repeat. Notation of J. Lederberg, H. S. M. Coxeter and R. Frucht.</summary>
    private static (int, (int, int)[]) Chords(int n, int[] steps)
    {
        int Over(int vertex) => ((vertex + steps[vertex % steps.Length]) % n + n) % n;
        return (n, [.. Ring(n), .. Enumerable.Range(0, n).Where(vertex => vertex < Over(vertex)).Select(vertex => (vertex, Over(vertex)))]);
    }

    /// <summary>The construction of Mycielski on the ring of five.</summary>
    private static (int, (int, int)[]) Groetzsch() => (11,
        [.. Ring(5), .. Ring(5).SelectMany(edge => new[] { (edge.One, 5 + edge.Other), (edge.Other, 5 + edge.One) }), .. Enumerable.Range(0, 5).Select(i => (5 + i, 10))]);

    /// <summary>Two rings of four and of eight: each outer vertex meets its neighbours, the outer vertex four on from every other, and two inner ones.</summary>
    private static (int, (int, int)[]) Chvatal() => (12,
    [
        (0, 1), (0, 4), (0, 6), (0, 9), (1, 2), (1, 5), (1, 7), (2, 3), (2, 6), (2, 8), (3, 4), (3, 7), (3, 9), (4, 5), (4, 8),
        (5, 10), (5, 11), (6, 10), (6, 11), (7, 8), (7, 11), (8, 10), (9, 10), (9, 11),
    ]);

    private static (int, (int, int)[]) Icosahedron() => (12,
    [
        .. Ring(5), .. Enumerable.Range(0, 5).Select(i => (i, 10)),
        .. Ring(5).Select(edge => (5 + edge.One, 5 + edge.Other)), .. Enumerable.Range(0, 5).Select(i => (5 + i, 11)),
        .. Enumerable.Range(0, 5).SelectMany(i => new[] { (i, 5 + i), (i, 5 + ((i + 1) % 5)) }),
    ]);
}
