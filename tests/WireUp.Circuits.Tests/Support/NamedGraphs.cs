namespace WireUp.Circuits.Tests.Support;

/// <summary>Edges of graphs that have names, one ohm each.</summary>
internal static class NamedGraphs
{
    internal static IEnumerable<(int From, int To, double Ohms)> Cube() =>
        Pairs(8, (a, b) => int.PopCount(a ^ b) == 1);

    internal static IEnumerable<(int From, int To, double Ohms)> Petersen() =>
        Pairs(10, (a, b) => (b < 5 && (b - a is 1 or 4)) || (a < 5 && b == a + 5) || (a >= 5 && (b - a is 2 or 3)));

    internal static IEnumerable<(int From, int To, double Ohms)> Octahedron() => Pairs(6, (a, b) => a / 2 != b / 2);

    /// <summary>Two poles, 0 and 11, and two rings of five between them.</summary>
    internal static IEnumerable<(int From, int To, double Ohms)> Icosahedron() => Pairs(12, (a, b) =>
        (a == 0 && b <= 5) || (b == 11 && a >= 6)
        || (a is >= 1 and <= 5 && b <= 5 && (b - a is 1 or 4))
        || (a is >= 6 and <= 10 && b <= 10 && (b - a is 1 or 4))
        || (a is >= 1 and <= 5 && b is >= 6 and <= 10 && (b - 6 == a - 1 || b - 6 == a % 5)));

    /// <summary>The generalised Petersen graph GP(10, 2): an outer ring of ten, spokes, and inner chords of step two.</summary>
    internal static IEnumerable<(int From, int To, double Ohms)> Dodecahedron() => Pairs(20, (a, b) =>
        (b < 10 && (b - a is 1 or 9)) || (a < 10 && b == a + 10) || (a >= 10 && (b - a is 2 or 8)));

    internal static IEnumerable<(int From, int To, double Ohms)> Complete(int n) => Pairs(n, (_, _) => true);

    internal static IEnumerable<(int From, int To, double Ohms)> Ring(int n) => Pairs(n, (a, b) => b - a == 1 || b - a == n - 1);

    internal static IEnumerable<(int From, int To, double Ohms)> Grid3() =>
        Pairs(9, (a, b) => (b - a == 1 && b % 3 != 0) || b - a == 3);

    /// <summary>Steps along the shortest way from node 0 to every node.</summary>
    internal static int[] Distances(int n, IEnumerable<(int From, int To, double Ohms)> edges)
    {
        (int From, int To, double Ohms)[] list = [.. edges];
        int[] distance = [.. Enumerable.Repeat(int.MaxValue, n)];
        distance[0] = 0;
        for (int step = 0; step < n; step++)
        {
            foreach ((int from, int to, _) in list)
            {
                distance[to] = distance[from] == step && distance[to] > step ? step + 1 : distance[to];
                distance[from] = distance[to] == step && distance[from] > step ? step + 1 : distance[from];
            }
        }

        return distance;
    }

    private static IEnumerable<(int From, int To, double Ohms)> Pairs(int n, Func<int, int, bool> joined) =>
        from a in Enumerable.Range(0, n)
        from b in Enumerable.Range(a + 1, n - a - 1)
        where joined(a, b)
        select (a, b, 1.0);
}
