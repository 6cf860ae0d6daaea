using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The one-line diagram: from each supply through booster, breaker and bus to the rails, both wires of a pair as one line.</summary>
internal static class PowerDiagram
{
    private const double RowHeight = 14, TextSize = 2.25;
    private const int MostRows = 15;
    private static readonly ShapeStyle Wire = ShapeStyle.Outline(SceneColours.Ink, 0.45);
    private static readonly ShapeStyle Frame = ShapeStyle.Outline(SceneColours.Ink, 0.3);

    public static void Write(BookFacts facts, BookFlow flow)
    {
        if (facts.Wiring.Districts.IsEmpty) return;
        flow.Ensure(40 + (RowHeight * Math.Min(MostRows, facts.Wiring.Districts.Count(district => district.Booster == facts.Wiring.Districts[0].Booster))));
        flow.Subheading("One-line diagram");
        flow.Intro(
            "One line stands for both wires. Volts are the lowest on the rails under the design load; the short circuit is that of a coin at the "
            + "worst place, over the current at which the breaker trips.");
        foreach (IGrouping<string, District> fed in facts.Wiring.Districts.GroupBy(district => district.Booster))
        {
            foreach (District[] rows in fed.Chunk(MostRows))
            {
                flow.Draw((rows.Length * RowHeight) + 3, (page, box) => Draw(facts, page, box, fed.Key, rows));
            }
        }

        flow.Space(3);
    }

    private static void Draw(BookFacts facts, BookPage page, SceneBox box, string boosterName, District[] rows)
    {
        double unit = box.Width / 174, bottom = box.Top + (rows.Length * RowHeight), middle = (box.Top + bottom) / 2, split = box.Left + (69 * unit);
        Booster? booster = facts.Wiring.Boosters.FirstOrDefault(one => one.Name == boosterName);
        Supply? supply = facts.Wiring.Supplies.FirstOrDefault(one => one.Name == booster?.Supply);
        SceneBox supplyBox = new(box.Left, middle - 6, box.Left + (31 * unit), middle + 6), boosterBox = new(box.Left + (35 * unit), middle - 6, box.Left + (66 * unit), middle + 6);
        Line(page, new(supplyBox.Right, middle), new(boosterBox.Left, middle));
        Line(page, new(boosterBox.Right, middle), new(split, middle));
        Words(page, supplyBox, supply is null ? ["supply", "not stated"] : [supply.Name, Figure.Text($"{supply.Output.Volts:0.##} V {(supply.Alternating ? "AC" : "DC")}, {supply.Rating.Watts:0.#} {(supply.Alternating ? "VA" : "W")}"), supply.Class == SupplyClass.Limited ? "energy-limited" : "not energy-limited"]);
        Words(page, boosterBox, booster is null ? [boosterName, "not stated"] : [booster.Name, Figure.Text($"{booster.Volts.Volts:0.##} V, {booster.Amps.Amperes:0.##} A"), $"off after {Figure.Time(booster.Delay)}"]);
        double first = box.Top + (RowHeight / 2);
        if (rows.Length > 1) Line(page, new(split, first), new(split, first + ((rows.Length - 1) * RowHeight)));
        foreach ((int index, District district) in rows.Index()) DrawDistrict(facts, page, district, split, first + (index * RowHeight), box.Right, unit);
    }

    private static void DrawDistrict(BookFacts facts, BookPage page, District district, double split, double y, double right, double unit)
    {
        double device = split + (4 * unit), beyond = device + (10 * unit), rails = right - (41 * unit);
        Line(page, new(split, y), new(device, y));
        if (district.Reversing) DrawReverser(page, device, beyond, y);
        else DrawBreaker(page, device, beyond, y);
        Line(page, new(beyond, y), new(rails, y));
        double left = split + (1.5 * unit);
        Text(page, left, y - 4.3, facts.District(district.Name), rails - left - 1, bold: true);
        int feeders = facts.Wiring.Feeders.Count(feeder => feeder.District == district.Name);
        Text(page, beyond + 1, y - 1, $"{Figure.Amps(district.Trip)}, {ShowChapter.OpensAfter(district)}; {Figure.Count(feeders, "feeder", "feeders")}", rails - beyond - 2);
        Text(page, left, y + 4.8, Bus(facts, district), rails - left - 1);
        SceneBox track = new(rails, y - 5.2, right, y + 5.2);
        Words(page, track, facts.Plan.Power.Districts.FirstOrDefault(solved => solved.District == district.Name) is { } power ? Rails(facts, power) : ["feeds no rail"]);
    }

    private static ImmutableArray<string> Rails(BookFacts facts, DistrictPower power) =>
    [
        $"{Figure.Volts(power.LowestVolts.Volts)}, {Figure.Percent(power.LowestVolts.Drop)} down",
        $"short {Figure.Amps(power.LowestFault.FaultCurrent)}, {Figure.Times(power.FaultOverTrip)} trip",
        $"at {facts.Place(power.LowestFault.At)}",
    ];

    private static string Bus(BookFacts facts, District district)
    {
        BusRun[] runs = [.. facts.Wiring.Buses.Where(bus => bus.District == district.Name).SelectMany(bus => bus.Runs)];
        return runs.Length == 0
            ? "no bus"
            : string.Join(", ", runs.GroupBy(run => run.Wire).Select(alike => $"{facts.Lengths.Say(alike.Sum(run => run.Length.Meters), 1)} of {PlaceWords.Size(alike.Key)}"));
    }

    /// <summary>A contact that stands open, with a cross at its fixed end.</summary>
    private static void DrawBreaker(BookPage page, double left, double right, double y)
    {
        Line(page, new(left, y), new(left + 1.2, y));
        Line(page, new(left + 1.2, y), new(right - 1.2, y - 2));
        Line(page, new(right - 1.2, y), new(right, y));
        Line(page, new(right - 1.9, y - 0.7), new(right - 0.5, y + 0.7));
        Line(page, new(right - 1.9, y + 0.7), new(right - 0.5, y - 0.7));
    }

    /// <summary>A box in which the two ways cross.</summary>
    private static void DrawReverser(BookPage page, double left, double right, double y)
    {
        SceneBox box = new(left, y - 2, right, y + 2);
        page.Box(box, Frame with { Fill = SceneColours.Paper });
        Line(page, new(left + 1.5, y - 1), new(right - 1.5, y + 1));
        Line(page, new(left + 1.5, y + 1), new(right - 1.5, y - 1));
    }

    private static void Words(BookPage page, SceneBox box, ImmutableArray<string> lines)
    {
        page.Box(box, Frame with { Fill = SceneColours.Paper });
        double y = box.Centre.Y - ((lines.Length - 1) * 1.6) + 0.8;
        foreach ((int index, string line) in lines.Index()) Text(page, box.Left + 1.2, y + (index * 3.2), line, box.Width - 2, bold: index == 0);
    }

    private static void Text(BookPage page, double x, double baseline, string words, double width, bool bold = false)
    {
        TextStyle style = new(TextSize, SceneColours.Ink) { Bold = bold };
        page.Write(TextFlow.Width(words, style) <= width ? words : TextFlow.Shorten(words, width, style), x, baseline, style);
    }

    private static void Line(BookPage page, ScenePoint from, ScenePoint to) => page.Add(new Shape.Line("diagram", [from, to], false, Wire));
}
