using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Slips: a crossing whose points at either end choose where a train from that end goes: north, to the ends a1 and b2, or south, to b1
/// and a2. All four ends have one phase; the frogs left and right keep their legs. <em>The west frog follows the east points, the east
/// frog the west points</em>: north the leg of the right rails, south that of the left rails. Wired to the points at their own end, both
/// straight routes still work and both slip roads short.
/// Positions are the routes. A single slip has no southern slip road: <c>straight</c> is both points set south, open for both straight
/// routes, where frogs that follow the points are wrong for either.
/// </summary>
internal static class Slips
{
    private const string A = "a", B = "b", North = "a1-b2", South = "b1-a2", Straight = "straight";

    private static readonly ImmutableArray<PhaseGroup> OnePhase = [new(["a1", "b1"], ["a2", "b2"])];

    /// <summary>Which way the points stand in each position, and what a train can drive.</summary>
    private static readonly ImmutableArray<Stand> Stands =
    [
        new(A, WestNorth: false, EastNorth: true, [new("a1", "a2", A)]),
        new(B, WestNorth: true, EastNorth: false, [new("b1", "b2", B)]),
        new(North, WestNorth: true, EastNorth: true, [new("a1", "b2", North)]),
        new(South, WestNorth: false, EastNorth: false, [new("b1", "a2", South)]),
        new(Straight, WestNorth: false, EastNorth: false, [new("a1", "a2", Straight), new("b1", "b2", Straight)]),
    ];

    internal static Trackwork Row(Piece.Slip slip)
    {
        bool frogsFollow = slip.Frog != FrogKind.Insulated && slip.Feed != FrogFeed.None;
        bool bySensor = slip.Feed == FrogFeed.Sensor, byRoute = frogsFollow && slip.Drive == SlipDrive.Route;
        ImmutableArray<Stand> stands = [.. Stands.Where(stand => stand.Position switch
        {
            South => slip.Double,
            Straight => !slip.Double && !byRoute,
            _ => true,
        })];
        return new(
            [.. stands.Select(stand => stand.Position)],
            slip.Frog == FrogKind.Live ? [.. Crossings.FrogRails, .. SlipRails(slip)] : AllBonded,
            frogsFollow ? [.. stands.Where(stand => !bySensor || stand.Position != Straight).SelectMany(stand => Law(slip, stand))] : [],
            [.. stands.SelectMany(stand => stand.Ways)],
            OnePhase)
        {
            Useless = frogsFollow && !slip.Double && !byRoute && !bySensor ? [Straight] : [],
        };
    }

    /// <summary>Insulated or isolated frogs: the left rails of all four ends are one conductor, and the right rails are another.</summary>
    private static ImmutableArray<FixedBond> AllBonded { get; } =
    [
        .. Together(InwardLeft("a1"), InwardLeft("b1"), OutwardLeft("a2"), OutwardLeft("b2")),
        .. Together(InwardRight("a1"), InwardRight("b1"), OutwardRight("a2"), OutwardRight("b2")),
    ];

    /// <summary>The outer rail of a slip road runs from end to end beside the frog that keeps its leg.</summary>
    private static ImmutableArray<FixedBond> SlipRails(Piece.Slip slip) => slip.Double
        ? [new(InwardLeft("a1"), OutwardLeft("b2")), new(InwardRight("b1"), OutwardRight("a2"))]
        : [new(InwardLeft("a1"), OutwardLeft("b2"))];

    /// <summary>What the west and the east frog join as the points stand.</summary>
    private static ImmutableArray<SwitchedBond> Law(Piece.Slip slip, Stand stand)
    {
        (PieceNode left, PieceNode right) = slip.Frog == FrogKind.Live
            ? (Crossings.Left, Crossings.Right)
            : (InwardLeft("a1"), InwardRight("a1"));
        (bool westIsRight, bool eastIsRight) = slip is { Drive: SlipDrive.OwnEnd, Feed: FrogFeed.Contact }
            ? (!stand.WestNorth, !stand.EastNorth)
            : (stand.EastNorth, stand.WestNorth);
        return
        [
            new(Crossings.West, westIsRight ? right : left, stand.Position),
            new(Crossings.East, eastIsRight ? right : left, stand.Position),
        ];
    }

    private sealed record Stand(string Position, bool WestNorth, bool EastNorth, ImmutableArray<DrivableWay> Ways);
}
