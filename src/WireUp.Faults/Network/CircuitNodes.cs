using System.Collections.Frozen;
using WireUp.Circuits.Network;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Network;

/// <summary>The node of the circuit at every point that a meter's lead can touch.</summary>
internal sealed class CircuitNodes
{
    private readonly Circuit _circuit;
    private readonly FrozenDictionary<string, int> _wires;

    internal CircuitNodes(Circuit circuit)
    {
        _circuit = circuit;
        _wires = Enumerable.Range(circuit.Graph.Nodes.Length, circuit.NodeCount - circuit.Graph.Nodes.Length)
            .ToFrozenDictionary(circuit.NameOf, node => node, StringComparer.Ordinal);
    }

    /// <summary>The node of a point.</summary>
    /// <exception cref="KeyNotFoundException">The layout has no such point.</exception>
    internal int Of(ReadingPoint point) => point switch
    {
        ReadingPoint.AtPlace at => OfPlace(at),
        ReadingPoint.AtEnd at => _circuit.Graph.NodeAt(at.Rail),
        ReadingPoint.AtFrog frog => _circuit.Graph.NodeInside(frog.Piece, frog.Name) ?? throw new KeyNotFoundException($"'{frog}' is no conductor"),
        ReadingPoint.OfFeeder feeder => _wires[CircuitBuilder.TapName(feeder.Feeder, feeder.Leg)],
        ReadingPoint.OfBus bus => OfBus(bus.District, bus.Point, bus.Leg),
        ReadingPoint.OfBreaker breaker => OfBus(breaker.District, BoosterOf(breaker.District), breaker.Leg),
        ReadingPoint.OfBooster booster => _wires[$"{booster.Booster}/{booster.Leg}"],
        _ => throw new InvalidOperationException($"not a kind of point: {point}"),
    };

    /// <summary>Both nodes of a place.</summary>
    internal (int First, int Second) Of(ReadingPlace place)
    {
        (ReadingPoint first, ReadingPoint second) = place.Points(_circuit.Graph.Layout.Control);
        return (Of(first), Of(second));
    }

    /// <summary>A wire of a bus at a point; at the point that bears the booster's name leg B is the booster's own terminal.</summary>
    internal int OfBus(string district, string point, Leg leg) => leg == Leg.B && point == BoosterOf(district)
        ? _wires[$"{point}/B"]
        : _wires[$"{district}:{point}/{leg}"];

    private string BoosterOf(string district) => _circuit.Graph.Layout.Wiring.Districts.First(item => item.Name == district).Booster;

    /// <summary>At the very place of a gap, the side towards the section's end b.</summary>
    private int OfPlace(ReadingPoint.AtPlace at)
    {
        Station station = _circuit.Graph.StationAt(at.Place);
        return at.Side is RailSide.Left or RailSide.Centre ? station.FirstTowardsB : station.SecondTowardsB;
    }
}
