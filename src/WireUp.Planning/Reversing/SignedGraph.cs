using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>An edge that says whether its two ends are alike or unlike, and what it costs to leave it unheeded.</summary>
/// <param name="One">One end.</param>
/// <param name="Other">The other end; may be the same.</param>
/// <param name="Negative">Whether the ends are unlike.</param>
/// <param name="Weight">The cost, 1 or more.</param>
internal readonly record struct SignedEdge(int One, int Other, bool Negative, int Weight = 1)
{
    /// <summary>The end that is not this one.</summary>
    internal int Opposite(int vertex) => vertex == One ? Other : One;

    /// <summary>Whether labels of the two ends agree with the edge.</summary>
    internal bool IsHeeded(bool one, bool other) => one != other == Negative;
}

/// <summary>A graph with signs. It is balanced when its vertices can be labelled so that every edge is heeded.</summary>
/// <param name="Vertices">How many vertices; they are numbered from 0.</param>
/// <param name="Edges">The edges; parallel ones and loops are allowed.</param>
internal sealed record SignedGraph(int Vertices, ImmutableArray<SignedEdge> Edges)
{
    /// <summary>The parts of the track and the joints between them; the edge of a joint has the number of its link.</summary>
    internal static SignedGraph Of(ParityGraph parity) =>
        new(parity.Parts.Length, [.. parity.Links.Select(link => new SignedEdge(link.From, link.To, link.Flips))]);
}
