using WireUp.Checking;
using WireUp.Documents.Book;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>Cards of terminal strips and the list of bus points.</summary>
public sealed class StripChapterTests
{
    // P1: the bus forks and a feeder begins; P3: a feeder on a run that passes; P2 and P4: ends of lines with a feeder.
    private static readonly Layout Forked = TestLayouts.Read("""
        wireup: 1
        name: Fork at Dry Beck
        scale: HO
        longest-train: 1 m
        shortest-pickup: 60
        track:
          one: { length: 4 m }
          two: { length: 4 m }
        joined:
          - one > two
        wiring:
          supplies:
            brick: { output: 15 V dc, rating: 90 W, class: limited }
          boosters:
            main: { supply: brick, volts: 14.5 V, amps: 5 A, resistance: 0.15 ohm }
          districts:
            east: { booster: main, trip: 4 A, resistance: 0.05 ohm }
          bus:
            east: { wire: 2.5 mm2, runs: [ main > P1 0.8 m, P1 > P2 1 m, P1 > P3 2 m, P3 > P4 1 m ] }
          feeders:
            f1: { at: one@0.7 m, bus: P1, wire: 0.5 mm2, length: 250 }
            f2: { at: one@2.7 m, bus: P2, wire: 0.5 mm2, length: 250 }
            f3: { at: two@0.7 m, bus: P3, wire: 0.5 mm2, length: 250 }
            f4: { at: two@2.7 m, bus: P4, wire: 0.5 mm2, length: 250 }
        """);

    private static readonly Scene Page = Assert.Single(TestBook.Pages(TestPlans.Of(Forked)), page => page.Texts.Any(text => text.Content == StripChapter.Title && text.Style == BookStyle.Heading));

    [Fact]
    public void A_strip_has_a_card_with_every_pair_that_arrives_and_leaves()
    {
        string[] cards = [.. Page.Texts.Where(text => text.Content.EndsWith(" ways for each leg", StringComparison.Ordinal)).Select(text => text.Content)];
        Assert.Equal(["P1, district C east: 4 ways for each leg"], cards);
        Assert.Equal(
            [
                ["1", "east:1/A, /B", "2.5 mm²", "arrives from main"],
                ["2", "east:1/A, /B", "2.5 mm²", "goes on to P3"],
                ["3", "east:2/A, /B", "2.5 mm²", "goes on to P2"],
                ["4", "f1/A, /B", "0.5 mm²", "A to one@700 mm/left"],
            ],
            Rows(text => text.Style.SizeMillimetres == 2.3).Where(row => row.Length == 4));
        Assert.Equal(2 * 4, Page.Shapes.OfType<Shape.Circle>().Count(shape => shape.Layer == "cards"));
    }

    [Fact]
    public void The_label_of_a_strip_stands_on_its_card()
    {
        Assert.Equal(2, Page.Texts.Count(text => text.Layer == "labels" && text.Content == "P1"));
        Shape.Strokes code = Assert.Single(Page.Shapes.OfType<Shape.Strokes>(), shape => shape.Layer == "codes");
        Assert.Equal("P1: District C east; f1", code.Id);
    }

    [Fact]
    public void Every_point_where_wires_are_joined_is_told_with_how()
    {
        string[][] rows = [.. Rows(text => text.Style.SizeMillimetres == BookStyle.Cell.SizeMillimetres).Where(row => row[0] == "main" || row[0].StartsWith('P'))];
        Assert.Equal(
            [
                ["main", "C", "breaker", "breaker of east", "east:1"],
                ["P1", "C", "strip, 4 ways", "east:1", "east:1, east:2", "f1"],
                ["P2", "C", "end tap", "east:2", "f2"],
                ["P3", "C", "tap", "east:1", "east:1", "f3"],
                ["P4", "C", "end tap", "east:1", "f4"],
            ],
            rows);
    }

    [Fact]
    public void As_many_strips_have_a_card_as_the_shopping_list_buys_pairs_of()
    {
        Layout bare = Forked with { Wiring = Wiring.None };
        ShoppingItem bought = Assert.Single(ShoppingList.Of(Forked, bare, Schedule.Of(Forked)).Items, item => item.Item.StartsWith("Terminal strip", StringComparison.Ordinal));
        Assert.Equal(("Terminal strip, 4 ways", 2), (bought.Item, bought.Quantity));
    }

    [Fact]
    public void A_booster_from_which_two_lines_begin_has_a_strip_with_the_breaker_first_and_a_label()
    {
        Bus bus = new("east", [.. Forked.Wiring.Buses[0].Runs.Select(run => run.From == "P1" && run.To == "P2" ? run with { From = "main" } : run)]);
        Layout layout = Forked with { Wiring = Forked.Wiring with { Buses = [bus] } };
        BusMeeting meeting = BusMeetings.Of(layout, Schedule.Of(layout), null).Single(meeting => meeting.Point == "main");
        Assert.True(meeting.HasStrip);
        Assert.Equal([PairWay.Breaker, PairWay.Leaves, PairWay.Leaves], meeting.Pairs.Select(pair => pair.Way));
        LabelOptions size = new(UnitsNet.Length.FromMillimeters(38.1), UnitsNet.Length.FromMillimeters(21.2));
        Assert.Equal(2, LabelSheets.Pages(layout, Schedule.Of(layout), size).SelectMany(sheet => sheet.Texts).Count(text => text.Content == "main"));
    }

    [Fact]
    public void The_heading_stands_on_the_page_of_the_first_card()
    {
        // More feeders move the heading down the page, row by row, until it goes over to the next.
        for (int more = 0; more < 40; more++)
        {
            Feeder[] added = [.. Enumerable.Range(0, more).Select(i => Forked.Wiring.Feeders[3] with { Name = $"g{i}" })];
            Layout layout = Forked with { Wiring = Forked.Wiring with { Feeders = [.. Forked.Wiring.Feeders, .. added] } };
            BookFacts facts = new(TestPlans.Of(Forked) with { After = layout }, new(), TestContext.Current.CancellationToken);
            BookFlow flow = new(Sheet.Of(PaperSize.A4));
            ScheduleChapter.Write(facts, flow);
            StripChapter.Write(facts, flow);
            BookPage page = flow.Pages[flow.Contents.Single(entry => entry.Section == StripChapter.Title).Page];
            Assert.Contains(page.Shapes.OfType<Shape.Circle>(), shape => shape.Layer == "cards");
        }
    }

    [Fact]
    public void The_line_is_cut_at_its_strip_and_only_opened_at_its_tap() =>
        Assert.Single(TestBook.Pages(TestPlans.Of(Forked)).SelectMany(page => page.Texts), text => text.Content == "P1 800 (cut), P3 2800");

    [Fact]
    public void The_papers_of_a_change_tell_only_of_points_that_get_new_wires()
    {
        Layout old = Forked with { Wiring = Forked.Wiring with { Feeders = Forked.Wiring.Feeders[..^2] } };
        CheckReport check = Checker.Check(Forked, TestContext.Current.CancellationToken);
        Scene page = Assert.Single(
            ChangeBook.Pages(ChangeList.Of(old, Forked), check, new(), TestContext.Current.CancellationToken),
            page => page.Texts.Any(text => text.Content == StripChapter.Title && text.Style == BookStyle.Heading));
        Assert.Equal(["P3", "P4"], Rows(page, text => text.Style.SizeMillimetres == BookStyle.Cell.SizeMillimetres).Select(row => row[0]).Where(name => name.StartsWith('P')).Distinct());
    }

    private static IEnumerable<string[]> Rows(Func<Shape.Text, bool> which) => Rows(Page, which);

    private static IEnumerable<string[]> Rows(Scene page, Func<Shape.Text, bool> which) => page.Texts.Where(text => which(text) && text.Layer != "labels")
        .GroupBy(text => Math.Round(text.At.Y, 2)).OrderBy(row => row.Key).Select(row => row.OrderBy(text => text.At.X).Select(text => text.Content).ToArray());
}
