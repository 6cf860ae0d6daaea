using WireUp.Circuits.Numerics;

namespace WireUp.Circuits.Network;

/// <summary>A load between the two conductors of a place: amps drawn from one node and given back at the other.</summary>
internal readonly record struct NodeLoad(int From, int To, double Amps);

/// <summary>
/// The nodal equations of a circuit, factorised: Y·x = b with one row an unknown. Currents of ideal sources come in through the
/// fixed differences of potential (<see cref="Unknowns.Offset"/>).
/// </summary>
internal sealed class NodalModel
{
    /// <summary>Largest current that may be left over at a node, ampere, where rounding allows it.</summary>
    internal const double ResidualLimitAmps = 1e-9;

    private readonly int[] _from;
    private readonly int[] _to;
    private readonly double[] _siemens;
    private readonly double[] _drive;
    private readonly ConductanceWorkspace _workspace;

    private NodalModel(Circuit circuit)
    {
        Circuit = circuit;
        Unknowns = new Unknowns(circuit);
        List<int> kept = [];
        for (int i = 0; i < circuit.Elements.Length; i++)
        {
            CircuitElement element = circuit.Elements[i];
            if (element.Ohms > 0 && Unknowns.Of(element.From) != Unknowns.Unfed && Unknowns.Of(element.From) != Unknowns.Of(element.To))
            {
                kept.Add(i);
            }
        }

        (_from, _to) = (new int[kept.Count], new int[kept.Count]);
        (_siemens, _drive) = (new double[kept.Count], new double[kept.Count]);
        for (int i = 0; i < kept.Count; i++)
        {
            CircuitElement element = circuit.Elements[kept[i]];
            (_from[i], _to[i]) = (Unknowns.Of(element.From), Unknowns.Of(element.To));
            _siemens[i] = 1 / element.Ohms;
            _drive[i] = Unknowns.Offset(element.From) - Unknowns.Offset(element.To);
        }

        _workspace = new ConductanceWorkspace(FactorPattern.Analyse(Graph()));
        Outcome = _workspace.Factor(_workspace.Slots(_from, _to), _siemens);
    }

    internal Circuit Circuit { get; }

    internal Unknowns Unknowns { get; }

    internal FactorOutcome Outcome { get; }

    internal static NodalModel Of(Circuit circuit) => new(circuit);

    /// <summary>Name of a node that is this unknown.</summary>
    internal string NameOfUnknown(int unknown)
    {
        int node = 0;
        while (Unknowns.Of(node) != unknown)
        {
            node++;
        }

        return Circuit.NameOf(node);
    }

    /// <summary>Entry of the inverse between two nodes, ohm; the selected inverse must have been worked out.</summary>
    internal double Inverse(int first, int second) => _workspace.Inverse(Unknowns.Of(first), Unknowns.Of(second));

    /// <summary>Works out the selected inverse.</summary>
    internal void SelectInverse() => _workspace.SelectInverse();

    /// <summary>Potentials of all unknowns with every source on and these loads, volt.</summary>
    internal double[] Potentials(IEnumerable<NodeLoad> loads)
    {
        double[] values = new double[Unknowns.Count];
        for (int i = 0; i < _from.Length; i++)
        {
            if (_drive[i] != 0)
            {
                Inject(values, _from[i], -_siemens[i] * _drive[i]);
                Inject(values, _to[i], _siemens[i] * _drive[i]);
            }
        }

        AddLoads(values, loads);
        _workspace.Solve(values);
        return values;
    }

    /// <summary>
    /// Potentials of all unknowns, sources off, for a current of 1 A times the given factor into each listed node: used for
    /// transfer resistances.
    /// </summary>
    internal double[] Response(IEnumerable<(int Node, double Amps)> currents)
    {
        double[] values = new double[Unknowns.Count];
        foreach ((int node, double amps) in currents)
        {
            Inject(values, Unknowns.Of(node), amps);
        }

        _workspace.Solve(values);
        return values;
    }

    /// <summary>Potential of a node of a fed part, volt over the reference of the part.</summary>
    internal double PotentialOf(int node, double[] potentials) => ValueOf(node, potentials) + Unknowns.Offset(node);

    /// <summary>Value of a response at a node; 0 at the reference.</summary>
    internal double ValueOf(int node, double[] values)
    {
        int unknown = Unknowns.Of(node);
        return unknown >= 0 ? values[unknown] : 0;
    }

    /// <summary>Checks Kirchhoff's current law at every unknown; refuses the parts where it fails.</summary>
    internal IEnumerable<CircuitProblem> Audit(double[] potentials, IEnumerable<NodeLoad> loads)
    {
        (double[] residual, double[] magnitude) = Residuals(potentials, loads);
        Dictionary<int, (int Node, double Excess)> worst = [];
        for (int node = 0; node < Circuit.NodeCount; node++)
        {
            int unknown = Unknowns.Of(node);
            if (unknown >= 0 && !(Math.Abs(residual[unknown]) <= Limit(magnitude[unknown])))
            {
                int part = Unknowns.Part(node);
                double excess = Math.Abs(residual[unknown]) / Limit(magnitude[unknown]);
                if (!worst.TryGetValue(part, out (int Node, double Excess) before) || excess > before.Excess)
                {
                    worst[part] = (node, excess);
                }
            }
        }

        List<CircuitProblem> problems = [];
        foreach ((int node, _) in worst.Values.OrderBy(entry => entry.Node))
        {
            Unknowns.Refuse(node);
            int unknown = Unknowns.Of(node);
            problems.Add(new CircuitProblem.Inaccurate(Circuit.NameOf(node), Math.Abs(residual[unknown]), Limit(magnitude[unknown])));
        }

        return problems;
    }

    /// <summary>
    /// What is left over of the currents at every unknown, and the sum of the sizes of what was added up: a potential is only
    /// known to its last digit, and a conductance multiplies that digit.
    /// </summary>
    internal (double[] Residual, double[] Magnitude) Residuals(double[] potentials, IEnumerable<NodeLoad> loads)
    {
        double[] residual = new double[Unknowns.Count], magnitude = new double[Unknowns.Count];
        for (int i = 0; i < _from.Length; i++)
        {
            double from = _from[i] >= 0 ? potentials[_from[i]] : 0, to = _to[i] >= 0 ? potentials[_to[i]] : 0;
            double amps = _siemens[i] * (from - to + _drive[i]);
            double size = _siemens[i] * (Math.Abs(from) + Math.Abs(to) + Math.Abs(_drive[i]));
            Inject(residual, _from[i], -amps);
            Inject(residual, _to[i], amps);
            Inject(magnitude, _from[i], size);
            Inject(magnitude, _to[i], size);
        }

        AddLoads(residual, loads);
        return (residual, magnitude);
    }

    private static double Limit(double magnitude) => ResidualLimitAmps + (1e-13 * magnitude);

    private void AddLoads(double[] values, IEnumerable<NodeLoad> loads)
    {
        foreach (NodeLoad load in loads)
        {
            Inject(values, Unknowns.Of(load.From), -load.Amps);
            Inject(values, Unknowns.Of(load.To), load.Amps);
        }
    }

    private static void Inject(double[] values, int unknown, double amps)
    {
        if (unknown >= 0)
        {
            values[unknown] += amps;
        }
    }

    /// <summary>Vertices are pairs of unknowns that lie side by side; what a segment needs of the inverse is connected too.</summary>
    private VertexGraph Graph()
    {
        int[] vertexOf = new int[Unknowns.Count];
        Array.Fill(vertexOf, -1);
        int count = 0;
        foreach ((int first, int second) in Circuit.Pairs)
        {
            (int a, int b) = (Unknowns.Of(first), Unknowns.Of(second));
            if (a >= 0 && b >= 0 && a != b && vertexOf[a] < 0 && vertexOf[b] < 0)
            {
                vertexOf[a] = vertexOf[b] = count++;
            }
        }

        for (int i = 0; i < vertexOf.Length; i++)
        {
            vertexOf[i] = vertexOf[i] < 0 ? count++ : vertexOf[i];
        }

        VertexGraph graph = new(vertexOf, count);
        for (int i = 0; i < _from.Length; i++)
        {
            if (_from[i] >= 0 && _to[i] >= 0)
            {
                graph.Connect(vertexOf[_from[i]], vertexOf[_to[i]]);
            }
        }

        ConnectSegments(graph, vertexOf);
        return graph;
    }

    private void ConnectSegments(VertexGraph graph, int[] vertexOf)
    {
        Span<int> corners = stackalloc int[4];
        foreach (TrackSegment segment in Circuit.Segments)
        {
            int count = 0;
            foreach (int node in (ReadOnlySpan<int>)[segment.FirstAtStart, segment.SecondAtStart, segment.FirstAtEnd, segment.SecondAtEnd])
            {
                int unknown = Unknowns.Of(node);
                if (unknown >= 0)
                {
                    corners[count++] = vertexOf[unknown];
                }
            }

            for (int a = 0; a < count; a++)
            {
                for (int b = a + 1; b < count; b++)
                {
                    graph.Connect(corners[a], corners[b]);
                }
            }
        }
    }
}
