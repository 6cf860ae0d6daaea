using WireUp.Circuits;
using WireUp.Circuits.Network;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Benchmarks;

/// <summary>Everything that is measured on one layout.</summary>
internal sealed class Measurement
{
    private const int AskedPlaceCount = 5;
    private const int Sides = 64;
    private readonly double _budget;
    private readonly RailGraph _graph;
    private readonly Circuit _circuit;
    private readonly Dictionary<PerformanceRow, double?> _values = [];

    internal Measurement(int pieces, double budgetMilliseconds, bool simulate)
    {
        _budget = budgetMilliseconds;
        Layout layout = LayoutGenerator.Make(pieces);
        Pieces = layout.Track.Length;
        _graph = RailGraph.Build(layout);
        _circuit = CircuitBuilder.Build(_graph, PowerOptions.Default.Turnouts);
        _values[PerformanceRows.Memory] = LiveBytes() / Pieces;
        _values[PerformanceRows.Peak] = Memory.PeakBytes(() => PowerAnalysis.Solve(_graph, PowerOptions.Default)) / Pieces;
        Steps();
        Model();
        if (simulate)
        {
            string netlist = SpiceNetlist.Write(_graph, PowerOptions.Default, NetlistLoads.SpreadDesign);
            Set(PerformanceRows.Simulator, Simulator.Milliseconds(netlist, runs: pieces > 50_000 ? 1 : 3));
        }

        Ratios();
    }

    /// <summary>Pieces of track that the layout came out with.</summary>
    internal int Pieces { get; }

    internal double? this[PerformanceRow row] => _values.GetValueOrDefault(row);

    private void Set(PerformanceRow row, double? value) => _values[row] = value;

    private void Time(PerformanceRow row, Action action, double scale = 1) => Set(row, scale * Clock.Milliseconds(action, _budget));

    private void Steps()
    {
        EquationSystem system = NodalModel.Equations(_circuit, out VertexGraph graph);
        FactorPattern pattern = FactorPattern.Analyse(graph);
        ConductanceWorkspace factor = new(pattern);
        int[] slots = factor.Slots(system.From, system.To);
        double[] values = new double[pattern.UnknownCount];
        double[][] sides = [.. Enumerable.Range(0, Sides).Select(_ => new double[pattern.UnknownCount])];
        ManySolveWorkspace many = new(factor);
        Set(PerformanceRows.Nodes, _circuit.NodeCount);
        Set(PerformanceRows.Unknowns, pattern.UnknownCount);
        Time(PerformanceRows.Assemble, () => NodalModel.Equations(_circuit, out _));
        Time(PerformanceRows.Order, () => FactorPattern.Analyse(graph));
        Time(PerformanceRows.Factor, () => factor.Factor(slots, system.Siemens));
        Time(PerformanceRows.Select, factor.SelectInverse);
        Time(PerformanceRows.Solve, () => factor.Solve(values));
        Time(PerformanceRows.Many, () => many.Solve(sides), 1.0 / Sides);
    }

    private void Model()
    {
        NodalModel model = NodalModel.Of(_circuit);
        double[] open = model.Potentials([]), now = new double[open.Length];
        TrackSurvey survey = new(model, open);
        Time(PerformanceRows.Places, () => WorstPlaces(new TrackSurvey(model, open)));
        Time(PerformanceRows.Whole, () => Whole());
        Time(PerformanceRows.Report, () => PowerAnalysis.Solve(_graph, PowerOptions.Default));

        AskedPlaces places = new(model, open, Asked(survey));
        PreparedWhatIfWorkspace prepared = new(model, places);
        WhatIfWorkspace general = new(model, places, 1);
        int[] joints = [.. Enumerable.Range(0, _circuit.Elements.Length).Where(i => _circuit.Elements[i] is { Kind: ElementKind.Joint, Ohms: > 0 })];
        int[] some = [.. Enumerable.Range(0, 1000).Select(i => joints[(int)(i * 7919L % joints.Length)])];
        Time(PerformanceRows.Prepared, () => Array.ForEach(some, joint => prepared.Open(joint)), 1);
        Time(PerformanceRows.General, () => Array.ForEach(some, joint => general.Change([ElementChange.Open(joint)])), 1);
        Time(PerformanceRows.Joints, () => Array.ForEach(joints, joint => prepared.Open(joint)));
        Time(PerformanceRows.Map, () => WholeMap(general, some[0], open, now));
    }

    private static void WholeMap(WhatIfWorkspace general, int joint, double[] before, double[] now)
    {
        general.Change([ElementChange.Open(joint)]);
        general.Potentials(before, now);
    }

    private AskedPlace[] Asked(TrackSurvey survey) => [.. Enumerable.Range(0, AskedPlaceCount)
        .Select(i => survey.Live[(int)((i + 0.5) * survey.Live.Count / AskedPlaceCount)])
        .Select(live => _circuit.Segments[live.Segment])
        .Select(segment => new AskedPlace(segment.FirstAtStart, segment.SecondAtStart))];

    private (NodalModel Model, TrackSurvey Survey, double Largest) Whole()
    {
        NodalModel model = NodalModel.Of(_circuit);
        TrackSurvey survey = new(model, model.Potentials([]));
        return (model, survey, WorstPlaces(survey));
    }

    /// <summary>The place with the largest loop and the one with the lowest fault current of every length of track.</summary>
    private static double WorstPlaces(TrackSurvey survey)
    {
        double sum = 0;
        foreach (LiveSegment live in survey.Live)
        {
            sum += live.Ohms.At(live.Ohms.Highest()) + live.Ohms.LowestRatio(live.StartVolts, live.EndVolts - live.StartVolts, 0.1);
        }

        return sum;
    }

    private double LiveBytes()
    {
        long before = GC.GetTotalMemory(forceFullCollection: true);
        (NodalModel Model, TrackSurvey Survey, double Largest) kept = Whole();
        long after = GC.GetTotalMemory(forceFullCollection: true);
        GC.KeepAlive(kept);
        return after - before;
    }

    private void Ratios()
    {
        double factor = this[PerformanceRows.Factor]!.Value;
        Set(PerformanceRows.Ratio, this[PerformanceRows.Simulator] / this[PerformanceRows.Whole]);
        Set(PerformanceRows.PreparedRatio, 1000 * factor / this[PerformanceRows.Prepared]);
        Set(PerformanceRows.GeneralRatio, 1000 * factor / this[PerformanceRows.General]);
        Set(PerformanceRows.SelectRatio, factor / this[PerformanceRows.Select]);
    }
}
