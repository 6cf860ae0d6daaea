using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Rails that always conduct to each other, gathered into nets, and the legs that feed each net.</summary>
/// <param name="NetOf">For each node of the graph the number of its net, from 0 in order of first node.</param>
/// <param name="Legs">For each net one wire of each district and leg that feeds it, in the order of the layout.</param>
internal sealed record RailNets(ImmutableArray<int> NetOf, ImmutableArray<ImmutableArray<FeederLeg>> Legs)
{
    internal int Count => Legs.Length;

    internal bool IsFed(int net) => !Legs[net].IsEmpty;

    internal static RailNets Of(RailGraph graph, IEnumerable<RailLink> conducting, IEnumerable<FedNode> fed)
    {
        DisjointSetsWorkspace union = new(graph.Nodes.Length);
        foreach (RailLink link in conducting)
        {
            union.Join(link.From, link.To);
        }

        int[] netOf = union.Numbers();
        int count = netOf.Length == 0 ? 0 : netOf.Max() + 1;
        ILookup<int, FeederLeg> legs = fed.ToLookup(wire => netOf[wire.Node], wire => wire.Wire);
        return new(
            [.. netOf],
            [.. Enumerable.Range(0, count).Select(net => legs[net].DistinctBy(leg => (leg.District, leg.Leg)).ToImmutableArray())]);
    }
}

/// <summary>A wire of a feeder and the node it is soldered to.</summary>
internal readonly record struct FedNode(int Node, FeederLeg Wire)
{
    /// <summary>Both wires of every feeder, in the order of the layout.</summary>
    internal static IEnumerable<FedNode> All(RailGraph graph)
    {
        foreach (Feeder feeder in graph.Layout.Wiring.Feeders)
        {
            (int legA, int legB) = FeederPoints.Of(graph, feeder);
            yield return new(legA, new(feeder.Name, feeder.District, Leg.A));
            yield return new(legB, new(feeder.Name, feeder.District, Leg.B));
        }
    }
}
