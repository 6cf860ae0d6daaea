using UnitsNet;
using WireUp.Circuits;
using WireUp.Documents.Book;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>What the book says a breaker will do is what was worked out: no page promises that one opens that does not.</summary>
public sealed class CoinTestTests
{
    private const string Opens = "its breaker opens at once", StaysFed = "the short would stay fed", LeaveOff = "leave it off, and lay no coin", DoesNot = "DOES NOT TRIP";

    public static TheoryData<string, string> Failing => new()
    {
        { "a setting above what a short draws", "DOES NOT TRIP" },
        { "a curve that begins above what a short draws", "DOES NOT TRIP" },
        { "a delay of three seconds", "TRIPS ONLY AFTER 3 s" },
    };

    [Fact]
    public void Where_every_breaker_trips_the_book_says_so_and_never_the_opposite()
    {
        PlanResult plan = TestPlans.Balloon;
        Assert.All(plan.Power.Districts, district => Assert.True(district.CoinTestPasses));

        Assert.Equal(2, Count(Handover(plan), Opens));
        Assert.Equal(2, Count(All(plan), $"{CoinTest.Wanted};")); // the sheets of both districts
        Assert.All(new[] { StaysFed, LeaveOff, DoesNot, "No coin yet", "Not in " }, words => Assert.DoesNotContain(words, All(plan), StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Failing))]
    public void Where_one_does_not_no_page_says_that_it_does(string how, string verdict)
    {
        PlanResult plan = TestPlans.Of(With(how));
        string all = All(plan), handover = Handover(plan);

        Assert.Equal(1, Count(handover, Opens)); // that of the other district
        Assert.Contains($"turn: {LeaveOff}", handover, StringComparison.Ordinal);
        Assert.Equal(verdict == DoesNot, handover.Contains(StaysFed, StringComparison.Ordinal));
        Assert.Equal(1, Count(all, $"{CoinTest.Wanted};"));
        Assert.Equal(2, Count(all, verdict)); // the chapter on power and the district's sheet
        Assert.Contains("No coin yet at", all, StringComparison.Ordinal);
        Assert.Contains("a wheel can stand. Not in D turn.", all, StringComparison.Ordinal);
        Assert.Contains($"Not in D turn: {LeaveOff}", all, StringComparison.Ordinal);
        Assert.Equal(Boxes(TestPlans.Balloon) - 5, Boxes(plan)); // on the sheet of tests three coins and the others; one on the district's sheet
    }

    [Theory]
    [InlineData(499, true)]
    [InlineData(500, true)]
    [InlineData(501, false)]
    public void Half_a_second_is_the_limit(double milliseconds, bool inTime)
    {
        PlanResult plan = TestPlans.Of(Turn(district => district with { Delay = Duration.FromMilliseconds(milliseconds) }));
        Assert.Equal(inTime ? 2 : 1, Count(Handover(plan), Opens));
        Assert.Equal(!inTime, All(plan).Contains("but 1 of them not within half a second", StringComparison.Ordinal));
    }

    [Fact]
    public void A_breaker_trips_from_the_first_current_of_its_curve()
    {
        Layout layout = With("a curve that begins above what a short draws");
        DistrictPower turn = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken).Districts.Single(district => district.District == "turn");

        Assert.True(turn.LowestFault.FaultCurrent.Amperes > 2.5); // its setting
        Assert.Equal(500, turn.Trip.Amperes);
        Assert.False(turn.CoinTestPasses);
        Assert.Equal(2.5, Turn(district => district with { Curve = [new(ElectricCurrent.FromAmperes(1), Duration.FromSeconds(9))] }).Wiring.Districts[1].OpensFrom.Amperes);
    }

    [Fact]
    public void Where_the_booster_may_act_first_the_book_does_not_promise_that_the_others_run_on()
    {
        PlanResult plan = TestPlans.Of(Turn(district => district with { Delay = Duration.FromMilliseconds(400) })); // the booster: 300 ms
        string handover = Handover(plan), all = All(plan);

        Assert.Contains("or booster main before it", handover, StringComparison.Ordinal);
        Assert.Equal(1, Count(handover, "all others stay closed"));
        Assert.Contains("of D turn the booster may act first", all, StringComparison.Ordinal);
        Assert.DoesNotContain("the booster may act first", All(TestPlans.Balloon), StringComparison.Ordinal);
    }

    private static Layout With(string how) => Turn(district => how switch
    {
        "a setting above what a short draws" => district with { Trip = ElectricCurrent.FromAmperes(500) },
        "a curve that begins above what a short draws" => district with { Curve = [new(ElectricCurrent.FromAmperes(500), Duration.FromSeconds(0.1))] },
        _ => district with { Delay = Duration.FromSeconds(3) },
    });

    private static Layout Turn(Func<District, District> change) => TestLayouts.Balloon with
    {
        Wiring = TestLayouts.Balloon.Wiring with
        {
            Districts = [.. TestLayouts.Balloon.Wiring.Districts.Select(district => district.Name == "turn" ? change(district) : district)],
        },
    };

    private static string All(PlanResult plan) => Text(TestBook.Pages(plan));

    private static string Handover(PlanResult plan) => Text(TestBook.Pages(plan).Where(page => page.Title.EndsWith(": Handover sheet", StringComparison.Ordinal)));

    /// <summary>Boxes to tick in the whole book.</summary>
    private static int Boxes(PlanResult plan) => TestBook.Pages(plan).SelectMany(page => page.Shapes).OfType<Shape.Line>()
        .Count(line => line.Layer == "rules" && line.Style is { Fill: { } fill, Stroke: not null, WidthMillimetres: 0.22 } && fill == SceneColours.Paper);

    private static string Text(IEnumerable<Scene> pages) => string.Join(' ', pages.SelectMany(page => page.Texts).Select(text => text.Content));

    private static int Count(string text, string words) => text.Split(words).Length - 1;
}
