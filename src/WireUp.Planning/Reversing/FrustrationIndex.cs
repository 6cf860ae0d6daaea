using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The fewest edges to delete, or to give the other sign, so that a signed graph is balanced: of track, the fewest joints to open in both
/// rails so that no walk brings rail A to rail B.
/// </summary>
/// <remarks>
/// Sources: F. Harary, "On the measurement of structural balance", Behavioral Science 4 (1959), pages 316–323 (from memory). The graph is
/// reduced, split into its 2-connected parts, and each that is not balanced solved as a constraint programme with rows for odd
/// cycles, as S. Aref, A. J. Mason, M. C. Wilson, "A modeling and computational study of the frustration index in signed
/// networks", Networks 75 (2020), pages 95–110 (from memory), recommend.
/// </remarks>
/// <param name="Cut">The edges of the best labelling found that are not heeded, ascending.</param>
/// <param name="Value">What they cost together.</param>
/// <param name="Bound">No labelling costs less.</param>
internal sealed record FrustrationIndex(ImmutableArray<int> Cut, int Value, int Bound)
{
    /// <summary>Whether no labelling does better.</summary>
    public bool IsProved => Value == Bound;

    /// <summary>
    /// Fewest new borders of any reversing sections for a layout. Each section swaps as a whole, so of its borders either those that ask for the one
    /// phase or those that ask for the other would do to balance the track; sections do not share borders; so they have at least
    /// twice as many as joints must be opened.
    /// </summary>
    internal static int FewestBorders(LayoutIndex index, double budgetSeconds) => 2 * Of(SignedGraph.Of(ParityGraph.Of(index)), budgetSeconds).Bound;

    /// <summary>Finds it.</summary>
    /// <param name="graph">The graph.</param>
    /// <param name="budgetSeconds">Deterministic seconds that the solver may take for each 2-connected part.</param>
    internal static FrustrationIndex Of(SignedGraph graph, double budgetSeconds)
    {
        SignedReductionWorkspace reduced = new(graph);
        ImmutableArray<SignedEdge> core = reduced.Core;
        HashSet<int> cut = [];
        int bound = reduced.Lost;
        foreach (ImmutableArray<int> block in BiconnectedParts.Of(graph.Vertices, [.. core.Select(edge => (edge.One, edge.Other))]))
        {
            (IEnumerable<int> ofBlock, int boundOfBlock) = FrustratedBlock.Of(core, block, budgetSeconds);
            cut.UnionWith(ofBlock);
            bound += boundOfBlock;
        }

        bool[] labels = Labels(graph.Vertices, core, cut);
        reduced.Restore(labels);
        ImmutableArray<int> unheeded =
            [.. Enumerable.Range(0, graph.Edges.Length).Where(i => !graph.Edges[i].IsHeeded(labels[graph.Edges[i].One], labels[graph.Edges[i].Other]))];
        return new(unheeded, unheeded.Sum(edge => graph.Edges[edge].Weight), bound);
    }

    /// <summary>Labels that heed every edge but those cut.</summary>
    private static bool[] Labels(int vertices, ImmutableArray<SignedEdge> edges, HashSet<int> cut)
    {
        SignUnionWorkspace union = new(vertices);
        for (int i = 0; i < edges.Length; i++)
        {
            if (!cut.Contains(i))
            {
                union.Join(edges[i].One, edges[i].Other, edges[i].Negative);
            }
        }

        return [.. Enumerable.Range(0, vertices).Select(vertex => union.Find(vertex).Differs)];
    }
}
