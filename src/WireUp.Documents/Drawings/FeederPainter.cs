using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws each feeder as a tail dropped from both rails to one side, an open ring where it meets the bus, and its name.</summary>
internal sealed class FeederPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas, LabelPlacer placer)
{
    private const string Layer = "feeders";
    private static readonly LabelLook Look = new(Layer, 1.9, SceneColours.Ink);

    /// <summary>Draws every tail to the side on which its name found room, and the name.</summary>
    public void Paint(LabelWriter writer)
    {
        double tail = sheet.HalfGauge + Math.Clamp(0.3 * sheet.Spacing, 0.9, 2.2);
        foreach (Feeder feeder in facts.Layout.Wiring.Feeders)
        {
            PlanPose pose = facts.Geometry.PointAt(feeder.At);
            if (!sheet.Window.Holds(sheet.Point(pose.At))) continue;
            LabelPlace? place = writer.Write(feeder.Name, feeder.Name, Look, [.. writer.BothSides(pose, tail + 0.5)]);
            bool left = place is not { } placed || placed.Anchor.At == writer.Side(pose, tail + 0.5).At;
            PaintTail(pose, left ? tail : -tail, feeder.Name);
        }
    }

    private void PaintTail(PlanPose pose, double tail, string name)
    {
        double near = Math.Sign(tail) * sheet.HalfGauge;
        double[] rails = facts.Layout.Control == ControlSystem.ThreeRail ? [0, near] : [-near, near];
        ScenePoint end = sheet.Beside(pose, tail);
        canvas.Add(new Shape.Line(Layer, [sheet.Beside(pose, rails[0]), end], false, ShapeStyle.Outline(SceneColours.Ink, 0.22)) { Id = name });
        foreach (double rail in rails)
        {
            canvas.Add(new Shape.Circle(Layer, sheet.Beside(pose, rail), 0.34, ShapeStyle.Area(SceneColours.Ink)) { Id = name });
        }

        ShapeStyle ring = new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.2 };
        canvas.Add(new Shape.Circle(Layer, end, 0.42, ring) { Id = name });
        placer.KeepOff([sheet.Beside(pose, near), end], 0.4);
    }
}
