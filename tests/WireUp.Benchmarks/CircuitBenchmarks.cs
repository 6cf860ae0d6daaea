using BenchmarkDotNet.Attributes;
using WireUp.Circuits;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks;

/// <summary>The steps of the circuit room, each on its own, on layouts of growing size.</summary>
[MemoryDiagnoser]
public class CircuitBenchmarks
{
    private RailGraph _graph = null!;
    private Circuit _circuit = null!;
    private EquationSystem _system = null!;
    private VertexGraph _coupling = null!;
    private ConductanceWorkspace _workspace = null!;
    private int[] _slots = null!;
    private double[] _values = null!;

    /// <summary>Pieces of track.</summary>
    [Params(1_000, 10_000, 100_000)]
    public int Pieces { get; set; }

    /// <summary>Builds the layout and everything up to the step that is measured.</summary>
    [GlobalSetup]
    public void Setup()
    {
        Layout layout = LayoutGenerator.Make(Pieces);
        _graph = RailGraph.Build(layout);
        _circuit = CircuitBuilder.Build(_graph, PowerOptions.Default.Turnouts);
        _system = NodalModel.Equations(_circuit, out _coupling);
        FactorPattern pattern = FactorPattern.Analyse(_coupling);
        _workspace = new ConductanceWorkspace(pattern);
        _slots = _workspace.Slots(_system.From, _system.To);
        _workspace.Factor(_slots, _system.Siemens);
        _values = new double[pattern.UnknownCount];
    }

    /// <summary>Order and pattern of the factor, from the list of conductances.</summary>
    [Benchmark]
    public object Analyse() => FactorPattern.Analyse(_coupling);

    /// <summary>Factor for conductances, pattern known.</summary>
    [Benchmark]
    public object Factor() => _workspace.Factor(_slots, _system.Siemens);

    /// <summary>One solution.</summary>
    [Benchmark]
    public void Solve() => _workspace.Solve(_values);

    /// <summary>Selected inverse.</summary>
    [Benchmark]
    public void SelectInverse() => _workspace.SelectInverse();

    /// <summary>From rails and wires to the equations.</summary>
    [Benchmark]
    public object BuildCircuit() => CircuitBuilder.Build(_graph, PowerOptions.Default.Turnouts);

    /// <summary>Everything: volts, loops and fault currents of every place, as a report.</summary>
    [Benchmark]
    public object WholeReport() => PowerAnalysis.Solve(_graph, PowerOptions.Default);
}
