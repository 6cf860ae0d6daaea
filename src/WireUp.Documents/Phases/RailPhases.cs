using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>
/// Rail A and rail B over a whole layout, for colouring and lettering only: a rail has the leg whose feeders reach it through
/// metal that always conducts, or the only leg that switches and contacts ever join it to. In a layout without any feeder the letters are carried on from the first section instead, whose
/// left rail is called A; where a loop brings A round to B the letters clash, as the rails will.
/// </summary>
internal sealed class RailPhases
{
    private readonly ImmutableArray<RailPhase> _phases;
    private readonly ImmutableArray<string?> _districts;

    private RailPhases(RailGraph graph, ImmutableArray<RailPhase> phases, ImmutableArray<string?> districts) =>
        (Graph, _phases, _districts) = (graph, phases, districts);

    /// <summary>The rails.</summary>
    public RailGraph Graph { get; }

    /// <summary>Whether there is any feeder to take the letters from.</summary>
    public bool FromFeeders { get; private init; }

    /// <summary>Whether letters that were carried on come round to each other somewhere: a rail is A from one side and B from the other.</summary>
    public bool LettersClash => !FromFeeders && ConventionLetters.Clash(Graph, _phases);

    /// <summary>The leg of a node of the graph.</summary>
    public RailPhase this[int node] => _phases[node];

    /// <summary>The district that feeds a node, or null.</summary>
    public string? DistrictOf(int node) => _districts[node];

    /// <summary>Letters every rail of a layout.</summary>
    public static RailPhases Of(Layout layout)
    {
        RailGraph graph = RailGraph.Build(layout);
        return layout.Wiring.Feeders.IsEmpty ? ByConvention(graph) : ByFeeders(graph);
    }

    private static RailPhases ByConvention(RailGraph graph) =>
        new(graph, ConventionLetters.Of(graph), [.. new string?[graph.Nodes.Length]]);

    private static RailPhases ByFeeders(RailGraph graph)
    {
        Islands islands = new(graph);
        Legs[] ofIsland = new Legs[graph.Nodes.Length];
        string?[] districtOf = new string?[graph.Nodes.Length];
        foreach (Feeder feeder in graph.Layout.Wiring.Feeders)
        {
            (int legA, int legB) = FeederPoints.Of(graph, feeder);
            Feed(legA, Legs.A, feeder.District);
            Feed(legB, Legs.B, feeder.District);
        }

        void Feed(int node, Legs leg, string district)
        {
            int island = islands.Of(node);
            ofIsland[island] |= leg;
            districtOf[island] ??= district;
        }

        SwitchedRails switched = new(graph, islands.Of, ofIsland, districtOf);
        return new(
            graph,
            [.. Enumerable.Range(0, graph.Nodes.Length).Select(node => switched.PhaseOf(islands.Of(node)))],
            [.. Enumerable.Range(0, graph.Nodes.Length).Select(node => districtOf[islands.Of(node)])])
        {
            FromFeeders = true,
        };
    }

    /// <summary>Rails that metal always joins, by union and find.</summary>
    private sealed class Islands
    {
        private readonly int[] _parents;

        public Islands(RailGraph graph)
        {
            _parents = [.. Enumerable.Range(0, graph.Nodes.Length)];
            foreach (RailLink link in graph.Links)
            {
                if (link is not RailLink.Contact) _parents[Of(link.From)] = Of(link.To);
            }
        }

        public int Of(int node)
        {
            while (_parents[node] != node)
            {
                _parents[node] = _parents[_parents[node]];
                node = _parents[node];
            }

            return node;
        }
    }
}
