using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using UglyToad.PdfPig;
using WireUp.Checking;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Exact;

public sealed class WiringBookTests
{
    [Theory]
    [InlineData(PaperSize.A4, 210, 297)]
    [InlineData(PaperSize.Letter, 215.9, 279.4)]
    public void Every_page_is_the_chosen_paper_upright_or_lying(PaperSize paper, double width, double height)
    {
        using PdfDocument pdf = PdfDocument.Open(TestBook.Compose(TestPlans.Balloon, new() { Paper = paper }));

        (double, double)[] sizes = [.. pdf.GetPages().Select(page => (Millimetres(page.Width), Millimetres(page.Height))).Distinct()];

        Assert.Equal(2, sizes.Length);
        Assert.All(sizes, size => Assert.True(IsPaper(size, width, height) || IsPaper(size, height, width), $"{size}"));

        static double Millimetres(double points) => points / 72 * 25.4;
        static bool IsPaper((double Width, double Height) size, double width, double height) =>
            Math.Abs(size.Width - width) < 0.2 && Math.Abs(size.Height - height) < 0.2; // Skia rounds a page to whole points
    }

    [Fact]
    public void Every_wire_gap_feeder_and_finding_is_in_the_book()
    {
        PlanResult plan = TestPlans.Balloon;
        string text = string.Concat(TestBook.Read(TestBook.Compose(plan)));

        Assert.All(Schedule.Of(plan.After).Wires, wire => Assert.Contains(wire.Id, text, StringComparison.Ordinal));
        Assert.All(new[] { "gap-1", "gap-2", "f1", "f2", "f3", "WU4002", "2.5 mm²", "1.5 mm²" }, id => Assert.Contains(id, text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Nothing here is advice on mains wiring")]
    [InlineData("licensed people")]
    [InlineData("they come first")]
    [InlineData("start a fire")]
    [InlineData("Wear eye protection")]
    [InlineData("Draw solder fumes away")]
    [InlineData("Power off before you touch a wire")]
    public void The_cautions_are_in_the_book(string words) =>
        Assert.Contains(words, string.Join(' ', TestBook.Pages(TestPlans.Balloon).SelectMany(page => page.Texts).Select(text => text.Content)), StringComparison.Ordinal);

    [Theory]
    [InlineData("HO", false)]
    [InlineData("G", true)]
    public void A_railway_of_the_gauge_of_gardens_gets_their_caution(string scale, bool isForGardens)
    {
        PlanResult plan = TestPlans.Of(TestLayouts.Balloon with { Scale = scale });
        Assert.Equal(isForGardens, TestBook.Pages(plan).SelectMany(page => page.Texts).Any(text => text.Content == "In the garden."));
    }

    [Fact]
    public void An_other_program_finds_the_same_names()
    {
        string tool = OutsideTools.RequirePdfToText();
        string file = Path.Combine(Path.GetTempPath(), $"wireup-book-{Environment.ProcessId}.pdf");
        File.WriteAllBytes(file, TestBook.Compose(TestPlans.Balloon));
        using Process run = Process.Start(new ProcessStartInfo(tool, ["-layout", file, "-"]) { RedirectStandardOutput = true, UseShellExecute = false })!;
        string text = run.StandardOutput.ReadToEnd();
        run.WaitForExit();
        File.Delete(file);

        Assert.Equal(0, run.ExitCode);
        Assert.All(Schedule.Of(TestPlans.Balloon.After).Wires, wire => Assert.Contains(wire.Id, text, StringComparison.Ordinal));
        Assert.Matches(@"f2/A +D +Q1 +loop@1200 mm/left +0.5 mm² +RD +300 +380", text);
    }

    [Fact]
    public void The_same_plan_gives_the_same_bytes() =>
        Assert.Equal(TestBook.Compose(TestPlans.Balloon), TestBook.Compose(TestPlans.Balloon));

    [Fact]
    public void A_date_is_printed_only_when_it_is_given()
    {
        Assert.Contains(TestBook.Pages(TestPlans.Balloon, new() { Date = "3 May 2031" })[0].Texts, text => text.Content == "3 May 2031");
        Assert.Contains(TestBook.Pages(TestPlans.Balloon, new() { Date = "3 May 2031", By = "A. Builder" })[0].Texts, text => text.Content == "A. Builder, 3 May 2031");
        Assert.DoesNotContain(TestBook.Pages(TestPlans.Balloon)[0].Texts, text => Regex.IsMatch(text.Content, @"\b20\d\d\b", RegexOptions.None, TimeSpan.FromSeconds(1)));
    }

    [Fact]
    public void Pages_are_numbered_and_the_contents_point_to_the_right_ones()
    {
        ImmutableArray<Scene> pages = TestBook.Pages(TestPlans.Balloon);

        for (int i = 1; i < pages.Length; i++)
        {
            Assert.Single(pages[i].Texts, text => text.Content == string.Create(CultureInfo.InvariantCulture, $"page {i + 1} of {pages.Length}"));
        }

        string[] sections = ["Before you start", "Plan from above", "Plan from below, mirrored", "Power", "Findings", "Gaps", "Wiring schedule", "Shopping list", "Cut list", "Commissioning tests"];
        Assert.All(sections, section => Assert.Contains(pages[NumberOf(section) - 1].Texts, text => text.Content == section));

        int NumberOf(string section)
        {
            Shape.Text entry = pages[0].Texts.Last(text => text.Content == section);
            Shape.Text number = pages[0].Texts.Where(text => text.At.Y == entry.At.Y && text.At.X > entry.At.X).MinBy(text => text.At.X)!;
            return int.Parse(number.Content, CultureInfo.InvariantCulture);
        }
    }

    [Fact]
    public void How_good_a_plan_is_is_a_table_only_where_something_was_proposed()
    {
        const string Nothing = "Nothing was proposed, so there is nothing to compare with the fewest possible.";
        string[] planned = Texts(TestPlans.Balloon), built = Texts(TestPlans.Balloon with { Proposals = [] });

        Assert.Contains("proved the best", planned);
        Assert.DoesNotContain(Nothing, planned);
        Assert.DoesNotContain("proved the best", built);
        Assert.Contains(Nothing, built);

        static string[] Texts(PlanResult plan) => [.. TestBook.Pages(plan).SelectMany(page => page.Texts).Select(text => text.Content)];
    }

    [Fact]
    public void The_cover_says_whether_the_plan_is_ready()
    {
        Assert.Contains(TestBook.Pages(TestPlans.Balloon)[0].Texts, text => text.Content == "Ready to build");
        PlanResult unfinished = TestPlans.Balloon with
        {
            Findings = [new("WU3001", Severity.Error, "Rail A meets rail B.", "Cut a gap.")],
            Remains = ["No reversing section is long enough for a train of 1.8 m."],
        };

        ImmutableArray<Scene> pages = TestBook.Pages(unfinished);

        Assert.Contains(pages[0].Texts, text => text.Content == "Not ready to build");
        Assert.Contains(pages[0].Texts, text => text.Content.StartsWith("1 error is found, 1 thing remains to be solved", StringComparison.Ordinal));
        Assert.Contains(pages.SelectMany(page => page.Texts), text => text.Content.StartsWith("No reversing section is long enough", StringComparison.Ordinal));
    }

    [Fact]
    public void Expected_readings_follow_from_the_solved_circuit()
    {
        // With 1 A between the rails and nothing else on, the meter reads V − 1 A × (booster's resistance + loop).
        var district = TestPlans.Balloon.Power.Districts[0];
        double expected = 14.5 - 0.15 - district.LowestFault.Loop.Ohms;
        string cell = string.Create(CultureInfo.InvariantCulture, $"{expected:0.00} V");

        Assert.Contains(
            TestBook.Pages(TestPlans.Balloon).Where(page => page.Title.EndsWith(": Commissioning tests", StringComparison.Ordinal)).SelectMany(page => page.Texts),
            text => text.Content == cell);
    }

    [Fact]
    public void A_book_of_nothing_is_still_a_book()
    {
        PlanResult empty = new(TestLayouts.Crossover, TestLayouts.Crossover);
        Assert.True(TestBook.Pages(empty).Length > 5);
    }

    [Fact]
    public void A_stopped_book_stops()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => WiringBook.Compose(TestPlans.Balloon, new(), source.Token));
    }
}
