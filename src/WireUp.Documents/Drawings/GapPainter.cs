using System.Collections.Immutable;
using System.Diagnostics;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws each gap as two short strokes across its rail, with its name.</summary>
internal sealed class GapPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas, LabelPlacer placer)
{
    private const string Layer = "gaps";
    private const double HalfOpening = 0.27;
    private static readonly LabelLook Look = new(Layer, 1.9, SceneColours.Ink) { Framed = true };

    /// <summary>Draws the strokes.</summary>
    public void Paint()
    {
        foreach ((PlanPose pose, Gap gap, string name) in Gaps())
        {
            foreach (double offset in Offsets(gap)) PaintStrokes(pose, offset, name);
        }
    }

    /// <summary>Writes the names.</summary>
    public void Label(LabelWriter writer)
    {
        foreach ((PlanPose pose, Gap gap, string name) in Gaps())
        {
            double reach = sheet.HalfGauge + 0.75;
            ImmutableArray<LabelAnchor> anchors = [.. writer.BothSides(pose, gap.Rails == RailSet.Right ? -reach : reach)];
            writer.Write(name, name, Look, anchors);
        }
    }

    private IEnumerable<(PlanPose Pose, Gap Gap, string Name)> Gaps()
    {
        foreach ((int index, Gap gap) in facts.Layout.Wiring.Gaps.Index())
        {
            PlanPose? pose = gap.At switch
            {
                GapPlace.InSection within => facts.Geometry.PointAt(within.Place),
                GapPlace.InJoint joint => facts.Places.OfEnd(joint.End),
                _ => throw new UnreachableException($"no such place as {gap.At}"),
            };
            if (pose is { } at) yield return (at, gap, facts.Gaps[index].Label);
        }
    }

    private IEnumerable<double> Offsets(Gap gap)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        if (gap.Rails.HasFlag(RailSet.Left)) yield return first == RailSide.Centre ? 0 : sheet.HalfGauge;
        if (!gap.Rails.HasFlag(RailSet.Right)) yield break;
        yield return -sheet.HalfGauge;
        if (second == RailSide.Running) yield return sheet.HalfGauge;
    }

    private void PaintStrokes(PlanPose pose, double offset, string name)
    {
        double reach = Math.Min(0.65, 0.8 * sheet.HalfGauge);
        double along = HalfOpening / sheet.MillimetresPerMetre;
        PlanPose before = pose with { At = pose.Ahead(-along) }, after = pose with { At = pose.Ahead(along) };
        ScenePoint middle = sheet.Beside(pose, offset);
        if (!sheet.Window.Holds(middle)) return;
        canvas.Add(new Shape.Line(
            Layer, [sheet.Beside(before, offset), sheet.Beside(after, offset)], false, ShapeStyle.Outline(SceneColours.Paper, 1))
        { Id = name });
        canvas.Add(new Shape.Strokes(
            Layer,
            [
                sheet.Beside(before, offset - reach), sheet.Beside(before, offset + reach),
                sheet.Beside(after, offset - reach), sheet.Beside(after, offset + reach),
            ],
            ShapeStyle.Outline(SceneColours.Ink, 0.28))
        { Id = name });
        placer.KeepOff([sheet.Beside(pose, offset - reach), sheet.Beside(pose, offset + reach)], HalfOpening + 0.2);
    }
}
