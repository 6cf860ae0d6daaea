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

    /// <summary>Whether they hold for turnouts and switches standing in certain positions; else for all positions at once.</summary>
    public bool AreThrown { get; private init; }

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

    /// <summary>The letters with turnouts and switches standing as given.</summary>
    /// <param name="positions">A position for each owner of a contact; one that is left out touches nothing.</param>
    public RailPhases Thrown(IReadOnlyDictionary<PieceId, string> positions) =>
        new(Graph, ThrownRails.Of(Graph, FromFeeders ? null : _phases, positions), _districts) { FromFeeders = FromFeeders, AreThrown = true };

    /// <summary>The letters of the nodes of one district; to all others no feeder reaches.</summary>
    public RailPhases Within(string district, Func<int, bool> belongs) => new(
        Graph,
        [.. _phases.Select((phase, node) => belongs(node) ? phase : RailPhase.Unfed)],
        [.. Enumerable.Range(0, _phases.Length).Select(node => belongs(node) ? district : null)])
    {
        FromFeeders = FromFeeders,
        AreThrown = AreThrown,
    };

    private static RailPhases ByConvention(RailGraph graph) =>
        new(graph, ConventionLetters.Of(graph), [.. new string?[graph.Nodes.Length]]);

    private static RailPhases ByFeeders(RailGraph graph)
    {
        RailIslands islands = new(graph, graph.Links.Where(link => link is not RailLink.Contact));
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
}
