using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>Commissioning: the tests in their order, then the expected values of every district, with room for the measured ones.</summary>
internal static class TestChapter
{
    public const string Title = "Commissioning tests";

    private static readonly ElectricCurrent TestLoad = ElectricCurrent.FromAmperes(1);

    public static void Write(BookFacts facts, BookFlow flow)
    {
        flow.SectionHere(Title, 110);
        flow.Intro(
            "Work through the tests in this order; stop at the first that fails, mend it and repeat it. Limits without a source beside them "
            + "are common practice, no published source.");
        flow.Table(Table.Of(
            [Column.Figures("No"), Column.Names("Test"), Column.Wide("How", 5), Column.Wide("Expected", 3), Column.TickBoxes("passed")],
            CommissioningSteps.Of(facts).Select((step, i) => new Row(Figure.Whole(i + 1), step.Name, step.How, step.Expected, string.Empty))));
        if (facts.Plan.Power.Districts.IsEmpty) return;
        WriteLoaded(facts, flow);
        WriteCoins(facts, flow);
        WriteReversers(facts, flow);
        WriteSignature(flow);
    }

    private static void WriteLoaded(BookFacts facts, BookFlow flow)
    {
        flow.Subheading("Volts under load, district by district");
        flow.Intro(
            "Everything else off. Read the volts without load, then with a load of 1 A across the rails at the place named (a resistor of 10 to "
            + "15 Ω that can stand 25 W gets hot: hold it with pliers, keep it off the scenery). For another current the drop grows in "
            + "proportion. Loop resistance = (volts without load − volts with load) ÷ current. A reading much lower than expected is a bad joint between booster and place. Digital signals mislead an "
            + "ordinary meter: test with direct current in place of the booster, or compare readings only.");
        flow.Table(Table.Of(
            [
                Column.Names("District"), Column.Wide("At"), Column.Figures("No load"), Column.Figures("With 1 A"),
                Column.Figures("Loop, with source"), new("Measured V"), new("Measured V at\u00A01\u00A0A"), Column.TickBoxes("passed"),
            ],
            facts.Plan.Power.Districts.Select(district => LoadedRow(facts, district))));
    }

    private static Row LoadedRow(BookFacts facts, DistrictPower district)
    {
        PlacePower place = district.LowestFault;
        double sourceOhms = facts.BoosterOf(district.District)?.Resistance.Ohms ?? 0;
        return new(
            facts.District(district.District),
            facts.Place(place.At),
            Figure.Volts(district.SourceVolts),
            Figure.FineVolts(facts.VoltsUnder(TestLoad, district, place)),
            Figure.Ohms(ElectricResistance.FromOhms(place.Loop.Ohms + sourceOhms)),
            "________",
            "________",
            string.Empty);
    }

    private static void WriteCoins(BookFacts facts, BookFlow flow)
    {
        flow.Subheading("Coin test, district by district");
        flow.Intro(
            "Lay a coin across the rails at the place named, three times; then at the end of every siding, on every leg of every turnout and on "
            + "every bridge. The breaker must trip within half a second each time and leave no mark. Take the coin away at once if it does not.");
        foreach (CoinTest coin in facts.CoinTests.Where(coin => !coin.TripsInTime)) flow.Point($"Not in {facts.District(coin.Power.District)}:", coin.AtSetUp(facts));
        flow.Table(Table.Of(
            [
                Column.Names("District"), Column.Wide("Worst place"), Column.Figures("Trips at"), Column.Figures("Expected short circuit"),
                Column.Figures("÷ trip"), Column.TickBoxes("1st"), Column.TickBoxes("2nd"), Column.TickBoxes("3rd"), Column.TickBoxes("others ran on"),
            ],
            facts.CoinTests.Select(coin => new Row(
                facts.District(coin.Power.District),
                facts.Place(coin.Power.LowestFault.At),
                Figure.Amps(coin.Power.Trip),
                Figure.Amps(coin.Power.LowestFault.FaultCurrent),
                Figure.Times(coin.Power.FaultOverTrip),
                coin.Box,
                coin.Box,
                coin.Box,
                facts.Plan.Power.Districts.Length > 1 ? coin.Box : Row.NoBox))));
    }

    private static void WriteReversers(BookFacts facts, BookFlow flow)
    {
        District[] reversing = [.. facts.Wiring.Districts.Where(district => district.Reversing)];
        if (reversing.Length == 0) return;
        flow.Subheading("Auto-reversers");
        flow.Intro("Drive through in both directions, slowly and fast, with the shortest locomotive and with the longest train.");
        flow.Table(Table.Of(
            [
                Column.Names("District"), Column.Wide("Longest train that must fit"), Column.TickBoxes("short, in"), Column.TickBoxes("short, out"),
                Column.TickBoxes("long, in"), Column.TickBoxes("long, out"),
            ],
            reversing.Select(district => new Row(
                facts.District(district.Name),
                facts.Lengths.Say(facts.Layout.LongestTrain.Meters, 1),
                string.Empty,
                string.Empty,
                string.Empty,
                string.Empty))));
    }

    private static void WriteSignature(BookFlow flow)
    {
        const double Usual = 22, Close = 13;
        double height = flow.Room >= Usual ? Usual : Close; // closer to the tables rather than alone on a page
        flow.Draw(height, (page, box) =>
        {
            double half = (box.Width - 10) / 2;
            foreach ((double left, string words) in new[] { (box.Left, "Date"), (box.Left + half + 10, "Tested by") })
            {
                page.Rule(left, left + half, box.Bottom - 8, BookStyle.HeadRule);
                page.Write(words, left, box.Bottom - 4, BookStyle.Small);
            }
        });
    }
}
