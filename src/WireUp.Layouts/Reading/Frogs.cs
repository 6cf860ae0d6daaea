using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts.Reading;

/// <summary>The frogs of a piece that carry current, by the names that the table of trackwork gives them.</summary>
internal static class Frogs
{
    private static readonly ImmutableArray<string> Single = ["frog"], Acute = ["frog-west", "frog-east"], Crossing = [.. Acute, "frog-left", "frog-right"],
        Scissors = ["frog-a-west", "frog-a-east", "frog-b-west", "frog-b-east"];

    /// <summary>Their names; none of plastic frogs, and of metal ones that nothing feeds.</summary>
    public static ImmutableArray<string> Of(Piece piece) => piece switch
    {
        Piece.Turnout { Frog: FrogKind.Live } or Piece.Turnout { Frog: FrogKind.Isolated, HeelInFrog: true } => Single,
        Piece.Turnout { Frog: FrogKind.Isolated, Feed: not FrogFeed.None } => Single,
        Piece.MultiTurnout turnout when IsFed(turnout.Frog, turnout.Feed) =>
            [.. Enumerable.Range(1, turnout.LegCount).SelectMany(left => Enumerable.Range(left + 1, turnout.LegCount - left)
                .Select(right => string.Create(CultureInfo.InvariantCulture, $"frog-{left}-{right}")))],
        Piece.Crossing crossing when IsFed(crossing.Frog, crossing.Feed) => Crossing,
        Piece.Slip slip when IsFed(slip.Frog, slip.Feed) => slip.Frog == FrogKind.Live ? Crossing : Acute,
        Piece.Scissors scissors when IsFed(scissors.Frog, scissors.Feed) => Scissors,
        _ => [],
    };

    private static bool IsFed(FrogKind frog, FrogFeed feed) => frog == FrogKind.Live || (frog == FrogKind.Isolated && feed != FrogFeed.None);
}
