using WireUp.Circuits.Network;
using WireUp.Faults.Search;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Faults.Next;

/// <summary>Where a meter's lead can touch each node of the circuit, and what lies beside it.</summary>
internal sealed class NodePoints
{
    private readonly RailGraph _graph;
    private readonly Lazy<ILookup<int, int>> _beside;
    private readonly Lazy<Dictionary<int, ReadingPoint>> _wires;

    internal NodePoints(Session session)
    {
        Circuit circuit = session.Circuit.Circuit;
        _graph = circuit.Graph;
        _beside = new(() => circuit.Elements.Where(element => element.From != element.To)
            .SelectMany(element => new[] { (element.From, element.To), (From: element.To, To: element.From) })
            .ToLookup(pair => pair.Item1, pair => pair.Item2));
        _wires = new(() => Wires(session));
    }

    /// <summary>The point of a node, or null where no lead reaches it.</summary>
    internal ReadingPoint? Of(int node) => node >= _graph.Nodes.Length ? _wires.Value.GetValueOrDefault(node) : _graph.Nodes[node] switch
    {
        RailPoint.AtEnd at => new ReadingPoint.AtEnd(at.Rail),
        RailPoint.Within { Face: not GapFace.TowardsA } at => new ReadingPoint.AtPlace(at.Place, at.Side),
        RailPoint.Inside inside when inside.Name.StartsWith(TrackworkTable.Frog, StringComparison.Ordinal) => new ReadingPoint.AtFrog(inside.Owner, inside.Name),
        _ => null,
    };

    /// <summary>Points that one rail, wire or joint leads to.</summary>
    internal IEnumerable<ReadingPoint> Beside(int node) => _beside.Value[node].Distinct().Select(Of).OfType<ReadingPoint>();

    private static Dictionary<int, ReadingPoint> Wires(Session session)
    {
        Wiring wiring = session.Circuit.Circuit.Graph.Layout.Wiring;
        IEnumerable<ReadingPoint> points =
        [
            .. from bus in wiring.Buses
               from point in bus.Runs.SelectMany(run => new[] { run.From, run.To }).Distinct()
               from leg in new[] { Leg.A, Leg.B }
               select new ReadingPoint.OfBus(bus.District, point, leg),
            .. from feeder in wiring.Feeders from leg in new[] { Leg.A, Leg.B } select new ReadingPoint.OfFeeder(feeder.Name, leg),
        ];
        return points.GroupBy(session.Nodes.Of).ToDictionary(group => group.Key, group => group.First());
    }
}
