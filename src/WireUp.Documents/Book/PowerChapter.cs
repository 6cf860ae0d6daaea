using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Book;

/// <summary>From supply to rail: devices, verdicts of every district, and the table of gauges.</summary>
internal static class PowerChapter
{
    public const string Title = "Power";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        flow.Section(Title);
        WriteDevices(facts, flow);
        PowerDiagram.Write(facts, flow);
        WriteVerdicts(facts, flow);
        TripChart.Write(facts, flow);
        WriteGauges(facts, flow);
    }

    private static void WriteDevices(BookFacts facts, BookFlow flow)
    {
        flow.Subheading("From supply to rail");
        if (facts.Wiring.Districts.IsEmpty)
        {
            flow.Paragraph("The layout has no power district.");
            return;
        }

        flow.Table(Table.Of(
            [
                Column.Names("District"), new("Device"), Column.Figures("Trips at"), Column.Wide("Booster"), Column.Wide("Supply"),
                Column.Figures("Bus"), Column.Figures("Feeders"),
            ],
            facts.Wiring.Districts.Select(district => DeviceRow(facts, district))));
    }

    private static Row DeviceRow(BookFacts facts, District district)
    {
        Booster? booster = facts.BoosterOf(district.Name);
        Supply? supply = booster is null ? null : facts.Wiring.Supplies.FirstOrDefault(of => of.Name == booster.Supply);
        double bus = facts.Wiring.Buses.Where(of => of.District == district.Name).Sum(of => of.Runs.Sum(run => run.Length.Meters));
        return new(
            facts.District(district.Name),
            district.Reversing ? "auto-reverser" : "breaker",
            Figure.Amps(district.Trip),
            booster is null ? district.Booster : Figure.Text($"{booster.Name}: {booster.Volts.Volts:0.##} V, {booster.Amps.Amperes:0.##} A"),
            supply is null ? "not stated" : SupplyWords(supply),
            facts.Lengths.Say(bus, 1),
            Figure.Whole(facts.Wiring.Feeders.Count(feeder => feeder.District == district.Name)));
    }

    private static string SupplyWords(Supply supply) => Figure.Text(
        $"{supply.Name}: {supply.Output.Volts:0.##} V {(supply.Alternating ? "AC" : "DC")}, {supply.Rating.Watts:0.#} {(supply.Alternating ? "VA" : "W")}{(supply.Class == SupplyClass.Limited ? ", energy-limited" : string.Empty)}");

    private static void WriteVerdicts(BookFacts facts, BookFlow flow)
    {
        flow.Subheading("What every district will do");
        if (facts.Plan.Power.Districts.IsEmpty)
        {
            flow.Paragraph("No district feeds any rail, so there is nothing to work out.");
            return;
        }

        flow.Intro(Figure.Text(
            $"Worked out over every place of every rail, not only at the feeders. Volts: under the design load, limit {facts.Layout.MaxDrop.Percent:0.#} % below the booster’s own voltage. Short circuit: the current through a coin of {facts.Layout.Defaults.Coin.Milliohms:0} mΩ laid across the rails at the worst place; twice the trip current is good practice, less than the trip current would never trip."));
        flow.Table(Table.Of(
            [
                Column.Names("District"), Column.Figures("Design load"), Column.Figures("Lowest volts"), Column.Figures("Drop"),
                Column.Wide("at"), Column.Figures("Short circuit"), Column.Wide("at"), Column.Figures("÷ trip"), Column.Names("Coin test"),
            ],
            facts.CoinTests.Select(coin => VerdictRow(facts, coin.Power, coin.TripsInTime ? "trips" : coin.Verdict))));
    }

    private static Row VerdictRow(BookFacts facts, DistrictPower district, string coinTest) => new(
        facts.District(district.District),
        Figure.Amps(district.DesignLoad),
        Figure.Volts(district.LowestVolts.Volts),
        Figure.Percent(district.LowestVolts.Drop),
        facts.Place(district.LowestVolts.At),
        Figure.Amps(district.LowestFault.FaultCurrent),
        facts.Place(district.LowestFault.At),
        Figure.Times(district.FaultOverTrip),
        coinTest);

    private static void WriteGauges(BookFacts facts, BookFlow flow)
    {
        if (facts.Plan.Gauges.IsEmpty) return;
        flow.Subheading("The bus in every gauge");
        flow.Intro($"What each gauge would give in all of a district's bus. The plan makes so many {PlaceWords.Unit(facts.Lengths)} of each of the bold ones; choose thicker wire if you have it.");
        ImmutableArray<GaugeRow> gauges = facts.Plan.Gauges;
        flow.Table(Table.Of(
            [
                new("District"), Column.Sizes("Gauge"), Column.Figures("Largest drop"), Column.Figures("Lowest short circuit"),
                Column.Wide("Limits not kept"), Column.Figures("Planned"),
            ],
            gauges.Select((gauge, i) => new Row(
                i > 0 && gauges[i - 1].District == gauge.District ? string.Empty : facts.District(gauge.District),
                PlaceWords.Size(gauge.Wire),
                Figure.Percent(gauge.Drop),
                Figure.Amps(gauge.FaultCurrent),
                gauge.Verdict.Length == 0 ? "all kept" : gauge.Verdict,
                gauge.Chosen ? facts.Lengths.Say(gauge.Planned.Meters, 1) : string.Empty)
            { Strong = gauge.Chosen })));
    }
}
