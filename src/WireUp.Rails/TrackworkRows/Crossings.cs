using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Crossings. Looking along the tracks from their ends 1 (west) to their ends 2 (east), with a1 to the left of b1, track a goes to the
/// right and track b to the left. The four frogs: <c>frog-west</c> where a's right rail crosses b's left, <c>frog-east</c> where a's
/// left crosses b's right (both acute), <c>frog-left</c> where the left rails cross, <c>frog-right</c> where the right rails do.
/// Positions say which track the frogs are set for; nothing moves.
/// </summary>
internal static class Crossings
{
    internal static readonly PieceNode West = PieceNode.Inner("frog-west"), East = PieceNode.Inner("frog-east");
    internal static readonly PieceNode Left = PieceNode.Inner("frog-left"), Right = PieceNode.Inner("frog-right");

    private static readonly ImmutableArray<PhaseGroup> TwoPhases = [new(["a1"], ["a2"]), new(["b1"], ["b2"])];
    private static readonly ImmutableArray<PhaseGroup> SamePhase = [new(["a1", "b1"], ["a2", "b2"])];
    private static readonly ImmutableArray<PhaseGroup> OppositePhase = [new(["a1", "b2"], ["a2", "b1"])];

    internal static Trackwork Row(Piece.Crossing crossing) => crossing switch
    {
        { Frog: FrogKind.Insulated } or { Frog: FrogKind.Isolated, Feed: FrogFeed.None } => Insulated,
        { Frog: FrogKind.Isolated } => Isolated,
        { OppositePhase: true } => Live(OppositePhase, crossing, OppositeLaw),
        _ => Live(SamePhase, crossing, SameLaw),
    };

    /// <summary>Each rail is carried through under the other track; the four frogs are dead. The tracks may have any phase.</summary>
    internal static Trackwork Insulated { get; } = new(
        [], [.. Along("a1", "a2"), .. Along("b1", "b2")], [], [new("a1", "a2", null), new("b1", "b2", null)], TwoPhases);

    /// <summary>As insulated, with each frog fed by the track that is set.</summary>
    private static Trackwork Isolated { get; } = Insulated with
    {
        Positions = ["a", "b"],
        Switched =
        [
            .. Follows(West, 0, [("a", InwardRight("a1")), ("b", InwardLeft("b1"))]),
            .. Follows(East, 0, [("a", InwardLeft("a1")), ("b", InwardRight("b1"))]),
            .. Follows(Left, 0, [("a", InwardLeft("a1")), ("b", InwardLeft("b1"))]),
            .. Follows(Right, 0, [("a", InwardRight("a1")), ("b", InwardRight("b1"))]),
        ],
        Ways = [new("a1", "a2", "a"), new("b1", "b2", "b")],
    };

    /// <summary>Each frog is one with the two rails that run from it to the ends; cuts keep the frogs apart.</summary>
    internal static ImmutableArray<FixedBond> FrogRails { get; } =
    [
        new(West, InwardRight("a1"), 0.5), new(West, InwardLeft("b1"), 0.5),
        new(East, OutwardLeft("a2"), 0.5), new(East, OutwardRight("b2"), 0.5),
        new(Left, InwardLeft("a1"), 0.5), new(Left, OutwardLeft("b2"), 0.5),
        new(Right, InwardRight("b1"), 0.5), new(Right, OutwardRight("a2"), 0.5),
    ];

    /// <summary>Both left rails carry one leg: the frogs left and right keep theirs, west and east follow the track that is set.</summary>
    private static ImmutableArray<SwitchedBond> SameLaw { get; } =
    [
        .. Follows(West, 0, [("a", Right), ("b", Left)]),
        .. Follows(East, 0, [("a", Left), ("b", Right)]),
    ];

    /// <summary>a's left rail and b's right rail carry one leg: west and east keep theirs, left and right follow the track that is set.</summary>
    private static ImmutableArray<SwitchedBond> OppositeLaw { get; } =
    [
        .. Follows(Left, 0, [("a", East), ("b", West)]),
        .. Follows(Right, 0, [("a", West), ("b", East)]),
    ];

    private static Trackwork Live(ImmutableArray<PhaseGroup> phases, Piece.Crossing crossing, ImmutableArray<SwitchedBond> law) => new(
        ["a", "b"],
        FrogRails,
        crossing.Feed == FrogFeed.None ? [] : law,
        [new("a1", "a2", "a"), new("b1", "b2", "b")],
        phases);
}
