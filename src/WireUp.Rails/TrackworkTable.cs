using WireUp.Layouts;
using WireUp.Rails.TrackworkRows;

namespace WireUp.Rails;

/// <summary>
/// The table of trackwork: what conducts inside each kind of piece, one row of <c>TrackworkRows</c> a kind. Rails at an end are named
/// looking out of the piece, so the left rail of a turnout as seen from its points towards the frog is <c>points.right</c> and
/// <c>leg.left</c>.
/// </summary>
public static class TrackworkTable
{
    /// <summary>The inner conductor of a turnout with a metal frog; those of other pieces have names that begin so.</summary>
    public const string Frog = "frog";

    /// <summary>The row for a piece.</summary>
    /// <param name="piece">The piece.</param>
    /// <param name="control">Two-rail or three-rail: a piece is wired differently for either.</param>
    public static Trackwork Of(Piece piece, ControlSystem control) => control == ControlSystem.ThreeRail
        ? ThreeRailTrack.Row(TwoRail(piece))
        : TwoRail(piece);

    private static Trackwork TwoRail(Piece piece) => piece switch
    {
        Piece.Section section => PlainTrack.Row(section),
        Piece.Stop => PlainTrack.Stop,
        Piece.Turnout turnout => Turnouts.Row(turnout),
        Piece.MultiTurnout turnout => MultiTurnouts.Row(turnout),
        Piece.Crossing crossing => Crossings.Row(crossing),
        Piece.Slip slip => Slips.Row(slip),
        Piece.Scissors scissors => ScissorsCrossovers.Row(scissors),
        Piece.Turntable turntable => Turntables.Row(turntable),
        Piece.TransferTable table => TransferTables.Row(table),
        _ => throw new ArgumentOutOfRangeException(nameof(piece), piece, "no row in the trackwork table"),
    };
}
