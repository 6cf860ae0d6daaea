using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Scissors crossovers in one piece. Looking from the ends 1 (west) to the ends 2 (east), track a is the left one. Each of the four
/// corner frogs lies where an inner rail of a straight track crosses a rail of a crossover; the crossing in the middle has four
/// more. All ends have one phase.
/// </summary>
internal static class ScissorsCrossovers
{
    private const string Straight = "straight", Down = "a1-b2", Up = "b1-a2";

    private static readonly PieceNode
        LeftWest = PieceNode.Inner("frog-a-west"), LeftEast = PieceNode.Inner("frog-a-east"),
        RightWest = PieceNode.Inner("frog-b-west"), RightEast = PieceNode.Inner("frog-b-east");

    private static readonly ImmutableArray<PhaseGroup> OnePhase = [new(["a1", "b1"], ["a2", "b2"])];

    private static readonly ImmutableArray<DrivableWay> Ways =
        [new("a1", "a2", Straight), new("b1", "b2", Straight), new("a1", "b2", Down), new("b1", "a2", Up)];

    internal static Trackwork Row(Piece.Scissors scissors) => new(
        [Straight, Down, Up],
        scissors.Frog == FrogKind.Live ? LiveBonds : AllBonded,
        scissors.Frog == FrogKind.Insulated || (scissors.Frog == FrogKind.Isolated && scissors.Feed == FrogFeed.None) ? [] : [.. Law(scissors.Frog == FrogKind.Live)],
        Ways,
        OnePhase);

    /// <summary>Insulated or isolated frogs: every left rail is one conductor, every right rail another.</summary>
    private static ImmutableArray<FixedBond> AllBonded { get; } =
    [
        .. Together(InwardLeft("a1"), InwardLeft("b1"), OutwardLeft("a2"), OutwardLeft("b2")),
        .. Together(InwardRight("a1"), InwardRight("b1"), OutwardRight("a2"), OutwardRight("b2")),
    ];

    /// <summary>
    /// Live: the outer rails run through; the inner rails end at cuts before the vees of the middle crossing, and its left and right frogs
    /// are bonded by wire to the outer rails of their leg.
    /// </summary>
    private static ImmutableArray<FixedBond> LiveBonds { get; } =
    [
        new(InwardLeft("a1"), OutwardLeft("a2")), new(InwardRight("b1"), OutwardRight("b2")),
        new(Crossings.Left, InwardLeft("a1"), 0), new(Crossings.Right, InwardRight("b1"), 0),
    ];

    /// <summary>
    /// Corner frogs take the leg of the inner rail when set straight, of the crossover when set for it. Without the bonds of insulated
    /// frogs the inner rails are the stock rails at each end.
    /// </summary>
    private static IEnumerable<SwitchedBond> Law(bool live) =>
    [
        .. Follows(LeftWest, 0, [(Straight, InwardRight("a1")), (Down, InwardLeft("a1")), (Up, InwardRight("a1"))]),
        .. Follows(LeftEast, 0, [(Straight, OutwardRight("a2")), (Down, OutwardRight("a2")), (Up, OutwardLeft("a2"))]),
        .. Follows(RightWest, 0, [(Straight, InwardLeft("b1")), (Down, InwardLeft("b1")), (Up, InwardRight("b1"))]),
        .. Follows(RightEast, 0, [(Straight, OutwardLeft("b2")), (Down, OutwardRight("b2")), (Up, OutwardLeft("b2"))]),
        .. Follows(Crossings.West, 0, [(Down, live ? Crossings.Right : InwardRight("a1")), (Up, live ? Crossings.Left : InwardLeft("a1"))]),
        .. Follows(Crossings.East, 0, [(Down, live ? Crossings.Left : InwardLeft("a1")), (Up, live ? Crossings.Right : InwardRight("a1"))]),
    ];
}
