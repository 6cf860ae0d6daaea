using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Documents.Tests.Drawings.Exact;

/// <summary>Terminal strips on the plan.</summary>
public sealed class StripDrawingTests
{
    [Theory]
    [InlineData(DrawingView.Above)]
    [InlineData(DrawingView.Below)]
    public void Every_strip_stands_at_the_end_of_a_line_of_bus_with_its_name(DrawingView view)
    {
        Layout layout = TestLayouts.Sample("tarrow-valley-as-built");
        string[] strips = [.. TerminalStrips.Added(Wiring.None, layout.Wiring).Select(strip => strip.Point)];
        Assert.NotEmpty(strips);
        Scene scene = TestDrawing.Draw(layout, new() { View = view });
        HashSet<string> boosters = [.. layout.Wiring.Boosters.Select(booster => booster.Name)];
        ScenePoint[] ends = [.. scene.Shapes.OfType<Shape.Line>().Where(line => line is { Layer: "bus", Style.Dash: DashKind.Dotted }).SelectMany(line => new[] { line.Points[0], line.Points[^1] })];
        foreach (string strip in strips)
        {
            Shape.Line[] boxes = [.. scene.Shapes.OfType<Shape.Line>().Where(line => line is { Layer: "bus", Closed: true, Style.Dash: DashKind.Solid } && line.Id == strip && line.Points.Length == 4 && line.Style.WidthMillimetres == 0.25)];
            Assert.NotEmpty(boxes);
            if (boosters.Contains(strip)) continue;
            Assert.Contains(scene.Texts, text => text.Layer == "bus" && text.Content == strip);
            Assert.All(boxes, box => Assert.Contains(ends, end => end.DistanceTo(SceneBox.Around(box.Points).Centre) < 0.01));
        }

        Assert.Contains(scene.Texts, text => text.Layer == "legend" && text.Content == "terminal strip");
    }
}
