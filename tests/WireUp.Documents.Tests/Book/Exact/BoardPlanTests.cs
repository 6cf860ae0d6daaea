using System.Collections.Immutable;
using System.Globalization;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>Drawings of boards: true to scale, with a mark for every hole.</summary>
public sealed class BoardPlanTests
{
    private static readonly Lazy<PlanResult> Plan = new(() => Planner.Plan(TestLayouts.Sample("hill-and-corridors")));

    [Theory]
    [InlineData(10)]
    [InlineData(20)]
    public void Edges_rails_and_holes_are_true_to_scale(int scale)
    {
        Scene above = Page("Board west from above", new() { BoardScale = scale });
        SceneBox edge = SceneBox.Around(above.Shapes.OfType<Shape.Line>().Where(line => line is { Layer: "benchwork", Id: "west", Style.WidthMillimetres: > 0.45 }).SelectMany(line => line.Points));
        Assert.Equal(2400.0 / scale, edge.Width, 1e-6);
        Assert.Equal(1200.0 / scale, edge.Height, 1e-6);
        double gauge = ScaleTable.Get("HO").Gauge.Millimeters;
        Assert.Equal(gauge / scale, Hole(above, "f7/A").DistanceTo(Hole(above, "f7/B")), 1e-6);
    }

    [Fact]
    public void A_hole_lies_where_the_drilling_list_says_from_above_and_mirrored_from_below()
    {
        Feeder feeder = Plan.Value.After.Wiring.Feeders.Single(feeder => feeder.Name == "f7");
        PlanPoint at = PlanGeometry.Of(Plan.Value.After, TestContext.Current.CancellationToken).PointAt(feeder.At).At;
        foreach ((string view, double fromLeft) in new[] { ("from above", at.X), ("from below, mirrored", 2.4 - at.X) })
        {
            Scene page = Page($"Board west {view}", new() { BoardScale = 10 });
            SceneBox edge = SceneBox.Around(page.Shapes.OfType<Shape.Line>().Where(line => line is { Layer: "benchwork", Id: "west", Style.WidthMillimetres: > 0.45 }).SelectMany(line => line.Points));
            ScenePoint middle = Hole(page, "f7/A").Towards(Hole(page, "f7/B"), 0.5);
            Assert.Equal(fromLeft * 100, middle.X - edge.Left, 1e-6);
            Assert.Equal(at.Y * 100, edge.Bottom - middle.Y, 1e-6);
        }
    }

    [Fact]
    public void In_full_size_a_board_takes_several_sheets_and_every_hole_is_on_one()
    {
        Scene[] sheets = [.. Pages(new() { BoardScale = 2, Paper = PaperSize.A3 }).Where(page => page.Title.Contains("Board west from above, sheet", StringComparison.Ordinal))];
        Assert.InRange(sheets.Length, 12, 20);
        HashSet<string> holes = [.. sheets.SelectMany(sheet => sheet.Shapes).OfType<Shape.Strokes>().Where(strokes => strokes.Layer == "holes").Select(strokes => strokes.Id)];
        Assert.Superset(new HashSet<string> { "f1/A", "f1/B", "f7/A", "f7/B" }, holes);
        Assert.All(sheets, sheet => Assert.All(sheet.Texts, text => Assert.True(sheet.Bounds.Holds(text.Box), text.Content)));
    }

    /// <summary>The rules tell where on the board a mark lies: on both sheets at the same place.</summary>
    [Theory]
    [InlineData("from above")]
    [InlineData("from below, mirrored")]
    public void Registration_marks_lie_at_the_same_places_of_the_board_on_both_sheets_that_they_join(string view)
    {
        Scene[] sheets = [.. Pages(new() { BoardScale = 2, Paper = PaperSize.A3 }).Where(page => page.Title.Contains($"Board west {view}, sheet", StringComparison.Ordinal))];
        (double X, double Y)[] marks = [.. sheets.SelectMany(Marks).Select(mark => (Math.Round(mark.X, 6), Math.Round(mark.Y, 6)))];
        Assert.NotEmpty(marks);
        Assert.All(marks.GroupBy(mark => mark), mark => Assert.Equal(2, mark.Count()));
        Assert.All(sheets, sheet => Assert.Contains(sheet.Texts, text => text.Content.StartsWith("Lay sheets on each other", StringComparison.Ordinal)));
    }

    private static IEnumerable<(double X, double Y)> Marks(Scene sheet)
    {
        const int Scale = 2;
        Shape.Text[] rules = [.. sheet.Texts.Where(text => text.Layer == "ruler")];
        Shape.Text across = rules.First(text => text.Style.Align == TextAlign.Middle), up = rules.First(text => text.Style.Align == TextAlign.Right);
        foreach (Shape.Circle mark in sheet.Shapes.OfType<Shape.Circle>().Where(circle => circle.Layer == "match"))
        {
            yield return (
                double.Parse(across.Content, CultureInfo.InvariantCulture) + (Scale * (mark.Centre.X - across.At.X)),
                double.Parse(up.Content, CultureInfo.InvariantCulture) - (Scale * (mark.Centre.Y - up.At.Y)));
        }
    }

    [Fact]
    public void Wires_that_pass_from_board_to_board_are_marked_and_their_connectors_are_bought()
    {
        ImmutableArray<Scene> pages = Pages(new());
        int marked = pages.Single(page => page.Title.EndsWith("Board west from above", StringComparison.Ordinal)).Shapes
            .OfType<Shape.Line>().Count(line => line is { Layer: "holes", Closed: true });
        Assert.Equal(1, marked);
        string[] cells = [.. pages.SelectMany(page => page.Texts).Select(text => text.Content)];
        Assert.Contains("Connector, two poles, plug and socket, for 2 A or more", cells);
        Assert.Contains("between boards: d1:1 (east to west)", cells);
    }

    [Fact]
    public void Both_views_of_a_narrow_board_share_a_page_one_the_mirror_of_the_other()
    {
        Scene page = TestBook.Pages(Planner.Plan(TestLayouts.Sample("cinder-wharf"), cancel: TestContext.Current.CancellationToken)).Single(page => page.Title.EndsWith("Board west from above and from below", StringComparison.Ordinal));
        SceneBox[] edges = [.. page.Shapes.OfType<Shape.Line>().Where(line => line is { Layer: "benchwork", Id: "west", Style.WidthMillimetres: > 0.45 }).Select(line => SceneBox.Around(line.Points))];
        Assert.Equal(2, edges.Length);
        ScenePoint[] holes = [.. page.Shapes.OfType<Shape.Strokes>().Where(strokes => strokes is { Layer: "holes", Id: "f3/A" }).Select(cross => cross.Points[0].Towards(cross.Points[1], 0.5))];
        Assert.Equal(holes[0].X - edges[0].Left, edges[1].Right - holes[1].X, 1e-6);
        Assert.Equal(edges[0].Bottom - holes[0].Y, edges[1].Bottom - holes[1].Y, 1e-6);
    }

    private static ScenePoint Hole(Scene page, string leg)
    {
        ImmutableArray<ScenePoint> cross = page.Shapes.OfType<Shape.Strokes>().Single(strokes => strokes.Layer == "holes" && strokes.Id == leg).Points;
        return cross[0].Towards(cross[1], 0.5);
    }

    private static Scene Page(string title, BookOptions options) => Pages(options).Single(page => page.Title.EndsWith(title, StringComparison.Ordinal));

    private static ImmutableArray<Scene> Pages(BookOptions options) => TestBook.Pages(Plan.Value, options);
}
