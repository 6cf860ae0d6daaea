using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>How the frogs of a piece get current, as a sign on paper.</summary>
internal static class FrogLook
{
    /// <summary>What a frog can be.</summary>
    public enum Feeding
    {
        /// <summary>No current.</summary>
        None,

        /// <summary>Fed by a contact or an electronic changeover.</summary>
        Switched,

        /// <summary>One with its rails.</summary>
        Live,
    }

    /// <summary>How the frogs of a piece are fed; null for a piece that has none.</summary>
    public static Feeding? FeedingOf(Piece piece) => piece switch
    {
        Piece.Turnout turnout => Of(turnout.Frog, turnout.Feed),
        Piece.MultiTurnout turnout => Of(turnout.Frog, turnout.Feed),
        Piece.Crossing crossing => Of(crossing.Frog, crossing.Feed),
        Piece.Slip slip => Of(slip.Frog, slip.Feed),
        Piece.Scissors scissors => Of(scissors.Frog, scissors.Feed),
        _ => null,
    };

    /// <summary>The sign of the frogs of a piece.</summary>
    public static ShapeStyle Of(Piece piece) => ShapeStyleOf(FeedingOf(piece) ?? Feeding.None);

    /// <summary>The sign for a way of feeding.</summary>
    public static ShapeStyle ShapeStyleOf(Feeding feeding) => feeding switch
    {
        Feeding.Live => ShapeStyle.Area(SceneColours.Ink),
        Feeding.Switched => new() { Fill = SceneColours.Hair, Stroke = SceneColours.Ink, WidthMillimetres = 0.2 },
        _ => new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.2 },
    };

    private static Feeding Of(FrogKind frog, FrogFeed feed) => (frog, feed) switch
    {
        (FrogKind.Live, _) => Feeding.Live,
        (FrogKind.Isolated, not FrogFeed.None) => Feeding.Switched,
        _ => Feeding.None,
    };
}
