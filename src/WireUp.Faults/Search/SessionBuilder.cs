using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Faults.Search;

/// <summary>Puts the readings of a session to their circuits.</summary>
internal sealed class SessionBuilder
{
    private readonly RailGraph _graph;
    private readonly ReadingSet _set;
    private readonly Dictionary<CircuitCase, CaseCircuit?> _circuits = [];
    private readonly Dictionary<(CaseCircuit, int, int), double[]> _loadColumns = [];
    private readonly Dictionary<CaseCircuit, CircuitNodes> _nodes = [];

    /// <param name="graph">The rails with every place of the readings.</param>
    /// <param name="set">The readings.</param>
    internal SessionBuilder(RailGraph graph, ReadingSet set) => (_graph, _set) = (graph, set);

    internal MeterAccuracy Accuracy => _set.Meter;

    /// <summary>The circuit of a case, the same for all that ask; null where it has no solution.</summary>
    internal CaseCircuit? Circuit(CircuitCase given)
    {
        if (!_circuits.TryGetValue(given, out CaseCircuit? circuit))
        {
            _circuits[given] = circuit = CaseCircuit.Build(_graph, given);
        }

        return circuit;
    }

    /// <summary>A reading put to its circuit, or null for one that no circuit answers.</summary>
    internal SessionReading? Of(MeterReading reading) => Rough(reading) is { } rough ? WithSpread(rough) : null;

    /// <summary>The same, not knowing yet by how much healthy parts make it vary.</summary>
    internal SessionReading? Rough(MeterReading reading)
    {
        if (reading is MeterReading.Pressed || Circuit(CircuitCase.Of(reading)) is not { } circuit)
        {
            return null;
        }

        CircuitNodes nodes = Nodes(circuit);
        return reading switch
        {
            MeterReading.Volts volts => Volts(volts, circuit, nodes.Of(volts.At), volts.Load, volts.Shown.Volts),
            MeterReading.VoltsAlong volts => Volts(volts, circuit, (nodes.Of(volts.From), nodes.Of(volts.To)), volts.Load, volts.Shown.Volts),
            MeterReading.Amps amps => Amps(amps, circuit, nodes),
            MeterReading.Ohms ohms => Ohms(ohms, circuit, nodes.Of(ohms.From), nodes.Of(ohms.To), ohms.Shown.Ohms),
            MeterReading.Continuity ohms => Ohms(ohms, circuit, nodes.Of(ohms.From), nodes.Of(ohms.To), ohms.Conducts ? 0 : Meter.MostOhms),
            MeterReading.Running running => Running(running, circuit, nodes.Of(running.At)),
            MeterReading.Breaker breaker => Breaker(breaker, circuit),
            _ => throw new InvalidOperationException($"not a kind of reading: {reading}"),
        };
    }

    private SessionReading Volts(MeterReading reading, CaseCircuit circuit, (int From, int To) at, ReadingLoad? load, double shown)
    {
        Probe probe = Probe.Volts(circuit, at.From, at.To, Meter.Ohms, Box(circuit, load));
        double off = circuit.AreStrangers(at.From, at.To) ? MostVolts(circuit) : Meter.VoltsOff(Accuracy, shown, reading.Supply is not null);
        return Numbers(reading, probe, shown, off, MostVolts(circuit)) with { IsDefinite = circuit.AreJoined(at.From, at.To) };
    }

    private SessionReading Amps(MeterReading.Amps reading, CaseCircuit circuit, CircuitNodes nodes)
    {
        Branch wire = circuit.WireAt(reading.In, nodes.Of(reading.In));
        double shown = reading.Shown.Amperes;
        return Numbers(reading, Probe.Current(circuit, wire, Box(circuit, reading.Load)), shown, Meter.AmpsOff(Accuracy, shown), 10);
    }

    private SessionReading Ohms(MeterReading reading, CaseCircuit circuit, int from, int to, double shown) =>
        Numbers(reading, Probe.Resistance(circuit, from, to), shown, Meter.OhmsOff(Accuracy, shown), Math.Max(100, 2 * shown));

    /// <summary>With what healthy parts vary by; of what is read in words the edges are softer than that.</summary>
    internal static SessionReading WithSpread(SessionReading rough)
    {
        if (rough.Source is MeterReading.Running or MeterReading.Breaker)
        {
            return rough;
        }

        double spread = Spread.Of(rough.Probe);
        return rough with { Sigma = Math.Sqrt((rough.Sigma * rough.Sigma) + (spread * spread)) };
    }

    private static SessionReading Numbers(MeterReading reading, Probe probe, double shown, double off, double range) => new(reading, probe, shown, off, range);

    private SessionReading Running(MeterReading.Running reading, CaseCircuit circuit, (int First, int Second) at)
    {
        Branch place = Branch.Joining(at.First, at.Second);
        double full = FullVolts(circuit, place), ohms = full / RunningAmps(reading.Locomotive);
        Probe probe = Probe.Volts(circuit, at.First, at.Second, Meter.Ohms, (place, ohms, Column(circuit, place)));
        return new(reading, probe, Edges.Middle(reading.State) * full, full / 10, full) { Full = full };
    }

    private SessionReading Breaker(MeterReading.Breaker reading, CaseCircuit circuit)
    {
        District district = _graph.Layout.Wiring.Districts.First(item => item.Name == reading.District);
        double trip = district.OpensFrom.Amperes;
        return new(reading, Probe.Current(circuit, circuit.BreakerOf(reading.District), null), reading.Trips ? trip : 0, trip / 10, trip) { Full = trip };
    }

    private (Branch At, double Ohms, double[] Column)? Box(CaseCircuit circuit, ReadingLoad? load)
    {
        if (load is null)
        {
            return null;
        }

        (int first, int second) = Nodes(circuit).Of(load.At);
        Branch place = Branch.Joining(first, second);
        double ohms = load.Resistance?.Ohms ?? (FullVolts(circuit, place) / load.Amps.Amperes);
        return (place, ohms, Column(circuit, place));
    }

    private CircuitNodes Nodes(CaseCircuit circuit)
    {
        if (!_nodes.TryGetValue(circuit, out CircuitNodes? nodes))
        {
            _nodes[circuit] = nodes = new(circuit.Circuit);
        }

        return nodes;
    }

    private double[] Column(CaseCircuit circuit, in Branch place)
    {
        if (!_loadColumns.TryGetValue((circuit, place.From, place.To), out double[]? column))
        {
            _loadColumns[(circuit, place.From, place.To)] = column = circuit.Column(place.From, place.To);
        }

        return column;
    }

    /// <summary>Volts of a healthy railway at a place without load, or where it has none the highest of any booster.</summary>
    private static double FullVolts(CaseCircuit circuit, in Branch place)
    {
        double most = MostVolts(circuit), here = Math.Abs(circuit.Drive(place));
        return here > most / 2 ? here : most;
    }

    private static double MostVolts(CaseCircuit circuit) => circuit.Case.Supply?.Volts.Volts ?? circuit.Circuit.Sources.Max(source => source.Volts);

    private double RunningAmps(string? locomotive)
    {
        ImmutableArray<Locomotive> stock = _graph.Layout.Stock.Locomotives;
        Locomotive? named = stock.FirstOrDefault(item => item.Name == locomotive) ?? stock.MinBy(item => item.Running.Amperes);
        return named?.Running.Amperes ?? ScaleTable.FindOrUsual(_graph.Layout.Scale).Running.Amperes;
    }
}
