using WireUp.Layouts;

namespace WireUp.Faults;

/// <summary>Letters of the likeliest explanations, and where they stand on the plan.</summary>
public static class SuspectLetters
{
    /// <summary>So many suspects have a letter, in tables and on the plan.</summary>
    public const int Most = 6;

    private const double LeastListed = 0.001;

    /// <summary>The letter of an explanation; empty where it has none.</summary>
    /// <param name="rank">Its rank, from 0.</param>
    public static string Of(int rank) => rank < Most ? ((char)('A' + rank)).ToString() : "";

    /// <summary>The explanations worth listing: the first two, and all others that are not quite improbable.</summary>
    /// <param name="diagnosis">What the readings say.</param>
    public static IEnumerable<RankedFault> Listed(Diagnosis diagnosis) =>
        diagnosis.Faults.TakeWhile((ranked, rank) => rank < 2 || ranked.Probability >= LeastListed);

    /// <summary>Ranks and places of the lettered ones; parts of the wiring stand where their feeder meets the rails, and those without one nowhere.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="diagnosis">What the readings say.</param>
    public static IEnumerable<(int Rank, string Place)> Places(Layout layout, Diagnosis diagnosis) => Listed(diagnosis).Take(Most)
        .SelectMany((ranked, rank) => ranked.Parts.Select(part => (rank, PlaceOf(layout, part.Element))))
        .Where(mark => mark.Item2 is not null)
        .Select(mark => (mark.rank, mark.Item2!));

    private static string? PlaceOf(Layout layout, FaultElement element) =>
        element.End?.ToString() ?? element.Track?.ToString() ?? element.Piece?.ToString()
        ?? layout.Wiring.Feeders.FirstOrDefault(feeder => element.BusPoint is not null && feeder.Tap == element.BusPoint && feeder.District == element.District)?.Name;
}
