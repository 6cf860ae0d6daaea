using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Exact;

/// <summary>Boards, corridors and areas out of reach on paper, and the bus that follows the corridors.</summary>
public sealed class BenchworkDrawingTests
{
    // Track along y = 0; one corridor at y = 0.3 and one up from it at x = 2. The bus comes from a booster at the end of the first, branches
    // at the crossing and taps beside both feeders; the branching P1 has no feeder, so that the drawing has to find where it lies.
    private static readonly Layout Layout = Read(
        """
        wireup: 1
        name: Boards
        longest-train: 1 m
        track:
          s: { length: 4 m, path: [[0, 0], [4 m, 0]] }
          t: { length: 1 m, path: [[2.2 m, 1 m], [2.2 m, 2 m]] }
        wiring:
          boosters: { main: { amps: 5 A, at: [0, 300] } }
          districts: { d: { booster: main, trip: 3 A } }
          bus: { d: { wire: 1.5 mm2, runs: [ main > P1 2.5 m, P1 > P2 1.65 m, P1 > P3 1.65 m ] } }
          feeders:
            f1: { at: s@3.5 m, bus: P2, wire: 0.5 mm2, length: 550 }
            f2: { at: t@800, bus: P3, wire: 0.5 mm2, length: 450 }
        benchwork:
          boards: { only: [[-200, -200], [4200, -200], [4200, 2200], [-200, 2200]] }
          corridors: { front: { path: [[0, 300], [4000, 300]] }, up: { path: [[2000, 300], [2000, 2000]] } }
          out-of-reach: { hill: [[3000, 500], [4000, 500], [4000, 1500], [3000, 1500]] }
        """);

    [Fact]
    public void Bus_lies_on_the_corridors_and_branches_where_the_lengths_of_its_runs_fit()
    {
        ImmutableArray<BusRoute> routes = BusRoutes.Of(Layout, PlanGeometry.Of(Layout, TestContext.Current.CancellationToken));
        Assert.Equal(
            [
                "main > P1: 0,0.3 2,0.3",
                "P1 > P2: 2,0.3 3.5,0.3",
                "P1 > P3: 2,0.3 2,1.8",
            ],
            routes.Select(route => FormattableString.Invariant($"{route.Run.From} > {route.Run.To}: {string.Join(" ", route.Points.Select(point => FormattableString.Invariant($"{Math.Round(point.X, 6)},{Math.Round(point.Y, 6)}")))}")));
    }

    [Theory]
    [InlineData(DrawingView.Above)]
    [InlineData(DrawingView.Below)]
    public void All_three_are_drawn_from_above_and_from_below(DrawingView view)
    {
        Scene scene = LayoutDrawing.Draw(Layout, new() { View = view }, TestContext.Current.CancellationToken);
        Shape[] benchwork = [.. scene.Shapes.Where(shape => shape.Layer == BenchworkPainter.Layer)];
        Assert.Equal(["front", "hill", "only", "up"], benchwork.Select(shape => shape.Id).Distinct().Order(StringComparer.Ordinal));
        Shape.Strokes hatch = Assert.Single(benchwork.OfType<Shape.Strokes>());
        Shape.Line border = benchwork.OfType<Shape.Line>().First(line => line.Id == "hill");
        (double left, double right) = (border.Points.Min(point => point.X), border.Points.Max(point => point.X));
        (double top, double bottom) = (border.Points.Min(point => point.Y), border.Points.Max(point => point.Y));
        Assert.True(hatch.Points.Length > 20);
        Assert.All(hatch.Points, point => Assert.True(point.X >= left - 1e-6 && point.X <= right + 1e-6 && point.Y >= top - 1e-6 && point.Y <= bottom + 1e-6));

        // The hill lies to the right seen from above, to the left seen from below.
        Shape.Line board = benchwork.OfType<Shape.Line>().First(line => line.Id == "only");
        double middle = (board.Points.Min(point => point.X) + board.Points.Max(point => point.X)) / 2;
        Assert.Equal(view == DrawingView.Above, left > middle);
        foreach (string words in new[] { "edge of a board", "corridor for the bus", "out of reach from below" })
        {
            Assert.Single(scene.Shapes.OfType<Shape.Text>(), text => text.Content == words);
        }
    }

    [Fact]
    public void The_benchwork_can_be_left_out() => Assert.DoesNotContain(
        LayoutDrawing.Draw(Layout, new() { Layers = DrawingLayers.All & ~DrawingLayers.Benchwork }, TestContext.Current.CancellationToken).Shapes,
        shape => shape.Layer == BenchworkPainter.Layer);

    [Fact]
    public void The_plan_has_room_for_the_benchwork()
    {
        PlanBox bounds = PlanGeometry.Of(Layout, TestContext.Current.CancellationToken).Bounds;
        Assert.Equal((-0.2, -0.2, 4.2, 2.2), (bounds.MinX, bounds.MinY, bounds.MaxX, bounds.MaxY));
    }

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "boards");
        Assert.Equal([], reading.Problems);
        return reading.Layout!;
    }
}
