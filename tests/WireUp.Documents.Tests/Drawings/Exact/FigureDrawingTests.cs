using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Exact;

/// <summary>Volts and fault current along the track of a plan.</summary>
public sealed class FigureDrawingTests
{
    /// <summary>Ten metres of rail of 0.05 Ω/m, fed at one end behind 0.15 Ω; a coin of 0.05 Ω; 1.5 m without current at the other end.</summary>
    private static readonly Layout Line = LayoutFile.Read(
        """
        wireup: 1
        name: Line
        longest-train: 1 m
        defaults: { resistance: { tap: 0 ohm, coin: 50 mohm } }
        track:
          line: { length: 11.5 m, rail: { ohms-per-metre: 0.05 }, path: [[0, 0], [11500, 0]] }
        wiring:
          boosters: { main: { volts: 15 V, amps: 5 A, resistance: 0.1 ohm, at: [0, 500] } }
          districts: { all: { booster: main, trip: 5 A, resistance: 0.05 ohm } }
          bus: { all: { wire: 10 AWG, runs: [ main > P 1 mm ] } }
          feeders: { f1: { at: line@0, bus: P, wire: 10 AWG, length: 1 } }
          gaps: [ { at: line@10 m, rails: both } ]
        """, "line").Layout!;

    [Fact]
    public void Steps_of_fault_current_change_where_the_formula_says()
    {
        // 15/(0.2 + 0.1·x) is 8 times the trip of 5 A at x = 1.75 m, 4 times at 5.5 m, twice at 13 m.
        Shape.Line[] bands = Bands(DrawnFigure.Fault);
        Assert.Equal(3, bands.Length);
        double whole = bands.Sum(Length);
        Assert.Equal([0.175, 0.375, 0.45], bands.Select(band => Length(band) / whole), (expected, actual) => Math.Abs(expected - actual) < 0.006);
    }

    [Fact]
    public void Track_without_current_has_no_band()
    {
        double rail = Draw(DrawnFigure.Volts).Shapes.OfType<Shape.Line>().Where(line => line.Id.EndsWith("/left", StringComparison.Ordinal)).Sum(Length);
        Assert.Equal(10 / 11.5, Bands(DrawnFigure.Volts).Sum(Length) / rail, 0.01);
    }

    [Fact]
    public void The_worse_the_wider_and_the_darker_so_that_it_reads_without_colour()
    {
        Shape.Line[] bands = Bands(DrawnFigure.Fault);
        Assert.Equal(bands.OrderBy(band => band.Style.WidthMillimetres), bands);
        Assert.Equal(bands.OrderByDescending(band => band.Style.Stroke!.Value.Green), bands);
        Assert.Distinct(bands.Select(band => band.Style.WidthMillimetres));
    }

    [Theory]
    [InlineData(DrawnFigure.Volts, "more than the 5 % allowed")]
    [InlineData(DrawnFigure.Fault, "below trip: a coin does not trip the breaker")]
    public void The_legend_gives_the_scale_in_numbers(DrawnFigure figure, string worst)
    {
        Scene scene = Draw(figure);
        Assert.Contains(scene.Texts, text => text.Content == worst);
        Assert.DoesNotContain(scene.Texts, text => text.Content.Contains("trips at", StringComparison.Ordinal));
        Assert.Equal(SvgScene.Write(scene), SvgScene.Write(Draw(figure)));
    }

    private static Scene Draw(DrawnFigure figure) =>
        LayoutDrawing.Draw(Line, new DrawingOptions { Figure = figure, Paper = PaperSize.A4 }, TestContext.Current.CancellationToken);

    private static Shape.Line[] Bands(DrawnFigure figure) => [.. Draw(figure).Shapes.OfType<Shape.Line>().Where(line => line.Layer == "figures")];

    private static double Length(Shape.Line line) => line.Points.Zip(line.Points.Skip(1)).Sum(pair => pair.First.DistanceTo(pair.Second));
}
