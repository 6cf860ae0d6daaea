using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>What is at a node.</summary>
/// <param name="Stem">The beginning of the piece's name, <c>T</c>; empty where no piece lies there.</param>
/// <param name="Make">The piece, once it has a name.</param>
/// <param name="Ends">For each end of track at the node the end of the piece that it is joined to, and how much of the track the piece takes; null where it is left open.</param>
internal sealed record NodeVerdict(string Stem, Func<PieceId, Piece>? Make, ImmutableArray<(string End, double Takes)?> Ends)
{
    /// <summary>Ends of track that lead straight into each other.</summary>
    public ImmutableArray<(int First, int Second)> Passes { get; init; } = [];

    /// <summary>The question that the lines left open, or null.</summary>
    public TakenAnswer? Question { get; init; }

    /// <summary>Nothing is joined.</summary>
    public static NodeVerdict Open(int ends) => new("", null, [.. Enumerable.Repeat<(string, double)?>(null, ends)]);
}
