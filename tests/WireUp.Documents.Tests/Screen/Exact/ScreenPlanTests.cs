using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Screen.Exact;

public sealed class ScreenPlanTests
{
    private static readonly ScreenPlan Balloon = ScreenPlan.Draw(TestLayouts.Balloon, new());

    [Fact]
    public void There_is_neither_title_nor_legend_and_the_legend_is_a_drawing_of_its_own()
    {
        Assert.DoesNotContain(Balloon.Scene.Shapes, shape => shape.Layer == "legend");
        Scene wide = Balloon.Legend(150), slim = Balloon.Legend(70);
        Assert.Contains(wide.Texts, text => text.Content == "rail A");
        Assert.True(slim.HeightMillimetres > wide.HeightMillimetres);
        Assert.All(slim.Texts, text => Assert.InRange(text.Box.Right, 0, 70));
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(0.25)]
    public void The_place_under_a_point_of_a_section_is_that_point(double metres)
    {
        TrackPlace place = new(new("spur"), metres);
        ScenePoint at = Balloon.Find(place.ToString())!.Value;
        TrackPlace found = Balloon.Nearest(at with { Y = at.Y + 1 }, 3)!.Value;
        Assert.Equal(place.Section, found.Section);
        Assert.Equal(place.MetresFromA, found.MetresFromA, 0.011);
        Assert.Null(Balloon.Nearest(at with { Y = at.Y - 500 }, 3));
    }

    [Fact]
    public void Only_rails_that_look_otherwise_when_a_turnout_is_thrown_are_drawn_anew_and_all_of_them()
    {
        Dictionary<PieceId, string> thrown = new() { [new("T1")] = "diverging" };
        (ImmutableArray<Shape> before, ImmutableArray<Shape> now) = Balloon.RailsChanged(null, thrown);
        Assert.DoesNotContain(now, shape => shape.Id.StartsWith("spur", StringComparison.Ordinal));
        HashSet<string> ids = [.. before.Select(shape => shape.Id)];
        Assert.Equal(Drawn(Balloon.Scene.Shapes.Where(shape => shape.Layer == "rails" && ids.Contains(shape.Id))), Drawn(before));
        (ImmutableArray<Shape> back, ImmutableArray<Shape> again) = Balloon.RailsChanged(thrown, null);
        Assert.Equal(Drawn(now), Drawn(back));
        Assert.Equal(Drawn(before), Drawn(again));
        Assert.Empty(Balloon.RailsChanged(thrown, thrown).Now);
    }

    // Y1 of the sample has a live frog and, once the wiring is planned, feeders beyond both legs: its blades take the leg of the stock rail they touch.
    [Fact]
    public void Blades_of_a_live_frog_change_their_leg_with_the_points()
    {
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/home-yard.layout.yaml"), "home-yard").Layout!;
        layout = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken).After;
        ScreenPlan plan = ScreenPlan.Draw(layout, new() { Paper = PaperSize.A4 }, TestContext.Current.CancellationToken);
        string[] Colours(string position) => [.. plan.RailsChanged(null, new Dictionary<PieceId, string> { [new("Y1")] = position }).Now
            .OfType<Shape.Line>().Where(line => line.Id.StartsWith("Y1.", StringComparison.Ordinal)).Select(line => line.Style.Stroke.ToString()!)];
        (string[] through, string[] diverging) = (Colours("through"), Colours("diverging"));
        Assert.Equal(through.Length, diverging.Length);
        (string Through, string Diverging)[] changed = [.. through.Zip(diverging).Where(pair => pair.First != pair.Second)];
        Assert.NotEmpty(changed);
        string[] legs = [SceneColours.Blue.ToString(), SceneColours.Vermilion.ToString()];
        Assert.All(changed, pair => Assert.Equal(legs, new[] { pair.Through, pair.Diverging }.Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void A_path_is_lit_along_the_rail_it_runs_in()
    {
        Shape.Line lit = Assert.IsType<Shape.Line>(Assert.Single(Balloon.Path(["spur@0.2 m/left", "spur@1.2 m/left"])));
        ScenePoint from = Balloon.Find("spur@0.2 m")!.Value, to = Balloon.Find("spur@1.2 m")!.Value;
        Assert.Equal(from.X, lit.Points[0].X, 0.01);
        Assert.Equal(to.X, lit.Points[^1].X, 0.01);
        Assert.True(lit.Points[0].Y < from.Y, "the left rail of track that runs to the right lies above its middle");
        Assert.IsType<Shape.Circle>(Balloon.Path(["f1/A"])[0]);
        Assert.Empty(Balloon.Path(["no such place/left", "T1/frog"]));
    }

    [Fact]
    public void Every_way_through_every_piece_can_be_touched_and_trackwork_lies_over_sections()
    {
        ImmutableArray<Shape> touch = Balloon.Touch();
        Assert.Equal(["T1", "loop", "spur"], touch.Select(shape => shape.Id).Distinct().Order(StringComparer.Ordinal));
        Assert.Equal("T1", touch[^1].Id);
    }

    [Fact]
    public void A_group_put_into_the_picture_is_escaped_as_the_picture_is()
    {
        string group = SvgScene.Group("a\"b", [new Shape.Text("x", new(1, 1), "<script>", new(2, SceneColours.Ink))]);
        Assert.Contains("&lt;script&gt;", group, StringComparison.Ordinal);
        Assert.Contains("data-layer=\"a&quot;b\"", group, StringComparison.Ordinal);
    }

    private static string Drawn(IEnumerable<Shape> shapes) => SvgScene.Group("rails", shapes);
}
