using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits;

/// <summary>What one place of the track gets, and how much each run of its district's bus takes from that.</summary>
/// <param name="District">The district that feeds it.</param>
/// <param name="At">The place.</param>
/// <param name="OpenVolts">Volts there without load.</param>
/// <param name="DropVolts">Drop under the design load, from the booster's open-circuit volts.</param>
/// <param name="LoopOhms">Resistance seen there, sources included, Ω.</param>
/// <param name="DropPerOhm">For each run of the district's bus, in its order, by how many volts the drop grows for each ohm more in both of its wires.</param>
/// <param name="LoopPerOhm">The same for the resistance seen, Ω for each Ω.</param>
public sealed record BusEffect(
    string District,
    TrackPlace At,
    double OpenVolts,
    double DropVolts,
    double LoopOhms,
    ImmutableArray<double> DropPerOhm,
    ImmutableArray<double> LoopPerOhm)
{
    /// <summary>For each run the currents that these come from.</summary>
    public ImmutableArray<RunFlow> Flows { get; init; } = [];

    /// <summary>Current of the train that stands at the place under the design load, ampere.</summary>
    public double TrainAmps { get; init; }
}

/// <summary>Currents in the two wires of a run of bus, each with its sign: the same for the same sense along the wire.</summary>
/// <param name="UnitA">In leg A for each ampere drawn at a place.</param>
/// <param name="UnitB">The same in leg B.</param>
/// <param name="SpreadA">In leg A for the spread load of all districts, ampere.</param>
/// <param name="SpreadB">The same in leg B.</param>
public readonly record struct RunFlow(double UnitA, double UnitB, double SpreadA, double SpreadB);

/// <summary>
/// How drop and fault current at places of the track follow the bus: the first derivatives by the resistance of every run.
/// </summary>
/// <remarks>
/// An ampere drawn at the place sends j through one wire of a run, the spread load s, the train at the place I·j. Then the resistance seen
/// grows by j² for each ohm more in that wire, and the drop by j·(I·j + s): the derivative of a transfer resistance is the product of the two
/// currents. Between two stations of a uniform rail the currents of a load outside it are those of its parts at the two ends. Source of the
/// product: B. D. H. Tellegen, "A general network theorem, with applications", Philips Research Reports 7, 1952 (from memory).
/// </remarks>
public static class BusEffects
{
    /// <summary>Works them out; places without a feed are left out, and all are where the circuit has no solution.</summary>
    /// <param name="layout">The layout with its wiring.</param>
    /// <param name="places">The places.</param>
    public static ImmutableArray<BusEffect> Of(Layout layout, ImmutableArray<TrackPlace> places)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout), PowerOptions.Default.Turnouts));
        return model.Outcome is Numerics.FactorOutcome.Solved ? Of(model, places) : [];
    }

    private static ImmutableArray<BusEffect> Of(NodalModel model, ImmutableArray<TrackPlace> places)
    {
        Circuit circuit = model.Circuit;
        Layout layout = circuit.Graph.Layout;
        TrackSurvey survey = new(model, model.Potentials([]));
        DesignCase design = new(model, survey, DesignLoad.Of(layout), PowerOptions.Default);
        ILookup<PieceId, LiveSegment> live = survey.Live.ToLookup(each => circuit.Segments[each.Segment].Section);
        (TrackPlace At, LiveSegment Live, double Part)[] found = [.. places
            .Select(place => (place, Live: On(place)))
            .Where(pair => pair.Live is not null)
            .Select(pair => (pair.place, pair.Live!.Value, Fraction(circuit.Segments[pair.Live.Value.Segment], pair.place)))];
        double[][] responses = model.Responses([.. found.Select(each => Ampere(circuit.Segments[each.Live.Segment], each.Live.Sign, each.Part))]);
        ILookup<string, (CircuitElement A, CircuitElement B)> runs = Runs(circuit).ToLookup(run => run.District, run => run.Wires);
        return [.. found.Select((each, i) => One(each.At, each.Live, each.Part, responses[i]))];

        LiveSegment? On(TrackPlace place) => live[place.Section]
            .Where(each => place.MetresFromA >= circuit.Segments[each.Segment].FromMetres - 1e-9 && place.MetresFromA <= circuit.Segments[each.Segment].ToMetres + 1e-9)
            .Select(each => (LiveSegment?)each)
            .FirstOrDefault();

        BusEffect One(TrackPlace at, in LiveSegment segment, double part, double[] response)
        {
            DistrictStart start = circuit.Districts[segment.District];
            double train = design.TrainAmps[segment.District];
            (CircuitElement A, CircuitElement B)[] own = [.. runs[start.District.Name]];
            (double Unit, double Spread)[][] flows = [.. own.Select(run => new[] { Flow(run.A), Flow(run.B) })];
            return new(
                start.District.Name,
                at,
                segment.OpenVolts(part),
                circuit.Sources[start.Source].Volts - design.Volts(segment).At(part),
                segment.Ohms.At(part),
                [.. flows.Select(run => run.Sum(wire => wire.Unit * ((train * wire.Unit) + wire.Spread)))],
                [.. flows.Select(run => run.Sum(wire => wire.Unit * wire.Unit))])
            {
                Flows = [.. flows.Select(run => new RunFlow(run[0].Unit, run[1].Unit, run[0].Spread, run[1].Spread))],
                TrainAmps = train,
            };

            (double Unit, double Spread) Flow(in CircuitElement wire) => (
                model.ValueBetween(wire.To, wire.From, response) / wire.Ohms,
                model.VoltsBetween(wire.From, wire.To, design.Potentials) / wire.Ohms);
        }
    }

    private static double Fraction(in TrackSegment segment, TrackPlace place) => segment.LengthMetres > 0
        ? Math.Clamp((place.MetresFromA - segment.FromMetres) / segment.LengthMetres, 0, 1)
        : 0;

    private static IEnumerable<(int Node, double Amps)> Ampere(TrackSegment segment, int sign, double part) =>
    [
        (segment.FirstAtStart, sign * (1 - part)), (segment.FirstAtEnd, sign * part),
        (segment.SecondAtStart, -sign * (1 - part)), (segment.SecondAtEnd, -sign * part),
    ];

    /// <summary>The two wires of every run: the circuit has them in the order of the layout.</summary>
    private static IEnumerable<(string District, (CircuitElement A, CircuitElement B) Wires)> Runs(Circuit circuit)
    {
        CircuitElement[] wires = [.. circuit.Elements.Where(element => element.Kind == ElementKind.Bus)];
        int next = 0;
        foreach (Bus bus in circuit.Graph.Layout.Wiring.Buses)
        {
            foreach (BusRun _ in bus.Runs)
            {
                yield return (bus.District, (wires[next], wires[next + 1]));
                next += 2;
            }
        }
    }
}
