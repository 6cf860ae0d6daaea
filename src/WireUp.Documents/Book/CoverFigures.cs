using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The figures of the cover, in two columns of equal length.</summary>
internal static class CoverFigures
{
    /// <summary>What the railway is.</summary>
    public static IEnumerable<(string Name, string Value)> Railway(BookFacts facts)
    {
        Layout layout = facts.Layout;
        Piece.Section[] sections = [.. layout.Track.OfType<Piece.Section>()];
        double metres = sections.Sum(section => section.Length.Meters);
        int turnouts = layout.Track.Count(piece => piece is Piece.Turnout or Piece.MultiTurnout);
        int crossings = layout.Track.Count(piece => piece is Piece.Crossing or Piece.Slip or Piece.Scissors);
        int tables = layout.Track.Count(piece => piece is Piece.Turntable or Piece.TransferTable);
        yield return ("Track", PlaceWords.Parts(facts.Lengths, metres, 1, Figure.Count(sections.Length, "section", "sections")));
        yield return tables == 0
            ? ("Turnouts and crossings", Figure.Text($"{turnouts} and {crossings}"))
            : ("Turnouts, crossings, tables", Figure.Text($"{turnouts}, {crossings} and {tables}"));
        yield return ("Longest train", facts.Lengths.Say(layout.LongestTrain.Meters, 1));
        yield return ("Design load", facts.Plan.Power.Districts.IsEmpty ? "not solved" : Figure.Text($"{facts.Plan.Power.Districts.Sum(district => district.DesignLoad.Amperes):0.0} A over all districts"));
        yield return ("Lowest voltage", LowestVolts(facts.Plan.Power));
        yield return ("Weakest short circuit", WeakestFault(facts.Plan.Power));
    }

    /// <summary>What its wiring is.</summary>
    public static IEnumerable<(string Name, string Value)> Wiring(BookFacts facts)
    {
        Wiring wiring = facts.Wiring;
        int reversing = wiring.Districts.Count(district => district.Reversing);
        double bus = wiring.Buses.Sum(of => of.Runs.Sum(run => run.Length.Meters));
        yield return ("Supplies and boosters", Figure.Text($"{wiring.Supplies.Length} and {wiring.Boosters.Length}"));
        yield return ("Power districts", reversing == 0 ? Figure.Whole(wiring.Districts.Length) : Figure.Text($"{wiring.Districts.Length}, of which {reversing} reversing"));
        yield return ("Gaps", wiring.Gaps.IsEmpty ? "none" : $"{Figure.Count(wiring.Gaps.Sum(gap => gap.Rails == RailSet.Both ? 2 : 1), "rail", "rails")} at {Figure.Count(wiring.Gaps.Length, "place", "places")}");
        yield return ("Feeders", Figure.Whole(wiring.Feeders.Length));
        yield return ("Bus", $"{facts.Lengths.Say(bus, 1)} of pair");
        yield return ("Wire to cut", PlaceWords.Parts(facts.Lengths, facts.Schedule.TotalToCut.Meters, 1, Figure.Count(facts.Schedule.ToDo.Count(), "piece", "pieces")));
    }

    private static string LowestVolts(PowerReport power)
    {
        if (power.Districts.IsEmpty) return "not solved";
        PlacePower lowest = power.Districts.MaxBy(district => district.LowestVolts.Drop.DecimalFractions)!.LowestVolts;
        return $"{Figure.Volts(lowest.Volts)}, {Figure.Percent(lowest.Drop)} down";
    }

    private static string WeakestFault(PowerReport power)
    {
        if (power.Districts.IsEmpty) return "not solved";
        DistrictPower weakest = power.Districts.MinBy(district => district.FaultOverTrip)!;
        return $"{Figure.Amps(weakest.LowestFault.FaultCurrent)}, {Figure.Times(weakest.FaultOverTrip)} its trip";
    }
}
