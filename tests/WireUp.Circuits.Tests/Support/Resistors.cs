using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Tests.Support;

/// <summary>A network of resistors straight into the numeric core. Node 0 is the reference; all pairs are in the pattern if asked.</summary>
internal sealed class Resistors
{
    private readonly int[] _from;
    private readonly int[] _to;
    private readonly double[] _siemens;

    internal Resistors(int nodes, IEnumerable<(int From, int To, double Ohms)> edges, bool allPairs = true, Func<int, int>? vertexOf = null, long mostPairs = 1L << 28)
    {
        Nodes = nodes;
        (int From, int To, double Ohms)[] list = [.. edges];
        _from = [.. list.Select(edge => edge.From - 1)];
        _to = [.. list.Select(edge => edge.To - 1)];
        _siemens = [.. list.Select(edge => 1 / edge.Ohms)];
        Pattern = FactorPattern.Analyse(Graph(allPairs, vertexOf ?? (unknown => unknown)), mostPairs);
        Workspace = new(Pattern);
        Outcome = Workspace.Factor(Workspace.Slots(_from, _to), _siemens);
        if (Outcome is FactorOutcome.Solved)
        {
            Workspace.SelectInverse();
        }
    }

    internal int Nodes { get; }

    internal FactorPattern Pattern { get; }

    internal ConductanceWorkspace Workspace { get; }

    internal FactorOutcome Outcome { get; }

    internal double Effective(int a, int b) =>
        Workspace.Inverse(a - 1, a - 1) + Workspace.Inverse(b - 1, b - 1) - (2 * Workspace.Inverse(a - 1, b - 1));

    /// <summary>Potentials of nodes 1 and up for currents into them.</summary>
    internal double[] Solve(params double[] amps)
    {
        double[] values = [.. amps];
        Workspace.Solve(values);
        return values;
    }

    /// <summary>Foster's sum: effective resistance times conductance over all edges.</summary>
    internal double Foster() => Enumerable.Range(0, _from.Length).Sum(i => Effective(_from[i] + 1, _to[i] + 1) * _siemens[i]);

    private VertexGraph Graph(bool allPairs, Func<int, int> vertexOf)
    {
        int[] vertices = [.. Enumerable.Range(0, Nodes - 1).Select(vertexOf)];
        VertexGraph graph = new(vertices, vertices.Length == 0 ? 0 : vertices.Max() + 1);
        for (int i = 0; i < _from.Length; i++)
        {
            if (_from[i] >= 0 && _to[i] >= 0)
            {
                graph.Connect(vertices[_from[i]], vertices[_to[i]]);
            }
        }

        for (int a = 0; allPairs && a < vertices.Length; a++)
        {
            for (int b = a + 1; b < vertices.Length; b++)
            {
                graph.Connect(vertices[a], vertices[b]);
            }
        }

        return graph;
    }
}
