using WireUp.Circuits.Network;
using WireUp.Faults.Network;
using WireUp.Layouts;

namespace WireUp.Faults.Parts;

/// <summary>What can fail in the wiring: boosters, breakers, bus, taps, feeders.</summary>
internal sealed class WiringParts
{
    private readonly CaseCircuit _circuit;
    private readonly Layout _layout;
    private readonly CircuitNodes _nodes;
    private int _next;

    /// <param name="circuit">The circuit of any case: elements of the wiring stand in the same order in all of them.</param>
    /// <param name="nodes">Its nodes by name.</param>
    internal WiringParts(CaseCircuit circuit, CircuitNodes nodes) =>
        (_circuit, _layout, _nodes) = (circuit, circuit.Circuit.Graph.Layout, nodes);

    internal IEnumerable<Part> All()
    {
        List<Part> parts = [.. Boosters(), .. Breakers()];
        foreach (Bus bus in _layout.Wiring.Buses)
        {
            parts.AddRange(bus.Runs.SelectMany(run => Run(bus.District, run)));
        }

        parts.AddRange(_layout.Wiring.Feeders.SelectMany(OfFeeder));
        parts.AddRange(BusPoints());
        return parts;
    }

    private IEnumerable<Part> Boosters() => _layout.Wiring.Boosters.Select(booster =>
        Next(new(FaultElementKind.Booster, $"booster {booster.Name}", Reach.Below), ElementKind.BoosterOutput)).ToArray();

    private IEnumerable<Part> Breakers() => _circuit.Circuit.Districts.Select(district =>
        Next(new(FaultElementKind.Breaker, $"breaker of {district.District.Name}", Reach.Below) { District = district.District.Name }, ElementKind.Breaker)).ToArray();

    private IEnumerable<Part> Run(string district, BusRun run) => new[] { Leg.A, Leg.B }.Select(leg =>
        Next(new(FaultElementKind.BusWire, $"bus run {run.From}–{run.To} of {district}, wire {leg}", Reach.Below) { District = district, BusPoint = run.To },
            ElementKind.Bus, 1 + run.Connectors)).ToArray();

    private IEnumerable<Part> OfFeeder(Feeder feeder)
    {
        int first = _next;
        List<Part> parts = [];
        foreach (Leg leg in new[] { Leg.A, Leg.B })
        {
            FaultElement tap = Named(FaultElementKind.Tap, $"tap of feeder {feeder.Name} at {feeder.Tap}, leg {leg}", feeder);
            parts.Add(Next(tap, ElementKind.Feeder));
            parts.Add(Next(Named(FaultElementKind.Feeder, $"feeder {feeder.Name}, leg {leg}", feeder), ElementKind.Feeder));
        }

        parts.Add(new(Named(FaultElementKind.Feeder, $"feeder {feeder.Name}, its two legs", feeder), new Spot.OfFeeder(first)));
        return parts;
    }

    private static FaultElement Named(FaultElementKind kind, string place, Feeder feeder) => new(kind, place, Reach.Below)
    {
        Track = feeder.At,
        Piece = feeder.At.Section,
        District = feeder.District,
        BusPoint = feeder.Tap,
    };

    private IEnumerable<Part> BusPoints() => _layout.Wiring.Buses.SelectMany(bus => bus.Runs.Select(run => (bus.District, run.To))).Distinct()
        .Select(point => new Part(
            new(FaultElementKind.BusPoint, $"bus of {point.District} at {point.To}", Reach.Below) { District = point.District, BusPoint = point.To },
            new Spot.Between(_nodes.OfBus(point.District, point.To, Leg.A), _nodes.OfBus(point.District, point.To, Leg.B))));

    private Part Next(FaultElement element, ElementKind kind, int count = 1)
    {
        Branch branch = _circuit.SeriesOfWire(_next)!.Value;
        ElementKind found = _circuit.Circuit.Elements[branch.Element].Kind;
        return found == kind
            ? new(element, new Spot.OfWire(_next++), count)
            : throw new InvalidOperationException($"element {branch.Element} of the circuit is a {found}, not the {kind} of '{element.Place}'");
    }
}
