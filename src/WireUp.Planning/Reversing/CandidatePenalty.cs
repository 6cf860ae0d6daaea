using WireUp.Layouts.Reference;

namespace WireUp.Planning.Reversing;

/// <summary>
/// How far a candidate is from good practice, in points; the last thing that is minimised. Common practice, no published
/// standard (shared/prices.csv): gaps clear of the fouling point, not in short track between turnouts nor where trains run free; no more track, turnouts
/// or dead-end roads inside than needed, since all that stands there swaps with it; and not the rest of the railway round a loop
/// when the loop itself would do.
/// </summary>
internal static class CandidatePenalty
{
    /// <summary>Points for each polarity swap that trains passing by the main way cause.</summary>
    internal static int SwapOnMainWay { get; } = PriceTable.Points("section-swap-main");

    /// <summary>Points for each polarity swap that trains passing by a diverging leg cause.</summary>
    internal static int SwapElsewhere { get; } = PriceTable.Points("section-swap-other");

    private static readonly int NearTurnout = PriceTable.Points("section-gap-near-turnout");
    private static readonly int AtTurnout = PriceTable.Points("section-gap-beside-turnout");
    private static readonly int InThroat = PriceTable.Points("section-gap-in-throat");
    private static readonly int InOpenTrack = PriceTable.Points("section-gap-in-open-track");
    private static readonly int TurnoutInside = PriceTable.Points("section-turnout");
    private static readonly int RoadInside = PriceTable.Points("section-road");
    private static readonly int TrackEnclosed = PriceTable.Points("section-enclosed");
    private static readonly int PointsPerMetre = PriceTable.Points("section-metre");

    internal static int Of(RunMap map, Clearances clearances, Draft draft)
    {
        double inside = draft.Stretches.Sum(stretch => stretch.Length);
        int length = (int)Math.Round(PointsPerMetre * Math.Max(0, inside - clearances.Required));
        return length
            + (TurnoutInside * draft.Junctions.Length)
            + (RoadInside * draft.Roads)
            + (TrackEnclosed * EnclosedRuns(draft))
            + draft.Borders.Sum(border => OfBorder(map, clearances, border.Spot));
    }

    /// <summary>Runs that leave the candidate and come back to it without a turnout between.</summary>
    private static int EnclosedRuns(Draft draft) => draft.Junctions.IsEmpty
        ? 0
        : draft.Borders.GroupBy(border => border.Spot.Run).Count(run => run.Count() == 2);

    private static int OfBorder(RunMap map, Clearances clearances, Spot spot)
    {
        Run run = map.Runs[spot.Run];
        Tip start = new(spot.Run, 0);
        double fromStart = run.Port0 is null ? double.PositiveInfinity : spot.Position;
        double fromEnd = run.Port1 is null ? double.PositiveInfinity : run.Length - spot.Position;
        double nearest = Math.Min(fromStart, fromEnd);
        int points = Math.Min(fromStart - clearances.ClearOf(map, start), fromEnd - clearances.ClearOf(map, start.Opposite)) switch
        {
            _ when spot.Exists => 0,
            _ when nearest < clearances.Frog - CellMap.SamePlaceMetres => AtTurnout,
            < -CellMap.SamePlaceMetres => NearTurnout,
            var beyond when beyond > clearances.JointReach + CellMap.SamePlaceMetres => InOpenTrack,
            _ => 0,
        };
        return points + (run.IsThrough && run.Length < ThroatMetres(map, clearances, start) ? InThroat : 0);
    }

    private static double ThroatMetres(RunMap map, Clearances clearances, Tip start) =>
        2 * (clearances.ClearOf(map, start) + clearances.ClearOf(map, start.Opposite));
}
