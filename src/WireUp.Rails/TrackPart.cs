using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>A part of the track that has one polarity: a piece, one track of a crossing, a section between pairs of gaps, a moving bridge.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Number">Which part of that piece, from 0.</param>
/// <param name="PlusEnds">Its plus ends: a section's a, a turnout's points, a crossing's a1 or b1.</param>
/// <param name="MinusEnds">Its minus ends: a section's b, a turnout's legs, a crossing's a2 or b2.</param>
public sealed record TrackPart(
    PieceId Piece, int Number, ImmutableArray<TrackEnd> PlusEnds, ImmutableArray<TrackEnd> MinusEnds)
{
    /// <summary>Of a section: where the part begins, in metres from end a; else 0.</summary>
    public double FromMetres { get; init; }

    /// <summary>Of a section: where the part ends, in metres from end a; else 0.</summary>
    public double ToMetres { get; init; }
}

/// <summary>A joint between two parts of the track; both may be the same part.</summary>
/// <param name="From">Index of one part in <see cref="ParityGraph.Parts"/>.</param>
/// <param name="To">Index of the other part.</param>
/// <param name="Flips">Whether the sign flips across it: the two ends are both plus or both minus.</param>
/// <param name="Joint">The joint; its first end is <paramref name="From"/>'s.</param>
public sealed record PartLink(int From, int To, bool Flips, Joint Joint)
{
    /// <summary>The part at the other side.</summary>
    public int Opposite(int part) => part == From ? To : From;
}

/// <summary>A 2-connected block: every two of its links lie on one closed walk that passes no part twice.</summary>
/// <param name="Parts">Its parts, ascending.</param>
/// <param name="Links">Indices of its links in <see cref="ParityGraph.Links"/>, ascending.</param>
/// <param name="IsOdd">Whether it holds an odd cycle.</param>
public sealed record ParityBlock(ImmutableArray<int> Parts, ImmutableArray<int> Links, bool IsOdd);

/// <summary>A closed walk along the track that comes back with the rails exchanged.</summary>
/// <param name="Steps">The parts walked through, the last one joined to the first.</param>
public sealed record OddWalk(ImmutableArray<WalkStep> Steps)
{
    /// <summary>The joints passed, in order; the last one leads back to the first step.</summary>
    public required ImmutableArray<Joint> Joints { get; init; }

    /// <summary>For people: <c>T1.through &gt; loop.a &gt; loop.b &gt; T1.diverging</c>.</summary>
    public override string ToString() =>
        string.Join(" > ", Steps.Skip(1).SelectMany(step => new[] { step.Enter, step.Leave })
            .Prepend(Steps[0].Leave).Append(Steps[0].Enter));
}

/// <summary>One part of the track on a walk.</summary>
/// <param name="Part">Index of the part in <see cref="ParityGraph.Parts"/>.</param>
/// <param name="Enter">The end at which the walk comes in.</param>
/// <param name="Leave">The end at which it goes out.</param>
public readonly record struct WalkStep(int Part, TrackEnd Enter, TrackEnd Leave);
