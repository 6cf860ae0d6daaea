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

    private static string[] Labels(Scene page, string layer) =>
        [.. page.Texts.Where(text => text.Layer == layer).Select(text => text.Content).Order(StringComparer.Ordinal)];
}
