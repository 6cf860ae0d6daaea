using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Rails;
using WireUp.Rails.Routes;

namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class RoutePlotTests
{
    private static readonly Layout Yard = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/home-yard.layout.yaml"), "home-yard").Layout!;

    [Fact]
    public void The_same_route_gives_the_same_bytes()
    {
        Assert.Equal(SvgScene.Write(Plot("siding-1 > yard-4")), SvgScene.Write(Plot("siding-1 > yard-4")));
        Assert.Equal(PngScene.Write(Plot("main-1 > main-4")), PngScene.Write(Plot("main-1 > main-4")));
    }

    [Fact]
    public void Each_curve_can_be_told_without_colour()
    {
        Scene scene = Plot("siding-1 > main-4");
        (DashKind, double)[] looks = [.. new[] { "design load", "no load", "allowed", "twice trip" }
            .Select(layer => scene.Shapes.OfType<Shape.Line>().First(line => line.Layer == layer).Style)
            .Select(style => (style.Dash, style.WidthMillimetres))];
        Assert.Equal(looks.Distinct(), looks);
        Assert.Equal(4, looks.Select(look => look.Item1).Distinct().Count());
    }

    [Fact]
    public void The_curve_of_volts_is_lowest_at_the_worst_place_of_the_route()
    {
        RoutePower route = Follow("siding-1 > main-4");
        Scene scene = RoutePlot.Draw(route, Yard);
        ScenePoint lowest = scene.Shapes.OfType<Shape.Line>().Where(line => line.Layer == "design load").SelectMany(line => line.Points).MaxBy(point => point.Y);
        RouteStretch worst = route.Stretches.Single(stretch => stretch.Track?.LowestVolts.Volts.Volts == route.LowestVolts!.Volts.Volts);
        double share = worst.RouteMetres(route.LowestVolts!.At.MetresFromA) / route.Route.LengthMetres;

        // The panel lies between 16 and 289 mm of the sheet; a curve of sixteen chords a length of track is flat near its lowest place.
        Assert.Equal(16 + (share * (289 - 16)), lowest.X, 6.0);
    }

    [Theory]
    [InlineData("siding-1 > yard-4")]
    [InlineData("yard-4")]
    [InlineData("main-1@0.2 m > main-1@0.3 m")]
    public void Everything_drawn_lies_on_the_sheet(string route)
    {
        Scene scene = Plot(route);
        Assert.All(scene.Texts, text => Assert.True(scene.Bounds.Holds(text.Box), text.Content));
        Assert.All(scene.Shapes.OfType<Shape.Line>().SelectMany(line => line.Points), point => Assert.True(scene.Bounds.Holds(point)));
    }

    [Fact]
    public void Feeders_districts_and_dead_track_are_shown()
    {
        Scene scene = Plot("siding-1 > yard-4");
        Assert.Contains(scene.Shapes, shape => shape is Shape.Circle { Id: "f3" });
        Assert.Contains(scene.Shapes, shape => shape is Shape.Strokes { Id: "main-line" });
        Assert.Contains(scene.Texts, text => text.Content == "no power");
        Assert.Contains(scene.Texts, text => text.Content == "C  main-line");
    }

    private static Scene Plot(string route) => RoutePlot.Draw(Follow(route), Yard);

    private static RoutePower Follow(string text)
    {
        RailGraph graph = RailGraph.Build(Yard);
        TrackRoute route = Assert.IsType<RouteSearch.Found>(new RouteFinder(graph.Index, PowerOptions.Default.Turnouts)
            .Find(LayoutWords.Route(Yard, text).Value!.Value)).Route;
        PowerOptions set = new() { Turnouts = PowerOptions.Default.Turnouts.AddRange(route.Settings.ToDictionary(one => one.Owner, one => one.Position)) };
        return RoutePower.Of(PowerMap.Of(graph, set), route);
    }
}
