using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>How a node sits on squared paper: all angles in quarter turns.</summary>
internal static class NodeShape
{
    /// <summary>The angle from each arm to the next, counter-clockwise; the sum is 4.</summary>
    public static ImmutableArray<int> Angles(MapNode node) => (node.Kind, Hand(node)) switch
    {
        (NodeKind.End, _) => [4],
        (NodeKind.Bend, _) => [2, 2],
        (NodeKind.Port, _) => [1, 2, 1],
        (NodeKind.Corner, _) => [1, 3],
        (NodeKind.Turnout, TurnoutHand.Right) => [1, 2, 1],
        (NodeKind.Turnout, TurnoutHand.Left) => [1, 1, 2],
        (NodeKind.Turnout, _) => [2, 1, 1],
        _ => [1, 1, 1, 1],
    };

    /// <summary>
    /// The quarter turn to the left that a track would make right after leaving by an arm to run as it does on the real
    /// railway: a leg that squared paper leads off square turns back to run beside the other. Negative is to the right.
    /// </summary>
    public static int TurnOnLeaving(MapNode node, int arm) => (node.Kind, Hand(node), arm) switch
    {
        (NodeKind.Turnout, TurnoutHand.Right or TurnoutHand.Wye, 0) => 1,
        (NodeKind.Turnout, TurnoutHand.Left or TurnoutHand.Wye, 1) => -1,
        _ => 0,
    };

    private static TurnoutHand? Hand(MapNode node) => (node.Piece as Piece.Turnout)?.Hand;
}
