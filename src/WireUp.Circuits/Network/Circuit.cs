using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Circuits.Network;

/// <summary>
/// A layout as a circuit: the nodes of its rail graph, then those of its wires; resistances between them; ideal sources.
/// </summary>
internal sealed class Circuit
{
    private readonly ImmutableArray<string> _wireNodes;

    internal Circuit(CircuitBuilder built)
    {
        Graph = built.Graph;
        _wireNodes = [.. built.WireNodes];
        Elements = [.. built.Elements];
        Sources = [.. built.Sources];
        Districts = [.. built.Districts];
        Segments = [.. built.Segments];
        Pairs = [.. built.Pairs];
    }

    private Circuit(Circuit before, ImmutableArray<CircuitElement> elements)
    {
        (Graph, _wireNodes, Sources, Districts) = (before.Graph, before._wireNodes, before.Sources, before.Districts);
        (Segments, Pairs, Elements) = (before.Segments, before.Pairs, elements);
    }

    internal RailGraph Graph { get; }

    internal ImmutableArray<CircuitElement> Elements { get; }

    internal ImmutableArray<CircuitSource> Sources { get; }

    internal ImmutableArray<DistrictStart> Districts { get; }

    /// <summary>Every piece of every section between neighbouring stations, in the order of the layout.</summary>
    internal ImmutableArray<TrackSegment> Segments { get; }

    /// <summary>Nodes that lie side by side: both rails of a station, both wires of a bus point.</summary>
    internal ImmutableArray<(int First, int Second)> Pairs { get; }

    internal int NodeCount => Graph.Nodes.Length + _wireNodes.Length;

    /// <summary>The circuit with other elements in place of its own; those of one place stand for the same.</summary>
    internal Circuit With(ImmutableArray<CircuitElement> elements) => new(this, elements);

    /// <summary>The node's name in results: the rail point, or <c>district:tap/A</c>, or <c>booster/A</c>.</summary>
    internal string NameOf(int node) =>
        node < Graph.Nodes.Length ? Graph.Nodes[node].ToString()! : _wireNodes[node - Graph.Nodes.Length];
}
