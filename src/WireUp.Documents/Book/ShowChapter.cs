using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>What goes with the railway to a show: the handover sheet, settings of its breakers, spares.</summary>
internal static class ShowChapter
{
    public const string SettingsTitle = "Breaker settings";
    public const string HandoverTitle = "Handover sheet";
    public const string SparesTitle = "Spares";

    /// <summary>How breakers and boosters are set, before they are tested.</summary>
    public static void WriteSettings(BookFacts facts, BookFlow flow)
    {
        if (facts.Wiring.Districts.IsEmpty) return;
        bool isAfterSheets = DistrictChapter.IsWritten(facts) || BoardChapter.IsWritten(facts);
        flow.SectionHere(SettingsTitle, isAfterSheets ? double.PositiveInfinity : 60);
        flow.Intro("Set every device as said here, then tick it. Never set one higher than this: the wires behind it were chosen for it.");
        flow.Table(Table.Of(
            [
                Column.Names("Device"), new("Kind"), Column.Figures("Trips at"), Column.Figures("Opens after"), Column.Figures("Closes after"), Column.Wide("Fed by"),
                Column.TickBoxes("set"), Column.TickBoxes("labelled"),
            ],
            [
                .. facts.Wiring.Boosters.Select(booster => new Row(
                    booster.Name, facts.Layout.Control == ControlSystem.Command ? "booster" : "controller", Figure.Amps(booster.Amps), Figure.Time(booster.Delay), "–", booster.Supply ?? "not stated", string.Empty, string.Empty)),
                .. facts.Wiring.Districts.Select(district => new Row(
                    facts.District(district.Name), district.Reversing ? "auto-reverser" : "breaker", Figure.Amps(district.Trip), OpensAfter(district), Figure.Time(district.Reclose), district.Booster, string.Empty, string.Empty)),
            ]));
    }

    /// <summary>How soon its breaker opens.</summary>
    public static string OpensAfter(District district) => district.Curve.IsEmpty ? Figure.Time(district.Delay) : "by its curve";

    /// <summary>A sheet of its own, to hang up at the railway.</summary>
    public static void WriteHandover(BookFacts facts, BookFlow flow)
    {
        if (facts.Wiring.Districts.IsEmpty) return;
        double watts = facts.Wiring.Supplies.Sum(supply => (double)supply.Rating.Watts);
        flow.Section(HandoverTitle);
        flow.Paragraph("For whoever runs the railway and did not build it. The rules of the hall and the local code come first; anything about mains is for licensed people. Keep visitors behind a barrier, leads off the gangways, and somebody with the railway as long as it has power.");
        flow.Table(Table.Of(
            [Column.Names("What"), Column.Wide("Here")],
            [
                new Row("Supplies", Figure.Text($"{facts.Wiring.Supplies.Length}, together {watts:0} W at their outputs: {string.Join(", ", facts.Wiring.Supplies.Select(supply => supply.Name))}")),
                new Row("Off switch", "the one switch that cuts every supply is at  ______________________________"),
                new Row("Who to ask", "name and telephone  ______________________________"),
                new Row("Extinguisher", "the nearest is at  ______________________________"),
            ]));
        flow.Subheading("Setting up, in this order");
        flow.Table(Table.Of([Column.Figures("No"), Column.Wide("Do"), Column.TickBoxes("done")], SetUp(facts).Select((step, i) => new Row(Figure.Whole(i + 1), step, string.Empty))));
        flow.Subheading("When something stops");
        flow.Table(Table.Of([Column.Wide("What you see", 2), Column.Wide("Look first", 3), Column.Wide("Then", 3)], Symptoms.Select(row => new Row(row.Seen, row.First, row.Then))));
    }

    private static IEnumerable<string> SetUp(BookFacts facts)
    {
        yield return "Boards up and level, joints of rails in line. Nothing plugged in yet.";
        yield return "Join bus connectors by their labels: the same name on both halves. No bare end may touch anything.";
        if (facts.Layout.Track.OfType<Piece.Section>().Any(section => section.LiftOut)) yield return "Put the lift-out sections in.";
        yield return "Meter between legs A and B of every district, nothing on the rails: no short.";
        yield return "One supply after the other on. Every breaker stays closed.";
        foreach (CoinTest coin in facts.CoinTests) yield return $"District {facts.District(coin.Power.District)}: {coin.AtSetUp(facts)}";
        foreach (string district in facts.Wiring.Feeders.Select(feeder => feeder.District).Distinct().Except(facts.Plan.Power.Districts.Select(solved => solved.District)))
        {
            yield return $"District {facts.District(district)}: leave it off. What a short there draws was not worked out (see “Findings”).";
        }


        yield return "One locomotive at a crawl over every route. Then the public.";
    }

    private static readonly (string Seen, string First, string Then)[] Symptoms =
    [
        ("One district dead, its breaker open", "a vehicle off the rails, a tool or coin across the rails, a turnout run against its points", "take vehicles off until it closes; the last one taken is at fault"),
        ("One district dead, its breaker closed", "its bus connectors and terminals", "volts along its bus from the breaker on: the first place without is just beyond the fault"),
        ("All districts of one booster dead", "the booster and its supply", "take its districts off one by one"),
        ("One locomotive stops at one place", "dirt; the joint on either side", "volts there with a load: much lower than in the tests is a bad joint"),
        ("Breaker opens when a train crosses a border", "polarity across the gap", "an auto-reverser that does not turn: the shortest locomotive first"),
        ("Something smells or is hot", "all supplies off at once", "do not switch on again before it is found"),
    ];

    /// <summary>What to take along; says whether it is told.</summary>
    /// <param name="facts">The book.</param>
    /// <param name="flow">Where.</param>
    /// <param name="onlyHere">Only on the page being written, where all of it has room.</param>
    public static bool WriteSpares(BookFacts facts, BookFlow flow, bool onlyHere)
    {
        if (facts.Wiring.Districts.IsEmpty) return true;
        const double HeadingRoom = 34;
        Table table = Table.Of(
            [Column.TickBoxes("packed"), Column.Wide("Item", 3), Column.Figures("Pieces"), Column.Wide("In place of", 3)],
            Spares(facts).Select(row => new Row(string.Empty, row.Item, row.Pieces, row.For)));
        double needed = HeadingRoom + new TableSetter(table, flow.Width).Rows().Sum(row => row.Height);
        if (onlyHere && flow.Room < needed) return false;
        flow.SectionHere(SparesTitle, needed);
        flow.Intro("One of each kind that can fail, tested before you leave. What to take is common practice, no published source.");
        flow.Table(table);
        return true;
    }

    private static IEnumerable<(string Item, string Pieces, string For)> Spares(BookFacts facts)
    {
        Wiring wiring = facts.Wiring;
        foreach (IGrouping<string, Supply> alike in wiring.Supplies.GroupBy(supply => Figure.Text($"Supply, enclosed and certified, {supply.Output.Volts:0.##} V {(supply.Alternating ? "AC" : "DC")}, {supply.Rating.Watts:0.#} {(supply.Alternating ? "VA" : "W")}")))
        {
            yield return (alike.Key, "1", string.Join(", ", alike.Select(supply => supply.Name)));
        }

        foreach (IGrouping<string, Booster> alike in wiring.Boosters.GroupBy(booster => Figure.Text($"{(facts.Layout.Control == ControlSystem.Command ? "Booster" : "Controller")}, {booster.Volts.Volts:0.##} V, {booster.Amps.Amperes:0.##} A")))
        {
            yield return (alike.Key, "1", string.Join(", ", alike.Select(booster => booster.Name)));
        }

        foreach (IGrouping<bool, District> alike in wiring.Districts.GroupBy(district => district.Reversing).OrderBy(group => group.Key))
        {
            yield return (alike.Key ? "Auto-reverser with breaker" : "Breaker", "1", $"{string.Join(", ", alike.Select(district => facts.District(district.Name)))}; set it before it goes in");
        }

        foreach (IGrouping<Wire, Feeder> alike in wiring.Feeders.GroupBy(feeder => feeder.Wire)) yield return ($"Feeder, ready cut and stripped, {PlaceWords.Size(alike.Key)}", "4", "any feeder");
        yield return ($"Lead of the thickest bus wire with terminals, {(facts.Lengths == LengthStyle.Feet ? "6 ft" : "2 m")}, both legs", "1", "a bad run of bus, laid over it for the day");
        if (wiring.Gaps.Any(gap => gap.At is GapPlace.InJoint)) yield return ("Insulated rail joiner", "6", "gaps");
        yield return ("Meter, test lamp or load of 10 to 15 Ω, 25 W, coin", "1", "finding out");
    }
}
