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

    private readonly EquationSystem _system;
    private readonly ConductanceWorkspace _workspace;

    private NodalModel(Circuit circuit)
    {
        Circuit = circuit;
        Unknowns = new Unknowns(circuit);
        _system = EquationSystem.Of(circuit, Unknowns, out VertexGraph graph);
        _workspace = new ConductanceWorkspace(FactorPattern.Analyse(graph));
        Outcome = _workspace.Factor(_workspace.Slots(_system.From, _system.To), _system.Siemens);
    }

    internal Circuit Circuit { get; }

    internal Unknowns Unknowns { get; }

    internal FactorOutcome Outcome { get; }

    /// <summary>The equations.</summary>
    internal EquationSystem System => _system;

    /// <summary>Their factor.</summary>
    internal ConductanceWorkspace Factor => _workspace;

    internal static NodalModel Of(Circuit circuit) => new(circuit);

    /// <summary>The equations alone, not factorised.</summary>
    internal static EquationSystem Equations(Circuit circuit, out VertexGraph graph) => EquationSystem.Of(circuit, new Unknowns(circuit), out graph);

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
        for (int i = 0; i < _system.Count; i++)
        {
            if (_system.Drive[i] != 0)
            {
                Inject(values, _system.From[i], -_system.Siemens[i] * _system.Drive[i]);
                Inject(values, _system.To[i], _system.Siemens[i] * _system.Drive[i]);
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
    internal double[] Response(IEnumerable<(int Node, double Amps)> currents) => Responses([currents])[0];

    /// <summary>
    /// Potentials of all unknowns, sources off, for each case of currents into listed nodes, ampere: used for transfer resistances.
    /// </summary>
    internal double[][] Responses(IReadOnlyList<IEnumerable<(int Node, double Amps)>> cases)
    {
        double[][] values = [.. cases.Select(_ => new double[Unknowns.Count])];
        for (int i = 0; i < values.Length; i++)
        {
            foreach ((int node, double amps) in cases[i])
            {
                Inject(values[i], Unknowns.Of(node), amps);
            }
        }

        new ManySolveWorkspace(_workspace).Solve(values);
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

    /// <summary>Volts from one node of a fed part to another.</summary>
    internal double VoltsBetween(int first, int second, double[] potentials) => PotentialOf(first, potentials) - PotentialOf(second, potentials);

    /// <summary>Difference of a response between two nodes of a part.</summary>
    internal double ValueBetween(int first, int second, double[] values) => ValueOf(first, values) - ValueOf(second, values);

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
        for (int i = 0; i < _system.Count; i++)
        {
            double from = _system.From[i] >= 0 ? potentials[_system.From[i]] : 0, to = _system.To[i] >= 0 ? potentials[_system.To[i]] : 0;
            double amps = _system.Siemens[i] * (from - to + _system.Drive[i]);
            double size = _system.Siemens[i] * (Math.Abs(from) + Math.Abs(to) + Math.Abs(_system.Drive[i]));
            Inject(residual, _system.From[i], -amps);
            Inject(residual, _system.To[i], amps);
            Inject(magnitude, _system.From[i], size);
            Inject(magnitude, _system.To[i], size);
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
}
