using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts;

/// <summary>
/// The positions that a piece of track can stand in, by the names under which a layout file mentions them: <c>T1.diverging</c>. The
/// table of trackwork says what each of them joins.
/// </summary>
public static class PiecePositions
{
    /// <summary>The positions of a piece, the normal one first; none of a piece that neither moves nor has contacts that do.</summary>
    public static ImmutableArray<string> Of(Piece piece) => piece switch
    {
        Piece.Section section => section.LiftOut ? ["in", "out"] : [],
        Piece.Stop => [],
        Piece.Turnout turnout => [.. turnout.EndNames.Skip(1)],
        Piece.MultiTurnout turnout => [.. turnout.Legs],
        Piece.Crossing { Frog: FrogKind.Insulated } or Piece.Crossing { Frog: FrogKind.Isolated, Feed: FrogFeed.None } => [],
        Piece.Crossing => ["a", "b"],
        Piece.Slip { Double: true } => ["a", "b", "a1-b2", "b1-a2"],
        Piece.Slip { Drive: SlipDrive.Route, Frog: not FrogKind.Insulated, Feed: not FrogFeed.None } => ["a", "b", "a1-b2"],
        Piece.Slip => ["a", "b", "a1-b2", "straight"],
        Piece.Scissors => ["straight", "a1-b2", "b1-a2"],
        Piece.Turntable turntable when turntable.RoadCount % 2 == 0 => turntable.EndNames,
        Piece.Turntable turntable => [.. turntable.EndNames.SelectMany(road => new[] { road, $"{road}-tail" })],
        Piece.TransferTable table => [.. Enumerable.Range(1, table.RoadCount).Select(road => road.ToString(CultureInfo.InvariantCulture))],
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "not a piece of the format"),
    };
}
