using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>What a way of drawing hands over.</summary>
/// <param name="Lines">Every way of every piece, pieces in the order of the file.</param>
/// <param name="Automatic">Whether the lines were made up.</param>
/// <param name="SpacingMetres">Distance kept between neighbouring tracks.</param>
/// <param name="Bridges">Where tracks cross that do not meet.</param>
internal sealed record PlanDrawing(ImmutableArray<PieceLine> Lines, bool Automatic, double SpacingMetres, ImmutableArray<PlanPoint> Bridges)
{
    /// <summary>The ways through a piece, as pairs of end names; a moving bridge has its own lines, see <see cref="TableLines"/>.</summary>
    public static IEnumerable<(string From, string To)> Ways(Piece piece) => piece switch
    {
        Piece.Section => [("a", "b")],
        Piece.Turnout or Piece.MultiTurnout => piece.EndNames.Skip(1).Select(leg => ("points", leg)),
        Piece.Crossing => [("a1", "a2"), ("b1", "b2")],
        Piece.Slip slip => slip.Double ? [("a1", "a2"), ("b1", "b2"), ("a1", "b2"), ("b1", "a2")] : [("a1", "a2"), ("b1", "b2"), ("a1", "b2")],
        Piece.Scissors => [("a1", "a2"), ("b1", "b2"), ("a1", "b2"), ("b1", "a2")],
        Piece.Stop or Piece.Turntable or Piece.TransferTable => [],
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no way to draw it"),
    };
}
