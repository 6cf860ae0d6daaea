using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts.Reading;

/// <summary>The frogs of a piece that carry current, by the names that the table of trackwork gives them.</summary>
internal static class Frogs
{
    private static readonly ImmutableArray<string> Single = ["frog"], Crossing = ["frog-west", "frog-east", "frog-left", "frog-right"],
        Scissors = ["frog-a-west", "frog-a-east", "frog-b-west", "frog-b-east"];

    /// <summary>Their names; none of plastic frogs.</summary>
    public static ImmutableArray<string> Of(Piece piece) => piece switch
    {
        Piece.Turnout { Frog: not FrogKind.Insulated } => Single,
        Piece.MultiTurnout { Frog: not FrogKind.Insulated } turnout =>
            [.. Enumerable.Range(1, turnout.LegCount).SelectMany(left => Enumerable.Range(left + 1, turnout.LegCount - left)
                .Select(right => string.Create(CultureInfo.InvariantCulture, $"frog-{left}-{right}")))],
        Piece.Crossing { Frog: not FrogKind.Insulated } or Piece.Slip { Frog: not FrogKind.Insulated } => Crossing,
        Piece.Scissors { Frog: not FrogKind.Insulated } => Scissors,
        _ => [],
    };
}
