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

    internal static Trackwork Row(Piece.Scissors scissors)
    {
        bool live = scissors.Frog == FrogKind.Live;
        bool fed = scissors.Frog != FrogKind.Insulated && scissors.Feed != FrogFeed.None;
        return new(
            [Straight, Down, Up],
            live ? LiveBonds : AllBonded,
            [.. live || fed ? CornerLaw : [], .. fed ? MiddleLaw(live) : []],
            Ways,
            OnePhase);
    }

    /// <summary>Insulated or isolated frogs: every left rail is one conductor, every right rail another.</summary>
    private static ImmutableArray<FixedBond> AllBonded { get; } =
    [
        .. Together(InwardLeft("a1"), InwardLeft("b1"), OutwardLeft("a2"), OutwardLeft("b2")),
        .. Together(InwardRight("a1"), InwardRight("b1"), OutwardRight("a2"), OutwardRight("b2")),
    ];

    /// <summary>
    /// Live, with its fourteen cuts: the outer rails run through; the inner rails of each end are islands of their own, cut from the vees of
    /// the middle crossing; its left and right frogs are wired to the outer rails of their leg.
    /// </summary>
    private static ImmutableArray<FixedBond> LiveBonds { get; } =
    [
        new(InwardLeft("a1"), OutwardLeft("a2")), new(InwardRight("b1"), OutwardRight("b2")),
        new(Crossings.Left, InwardLeft("a1"), 0), new(Crossings.Right, InwardRight("b1"), 0),
    ];

    /// <summary>A corner frog takes the leg of the inner rail of its own end when set straight, of the crossover when set for it.</summary>
    private static ImmutableArray<SwitchedBond> CornerLaw { get; } =
    [
        .. Follows(LeftWest, 0, [(Straight, InwardRight("a1")), (Down, InwardLeft("a1")), (Up, InwardRight("a1"))]),
        .. Follows(LeftEast, 0, [(Straight, OutwardRight("a2")), (Down, OutwardRight("a2")), (Up, OutwardLeft("a2"))]),
        .. Follows(RightWest, 0, [(Straight, InwardLeft("b1")), (Down, InwardLeft("b1")), (Up, InwardRight("b1"))]),
        .. Follows(RightEast, 0, [(Straight, OutwardLeft("b2")), (Down, OutwardRight("b2")), (Up, OutwardLeft("b2"))]),
    ];

    /// <summary>The vees of the middle crossing follow the crossover that is set; with both tracks straight nothing runs over them.</summary>
    private static IEnumerable<SwitchedBond> MiddleLaw(bool live)
    {
        (PieceNode left, PieceNode right) = live ? (Crossings.Left, Crossings.Right) : (InwardLeft("a1"), InwardRight("a1"));
        return [.. Follows(Crossings.West, 0, [(Down, right), (Up, left)]), .. Follows(Crossings.East, 0, [(Down, left), (Up, right)])];
    }
}
