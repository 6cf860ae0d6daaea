using WireUp.Layouts;

namespace WireUp.Web.Drafting;

/// <summary>The frogs of a piece, for the form.</summary>
internal static class FrogWords
{
    /// <summary>What the frogs of a piece are and who feeds them; null where it has none.</summary>
    public static (FrogKind Frog, FrogFeed Feed)? Of(Piece piece) => piece switch
    {
        Piece.Turnout turnout => (turnout.Frog, turnout.Feed),
        Piece.MultiTurnout turnout => (turnout.Frog, turnout.Feed),
        Piece.Crossing crossing => (crossing.Frog, crossing.Feed),
        Piece.Slip slip => (slip.Frog, slip.Feed),
        Piece.Scissors scissors => (scissors.Frog, scissors.Feed),
        _ => null,
    };
}
