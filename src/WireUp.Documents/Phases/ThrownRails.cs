using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>Letters of rails with turnouts and switches standing in certain positions.</summary>
internal static class ThrownRails
{
    /// <summary>One letter a node.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="carried">In a layout without feeders the letters that were carried on, which stay where there are any; else null.</param>
    /// <param name="positions">How everything stands.</param>
    public static ImmutableArray<RailPhase> Of(RailGraph graph, ImmutableArray<RailPhase>? carried, IReadOnlyDictionary<PieceId, string> positions)
    {
        RailIslands islands = new(graph, graph.Links.Where(link => link is not RailLink.Contact contact
            || positions.GetValueOrDefault(contact.Piece) == contact.Position));
        Legs[] legs = new Legs[graph.Nodes.Length];
        IEnumerable<(int Node, Legs Legs)> known = carried is { } letters
            ? letters.Select((letter, node) => (node, LegsOf(letter)))
            : graph.Layout.Wiring.Feeders.SelectMany(feeder => Fed(graph, feeder));
        foreach ((int node, Legs reached) in known) legs[islands.Of(node)] |= reached;
        return
        [
            .. Enumerable.Range(0, graph.Nodes.Length).Select(node => carried is { } old && LegsOf(old[node]) != Legs.None
                ? old[node]
                : PhaseOf(legs[islands.Of(node)], carried is not null)),
        ];
    }

    private static IEnumerable<(int Node, Legs Legs)> Fed(RailGraph graph, Feeder feeder)
    {
        (int legA, int legB) = FeederPoints.Of(graph, feeder);
        return [(legA, Legs.A), (legB, Legs.B)];
    }

    private static Legs LegsOf(RailPhase letter) => letter switch { RailPhase.A => Legs.A, RailPhase.B => Legs.B, _ => Legs.None };

    // Letters that are only carried on may clash without any metal that joins them: a frog between them still follows its points.
    private static RailPhase PhaseOf(Legs legs, bool isCarried) => legs switch
    {
        Legs.A => RailPhase.A,
        Legs.B => RailPhase.B,
        Legs.A | Legs.B => isCarried ? RailPhase.Switched : RailPhase.Both,
        _ => RailPhase.Unfed,
    };
}
