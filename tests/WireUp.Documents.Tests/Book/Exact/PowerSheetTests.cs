using System.Globalization;
using WireUp.Documents.Book;
using WireUp.Documents.Plots;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>The drawn sheets of the chapter on power, and the lists for drilling and for shows.</summary>
public sealed class PowerSheetTests
{
    private static readonly Scene[] Pages = [.. TestBook.Pages(TestPlans.Balloon)];

    [Fact]
    public void The_one_line_diagram_leads_from_supply_to_rails_of_every_district()
    {
        Scene page = Assert.Single(Pages, page => page.Texts.Any(text => text.Content == "One-line diagram"));
        string[] texts = [.. page.Texts.Select(text => text.Content)];
        Assert.Contains("15 V DC, 90 W", texts);
        Assert.Contains("off after 300 ms", texts);
        Assert.Contains("4.0 A, 100 ms; 1 feeder", texts);
        Assert.Contains("2.5 A, 100 ms; 2 feeders", texts);
        Assert.Contains("4.3 m of 1.5 mm²", texts);
        Assert.Contains(texts, text => text.StartsWith("short ", StringComparison.Ordinal) && text.EndsWith(" trip", StringComparison.Ordinal));
    }

    [Fact]
    public void A_breaker_stands_at_its_trip_current_between_the_marks_of_a_logarithmic_axis()
    {
        Scene page = Assert.Single(Pages, page => page.Texts.Any(text => text.Content == "Who acts first"));
        double Mark(string words) => page.Texts.Where(text => text.Layer == "axes" && text.Content == words && text.Style.Align == TextAlign.Middle).Select(text => text.At.X).Single();
        double[] lines = [.. page.Shapes.OfType<Shape.Line>().Where(line => line.Layer == "devices").Select(line => line.Points[0].X)];
        foreach (double trip in new[] { 4, 2.5 })
        {
            double expected = Mark("2") + (Math.Log(trip / 2) / Math.Log(5.0 / 2) * (Mark("5") - Mark("2")));
            Assert.Contains(lines, x => Math.Abs(x - expected) < 1e-6);
        }

        Assert.Contains(lines, x => Math.Abs(x - Mark("5")) < 1e-6); // the booster
        Assert.Equal(2, page.Shapes.Count(shape => shape.Layer == "shorts"));
    }

    [Theory]
    [InlineData(0.7, 45, 0.5, 50)]
    [InlineData(1, 100, 1, 100)]
    [InlineData(0.001, 20, 0.001, 20)]
    [InlineData(3, 3.1, 2, 5)]
    public void A_logarithmic_axis_begins_and_ends_at_one_two_or_five(double low, double high, double from, double to)
    {
        PlotAxis axis = PlotAxis.Decades(low, high);
        Assert.Equal(from, axis.From, 9);
        Assert.Equal(to, axis.To, 9);
        Assert.Equal(from, axis.Marks.First(), 9);
        Assert.Equal(to, axis.Marks.Last(), 9);
        Assert.Equal(0.5, axis.Share(Math.Sqrt(from * to)), 9);
    }

    [Fact]
    public void Volts_and_fault_current_each_have_a_plan_with_their_legend()
    {
        Assert.Contains(Title(FigureChapter.VoltsTitle).Texts, text => text.Content.Contains("drop up to", StringComparison.Ordinal));
        Assert.Contains(Title(FigureChapter.FaultTitle).Texts, text => text.Content.Contains("trip", StringComparison.Ordinal));
    }

    [Fact]
    public void Holes_lie_a_gauge_apart_and_are_mirrored_for_below()
    {
        // spur runs along y = 1000 to the right; f1 is 700 mm along it. HO gauge is 16.5 mm, the left rail lies above.
        Dictionary<string, string[]> rows = Rows(DrillingChapter.Title);
        Assert.Equal(["left", "700", "1008"], rows["f1/A"][1..4]);
        Assert.Equal(["right", "700", "992"], rows["f1/B"][1..4]);
        double largest = TestLayouts.Balloon.Track.OfType<Piece.Section>().SelectMany(section => section.Path).Max(point => point.X) * 1000;
        double mirrored = double.Parse(rows["f1/A"][4], CultureInfo.InvariantCulture);
        Assert.InRange(mirrored, largest - 700 - 1, largest - 700 + 1);
    }

    [Fact]
    public void A_district_has_a_sheet_with_its_own_wires_and_the_gaps_to_its_neighbours()
    {
        Scene sheet = Assert.Single(Pages, page => page.Texts.Any(text => text.Content == "District D turn" && text.Style == BookStyle.Heading));
        string[] texts = [.. sheet.Texts.Select(text => text.Content)];
        Assert.Contains("f2", texts);
        Assert.DoesNotContain("f1", texts);
        Assert.Equal(2, texts.Count(text => text == "C east"));
    }

    [Fact]
    public void A_card_shows_every_terminal_of_a_contact_with_its_wire_and_position()
    {
        Layout layout = TestLayouts.Crossover;
        Scene page = Assert.Single(TestBook.Pages(TestPlans.Of(layout)), page => page.Texts.Any(text => text.Content == "Wiring cards"));
        string[] texts = [.. page.Texts.Select(text => text.Content)];
        MovingContact contact = Assert.Single(ContactTable.Of(layout).Contacts, contact => contact.IsWired);
        Assert.Equal("T1/frog", contact.Name);
        ScheduledWire[] wires = [.. Schedule.Of(layout).Wires.Where(wire => wire.Kind == WireKind.Frog)];
        Assert.Equal(3, wires.Length);
        Assert.Contains($"{wires[0].Id} {wires[0].Colour}", texts);
        foreach ((ScheduledWire wire, ContactThrow side) in wires.Skip(1).Zip(contact.Throws))
        {
            Assert.Contains($"{side.Name}: {wire.Id} {wire.Colour}", texts);
            Assert.Contains($"to {side.Joins} in {side.Positions[0]}", texts);
        }
    }

    private static Scene Title(string section) => Assert.Single(Pages, page => page.Title.EndsWith($": {section}", StringComparison.Ordinal));

    /// <summary>The rows of the first table of wires under a heading, by their first cell, in the order of the page.</summary>
    private static Dictionary<string, string[]> Rows(string heading)
    {
        Scene page = Assert.Single(Pages, page => page.Texts.Any(text => text.Content == heading && text.Style == BookStyle.Heading));
        double top = page.Texts.First(text => text.Content == heading && text.Style == BookStyle.Heading).At.Y;
        return page.Texts.Where(text => text.At.Y > top && text.Style.SizeMillimetres == BookStyle.Cell.SizeMillimetres)
            .GroupBy(text => text.At.Y).Select(row => row.OrderBy(text => text.At.X).Select(text => text.Content).ToArray())
            .Where(row => row[0].StartsWith('f')).GroupBy(row => row[0]).ToDictionary(group => group.Key, group => group.First());
    }
}
