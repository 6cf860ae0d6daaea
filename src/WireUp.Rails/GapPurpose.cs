using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>What a gap in one rail is good for.</summary>
public enum GapUse
{
    /// <summary>Without it rails of opposite polarity meet.</summary>
    Short,

    /// <summary>Without it a district that swaps polarity meets a rail that is not swapped with it.</summary>
    Reversing,

    /// <summary>Without it no way of feeding some track is right: its two rails are one, a walk exchanges them, or its feeders contradict each other.</summary>
    Loop,

    /// <summary>Without it two districts or cabs are one.</summary>
    Districts,

    /// <summary>Without it a rail has current in positions in which it has none now.</summary>
    Switching,

    /// <summary>The rail on one side of it has no feed: without it that rail would have current.</summary>
    Unfed,

    /// <summary>The rail conducts around it some other way.</summary>
    Around,

    /// <summary>Nothing electrical needs it.</summary>
    Nothing,

    /// <summary>The search was given up.</summary>
    Undecided,
}

/// <summary>A gap or insulated joint in one rail.</summary>
/// <param name="At">Where it is, in the words of the layout file.</param>
/// <param name="Side">The rail, seen as the gap's place is: looking out of the end, or from a section's end a.</param>
public sealed record GapRail(GapPlace At, RailSide Side)
{
    /// <summary>As written in results: <c>T1.through/left</c>, <c>loop@1.2 m/right</c>.</summary>
    public override string ToString() => $"{At}/{RailSides.Word(Side)}";
}

/// <summary>Why a gap in one rail is there: what closing this one gap alone would do.</summary>
/// <param name="Gap">The gap.</param>
/// <param name="Use">What it is good for.</param>
public sealed record GapPurpose(GapRail Gap, GapUse Use)
{
    /// <summary>The wires that would meet, the way over the closed gap and the fewest positions it takes; null for other uses.</summary>
    public RailMeeting? Meeting { get; init; }

    /// <summary>Of a loop the way from one rail of a track over the closed gap to its other rail; of a meeting the meeting's; else empty.</summary>
    public ImmutableArray<RailPoint> Path { get; init; } = [];

    /// <summary>The positions in which it makes a difference; empty where it always does or never.</summary>
    public ImmutableSortedDictionary<PieceId, string> Turnouts { get; init; } = ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>
    /// Of a gap that may be closed: others that may be closed too, but not together with it; one of them has to stay. Empty where
    /// it may be closed together with every gap that nothing needs.
    /// </summary>
    public ImmutableArray<GapRail> EitherOf { get; init; } = [];

    /// <summary>Whether closing this gap alone does harm.</summary>
    public bool IsNeeded => Use is GapUse.Short or GapUse.Reversing or GapUse.Loop or GapUse.Districts or GapUse.Switching or GapUse.Undecided;
}
