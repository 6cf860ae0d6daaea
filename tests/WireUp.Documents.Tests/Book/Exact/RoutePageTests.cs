using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>The page of volts along a route.</summary>
public sealed class RoutePageTests
{
    private static readonly Lazy<PlanResult> Plan = new(() => Planner.Plan(TestLayouts.Sample("cinder-wharf")));

    [Fact]
    public void Without_a_wish_it_shows_the_longest_way_to_the_place_with_the_fewest_volts_and_names_boards_and_districts()
    {
        Scene page = Page(new());
        string[] words = [.. page.Texts.Select(text => text.Content)];
        string worst = Plan.Value.Power.Districts.Single().LowestVolts.At.Section.Name;
        Assert.Contains(words, text => text.StartsWith("staging to ", StringComparison.Ordinal) && text.Contains(worst, StringComparison.Ordinal));
        Assert.Contains("board west", words);
        Assert.Contains("board east", words);
        Assert.Contains("C  d1", words);
        Assert.Contains("feet from the start of the route", words);
        Assert.Superset(Enumerable.Range(0, 10).Select(foot => $"{foot}").ToHashSet(), words.ToHashSet());
        Assert.Contains(page.Shapes, shape => shape is Shape.Line { Layer: "allowed", Style.Dash: DashKind.Short });
    }

    [Fact]
    public void A_route_that_is_asked_for_is_shown()
    {
        ImmutableArray<RouteStop> stops = LayoutWords.Route(Plan.Value.After, "coal > staging").Value!.Value;
        Assert.Contains(Page(new() { Route = stops }).Texts, text => text.Content.StartsWith("coal to staging", StringComparison.Ordinal));
    }

    private static Scene Page(BookOptions options) => TestBook.Pages(Plan.Value, options).Single(page => page.Title.EndsWith("Volts along a route", StringComparison.Ordinal));
}
