using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>The plan of a district on its sheet.</summary>
public sealed class DistrictPlanTests
{
    [Fact]
    public void It_shows_the_feeders_and_gaps_of_its_district_and_of_no_other()
    {
        foreach (District district in TestLayouts.Balloon.Wiring.Districts)
        {
            Scene page = TestBook.Pages(TestPlans.Balloon).Single(page => page.Title.EndsWith($" {district.Name}", StringComparison.Ordinal) && page.Title.Contains(": District ", StringComparison.Ordinal));
            Assert.Equal(
                TestLayouts.Balloon.Wiring.Feeders.Where(feeder => feeder.District == district.Name).Select(feeder => feeder.Name),
                Labels(page, "feeders"));
            Assert.NotEmpty(Labels(page, "gaps"));
            Assert.Equal([district.Name], page.Shapes.Where(shape => shape.Layer == "districts" && shape is Shape.Line { Closed: false }).Select(shape => shape.Id).Distinct());
            Assert.Empty(SceneMeasures.TextsOnTexts(page));
            Assert.Empty(SceneMeasures.TextsOnRails(page));
        }
    }

    [Fact]
    public void Rails_that_another_district_feeds_are_no_rail_a_or_b()
    {
        Scene page = TestBook.Pages(TestPlans.Balloon).Single(page => page.Title.EndsWith(" turn", StringComparison.Ordinal));
        Shape.Line[] rails = [.. page.Shapes.OfType<Shape.Line>().Where(line => line.Layer == "rails")];
        Assert.All(rails.Where(line => line.Id.StartsWith("spur/", StringComparison.Ordinal)), line => Assert.Equal(DashKind.Short, line.Style.Dash));
        Assert.Contains(rails, line => line.Id.StartsWith("loop/", StringComparison.Ordinal) && line.Style.Dash == DashKind.Long);
    }

    /// <summary>Both controllers share the running rails: the loop is the town's all the same. A second cab, which takes turns, has all that it can feed.</summary>
    [Theory]
    [InlineData("three-rail-two-controllers", "harbour", "quay", "hill-1")]
    [InlineData("three-rail-two-controllers", "town", "hill-1", "quay")]
    [InlineData("two-cabs", "hand-b", "west", null)]
    public void A_rail_that_districts_share_goes_with_the_rail_beside_it(string sample, string district, string own, string? other)
    {
        Scene page = TestBook.Pages(TestPlans.Of(TestLayouts.Sample(sample)))
            .Last(page => page.Title.Contains(": District ", StringComparison.Ordinal) && (page.Title.EndsWith($" {district}", StringComparison.Ordinal) || page.Title.EndsWith($" {district}, plan", StringComparison.Ordinal)));
        Shape.Line[] rails = [.. page.Shapes.OfType<Shape.Line>().Where(line => line.Layer == "rails")];
        Assert.DoesNotContain(rails, line => line.Id.StartsWith($"{own}/", StringComparison.Ordinal) && line.Style.Dash == DashKind.Short);
        Assert.Contains(rails, line => line.Id.StartsWith($"{own}/", StringComparison.Ordinal));
        Assert.All(rails.Where(line => other is not null && line.Id.StartsWith($"{other}/", StringComparison.Ordinal)), line => Assert.Equal(DashKind.Short, line.Style.Dash));
    }

    [Fact]
    public void A_gap_of_three_rail_track_parts_its_centre()
    {
        Scene page = TestBook.Pages(TestPlans.Of(TestLayouts.Sample("three-rail-two-controllers"))).Single(page => page.Title.EndsWith(": District C harbour", StringComparison.Ordinal));
        Shape.Text gap = page.Texts.Single(text => text.Content == "G2" && text.Style.Bold);
        Assert.Equal(["G2", "middle.b", "centre", "D town"], page.Texts.Where(text => Math.Abs(text.At.Y - gap.At.Y) < 0.01).OrderBy(text => text.At.X).Select(text => text.Content));
    }

    private static string[] Labels(Scene page, string layer) =>
        [.. page.Texts.Where(text => text.Layer == layer).Select(text => text.Content).Order(StringComparer.Ordinal)];
}
