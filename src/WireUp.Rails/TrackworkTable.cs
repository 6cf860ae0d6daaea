using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Layouts.RailSide;

namespace WireUp.Rails;

/// <summary>
/// The table of trackwork: what conducts inside each kind of piece. Rails at an end are named looking out of the piece, so
/// the left rail of a turnout as seen from its points towards the frog is <c>points.right</c> and <c>leg.left</c>.
/// </summary>
public static class TrackworkTable
{
    /// <summary>The inner conductor of a turnout with a metal frog.</summary>
    public const string Frog = "frog";

    /// <summary>The row for a piece.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="control">Two-rail or three-rail: a piece is wired differently for either.</param>
    public static Trackwork Of(Piece piece, ControlSystem control) => control == ControlSystem.ThreeRail
        ? ThreeRail(piece)
        : piece switch
        {
            Piece.Section => Plain,
            Piece.Stop => Nothing,
            Piece.Turnout turnout => TwoRailTurnout(turnout),
            Piece.Crossing => InsulatedCrossing,
            _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no row in the trackwork table"),
        };

    private static Trackwork Nothing { get; } = new([], [], [], []);

    private static Trackwork Plain { get; } = new([], [.. Along("a", "b")], [], [new("a", "b", null)]);

    /// <summary>Each rail is carried through under the other track; the four frogs are dead.</summary>
    private static Trackwork InsulatedCrossing { get; } =
        new([], [.. Along("a1", "a2"), .. Along("b1", "b2")], [], [new("a1", "a2", null), new("b1", "b2", null)]);

    private static Trackwork TwoRailTurnout(Piece.Turnout turnout)
    {
        PieceNode leftStock = new("points", Right), rightStock = new("points", Left);
        string left = turnout.LeftLeg, right = turnout.RightLeg;
        ImmutableArray<FixedBond> stockRails = [new(leftStock, new(left, Left)), new(rightStock, new(right, Right))];
        PieceNode leftLegInner = new(left, Right), rightLegInner = new(right, Left), frog = PieceNode.Inner(Frog);

        // The polarity law of a frog: right stock rail when set for the left leg, left stock rail when set for the right leg.
        ImmutableArray<SwitchedBond> frogFollowsPoints = [new(frog, rightStock, left), new(frog, leftStock, right)];
        ImmutableArray<FixedBond> bonded = [new(rightStock, leftLegInner), new(leftStock, rightLegInner)];
        ImmutableArray<FixedBond> throughFrog = [new(frog, leftLegInner, 0.5), new(frog, rightLegInner, 0.5)];
        ImmutableArray<SwitchedBond> blades = [.. frogFollowsPoints.Select(bond => bond with { Share = 0.5 })];

        (ImmutableArray<FixedBond> inner, ImmutableArray<SwitchedBond> switched) = (turnout.Frog, turnout.Feed) switch
        {
            (FrogKind.Live, _) => (throughFrog, blades),
            (FrogKind.Isolated, FrogFeed.Contact) => (bonded, frogFollowsPoints),
            _ => (bonded, []),
        };
        return new(TurnoutPositions(turnout), [.. stockRails, .. inner], switched, TurnoutWays(turnout));
    }

    /// <summary>All centre conductors are one, all running rails are one; a crossing keeps its two centre conductors apart.</summary>
    private static Trackwork ThreeRail(Piece piece) => piece switch
    {
        Piece.Section => new([], [.. Common("a", "b")], [], Plain.Ways),
        Piece.Stop => Nothing,
        Piece.Turnout turnout => new(
            TurnoutPositions(turnout),
            [.. Common("points", turnout.LeftLeg), .. Common("points", turnout.RightLeg)],
            [],
            TurnoutWays(turnout)),
        Piece.Crossing => new(
            [],
            [.. Common("a1", "a2"), .. Common("b1", "b2"), new(new("a1", Running), new("b1", Running), 0)],
            [],
            InsulatedCrossing.Ways),
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no row in the trackwork table"),
    };

    private static ImmutableArray<string> TurnoutPositions(Piece.Turnout turnout) =>
        turnout.Hand == TurnoutHand.Wye ? ["left", "right"] : ["through", "diverging"];

    private static ImmutableArray<DrivableWay> TurnoutWays(Piece.Turnout turnout) =>
        [.. TurnoutPositions(turnout).Select(leg => new DrivableWay("points", leg, leg))];

    private static IEnumerable<FixedBond> Along(string from, string to) =>
        [new(new(from, Right), new(to, Left)), new(new(from, Left), new(to, Right))];

    private static IEnumerable<FixedBond> Common(string from, string to) =>
        [new(new(from, Centre), new(to, Centre)), new(new(from, Running), new(to, Running))];
}
