using WireUp.Documents;
using WireUp.Faults;
using WireUp.Layouts;

namespace WireUp.Output;

/// <summary>Letters of the likeliest explanations, and where they stand on the plan.</summary>
internal static class SuspectLetters
{
    private const double LeastListed = 0.001;

    /// <summary>The letter of an explanation by its rank, from 0; empty where it has none.</summary>
    public static string Of(int rank, int most) => rank < most ? ((char)('A' + rank)).ToString() : "";

    /// <summary>The explanations worth listing: the first two, and all others that are not quite improbable.</summary>
    public static IEnumerable<RankedFault> Listed(Diagnosis diagnosis) =>
        diagnosis.Faults.TakeWhile((ranked, rank) => rank < 2 || ranked.Probability >= LeastListed);

    /// <summary>The marks of a plan; parts of the wiring stand where their feeder meets the rails, and those without one nowhere.</summary>
    public static IEnumerable<PlanMark> Marks(Layout layout, Diagnosis diagnosis, int most) => Listed(diagnosis).Take(most)
        .SelectMany((ranked, rank) => ranked.Parts.Select(part => (Letter: Of(rank, most), Place: PlaceOf(layout, part.Element))))
        .Where(mark => mark.Place is not null)
        .Select(mark => new PlanMark(mark.Letter, mark.Place!));

    private static string? PlaceOf(Layout layout, FaultElement element) =>
        element.End?.ToString() ?? element.Track?.ToString() ?? element.Piece?.ToString()
        ?? layout.Wiring.Feeders.FirstOrDefault(feeder => element.BusPoint is not null && feeder.Tap == element.BusPoint && feeder.District == element.District)?.Name;
}
