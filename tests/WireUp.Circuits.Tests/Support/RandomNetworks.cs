using MathNet.Numerics.LinearAlgebra;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Networks of resistors drawn from a seed: a tree with some chords, conductances over four powers of ten.</summary>
internal static class RandomNetworks
{
    internal static (int Nodes, (int From, int To, double Ohms)[] Edges) Make(int seed)
    {
        Random random = new(seed);
        int nodes = random.Next(2, 60);
        List<(int, int, double)> edges = [.. Enumerable.Range(1, nodes - 1).Select(node => (random.Next(node), node, Ohms(random)))];
        for (int i = 0; i < random.Next(nodes); i++)
        {
            (int a, int b) = (random.Next(nodes), random.Next(nodes));
            if (a != b)
            {
                edges.Add((a, b, Ohms(random)));
            }
        }

        return (nodes, [.. edges]);
    }

    /// <summary>Up to five changes between unknowns: conductances added, made larger or smaller, and opened where that cuts nothing off.</summary>
    internal static IEnumerable<(int From, int To, double Siemens)> Changes(Random random, int nodes, (int From, int To, double Ohms)[] edges)
    {
        List<int> opened = [];
        foreach (int edge in Enumerable.Range(0, edges.Length).OrderBy(_ => random.Next()).Take(random.Next(1, 5)))
        {
            (int from, int to, double ohms) = edges[edge];
            switch (random.Next(3))
            {
                case 0 when ReachedWithout(nodes, [.. edges.Where((_, i) => i != edge && !opened.Contains(i))], null).All(reached => reached):
                    opened.Add(edge);
                    yield return (from - 1, to - 1, -1 / ohms);
                    break;
                case 1:
                    yield return (from - 1, to - 1, -0.9 / ohms);
                    break;
                default:
                    yield return (from - 1, to - 1, random.NextDouble() * 10 / ohms);
                    break;
            }
        }

        (int a, int b) = (random.Next(nodes), random.Next(nodes));
        if (a != b)
        {
            yield return (a - 1, b - 1, 1 / Ohms(random));
        }
    }

    /// <summary>Which nodes hang on node 0 when one edge is taken out.</summary>
    internal static bool[] ReachedWithout(int nodes, (int From, int To, double Ohms)[] edges, (int From, int To)? without)
    {
        bool[] reached = new bool[nodes];
        reached[0] = true;
        int skip = without is { } edge ? Array.FindIndex(edges, e => (e.From, e.To) == edge) : -1;
        for (bool grown = true; grown;)
        {
            grown = false;
            for (int i = 0; i < edges.Length; i++)
            {
                if (i != skip && reached[edges[i].From] != reached[edges[i].To])
                {
                    reached[edges[i].From] = reached[edges[i].To] = grown = true;
                }
            }
        }

        return reached;
    }

    /// <summary>The nodal matrix without the row of node 0.</summary>
    internal static Matrix<double> Dense(int nodes, (int From, int To, double Ohms)[] edges)
    {
        Matrix<double> matrix = Matrix<double>.Build.Dense(nodes - 1, nodes - 1);
        foreach ((int from, int to, double ohms) in edges)
        {
            Stamp(matrix, from - 1, to - 1, 1 / ohms);
        }

        return matrix;
    }

    /// <summary>Adds a conductance between two unknowns; −1 is the reference.</summary>
    internal static void Stamp(Matrix<double> matrix, int from, int to, double siemens)
    {
        Add(matrix, from, from, siemens);
        Add(matrix, to, to, siemens);
        Add(matrix, from, to, -siemens);
        Add(matrix, to, from, -siemens);
    }

    private static void Add(Matrix<double> matrix, int row, int column, double siemens)
    {
        if (row >= 0 && column >= 0)
        {
            matrix[row, column] += siemens;
        }
    }

    private static double Ohms(Random random) => Math.Pow(10, (4 * random.NextDouble()) - 3);
}
