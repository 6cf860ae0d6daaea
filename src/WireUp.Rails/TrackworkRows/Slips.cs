using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Slips: a crossing whose points at either end choose where a train from that end goes. All four ends have one phase; the frogs left
/// and right keep their legs. The west frog is right for the route when the <em>east</em> points drive it (left leg's opposite where
/// they are set for b2), the east frog when the west points do. Positions are the routes; a single slip has one more, <c>straight</c>:
/// both points set for their straight roads, where frogs driven by the points are wrong for either.
/// </summary>
internal static class Slips
{
    private const string A = "a", B = "b", North = "a1-b2", South = "b1-a2", Straight = "straight";

    private static readonly ImmutableArray<PhaseGroup> OnePhase = [new(["a1", "b1"], ["a2", "b2"])];

    internal static Trackwork Row(Piece.Slip slip)
    {
        bool idle = !slip.Double && slip.Drive != SlipDrive.Route;
        ImmutableArray<string> positions = (slip.Double, idle) switch
        {
            (true, _) => [A, B, North, South],
            (false, true) => [A, B, North, Straight],
            _ => [A, B, North],
        };
        ImmutableArray<FixedBond> bonds = slip.Frog == FrogKind.Live ? [.. Crossings.FrogRails, .. SlipRails(slip)] : AllBonded;
        return new(positions, bonds, slip.Frog == FrogKind.Insulated || slip.Feed == FrogFeed.None ? [] : Law(slip), [.. Ways(positions)], OnePhase)
        {
            Useless = idle ? [Straight] : [],
        };
    }

    /// <summary>Insulated or isolated frogs: the left rails of all four ends are one conductor, and the right rails are another.</summary>
    private static ImmutableArray<FixedBond> AllBonded { get; } =
    [
        .. Together(InwardLeft("a1"), InwardLeft("b1"), OutwardLeft("a2"), OutwardLeft("b2")),
        .. Together(InwardRight("a1"), InwardRight("b1"), OutwardRight("a2"), OutwardRight("b2")),
    ];

    /// <summary>The outer rail of a slip road runs from end to end beside the frog that keeps its leg.</summary>
    private static IEnumerable<FixedBond> SlipRails(Piece.Slip slip) => slip.Double
        ? [new(InwardLeft("a1"), OutwardLeft("b2")), new(InwardRight("b1"), OutwardRight("a2"))]
        : [new(InwardLeft("a1"), OutwardLeft("b2"))];

    /// <summary>Position by position what the west and the east frog join: the leg of the left rails or that of the right rails.</summary>
    private static ImmutableArray<SwitchedBond> Law(Piece.Slip slip)
    {
        (PieceNode left, PieceNode right) = slip.Frog == FrogKind.Live
            ? (Crossings.Left, Crossings.Right)
            : (InwardLeft("a1"), InwardRight("a1"));
        ImmutableArray<(string Position, PieceNode West, PieceNode East)> law = slip.Drive switch
        {
            SlipDrive.OwnEnd => [(A, right, left), (B, left, right), (North, left, left), (South, right, right), (Straight, left, left)],
            _ => [(A, right, left), (B, left, right), (North, right, right), (South, left, left), (Straight, left, left)],
        };
        return
        [
            .. from row in law
               where row.Position is A or B or North || (row.Position == South && slip.Double) || (row.Position == Straight && !slip.Double && slip.Drive != SlipDrive.Route)
               from bond in new SwitchedBond[] { new(Crossings.West, row.West, row.Position), new(Crossings.East, row.East, row.Position) }
               select bond,
        ];
    }

    private static IEnumerable<DrivableWay> Ways(ImmutableArray<string> positions) => positions.SelectMany(position => position switch
    {
        A => [new("a1", "a2", A)],
        B => [new("b1", "b2", B)],
        North => [new("a1", "b2", North)],
        South => [new("b1", "a2", South)],
        _ => new DrivableWay[] { new("a1", "a2", Straight), new("b1", "b2", Straight) },
    });
}
