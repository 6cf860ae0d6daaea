using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Marks a section that can be lifted or swung out: a line to either side of it with its ends turned outward, as maps mark bridges.</summary>
internal sealed class LiftOutPainter(PlanFacts facts, PlanSheet sheet, RailPainter rails)
{
    private const double Beside = 0.55, Flare = 0.8;
    private static readonly ShapeStyle Style = ShapeStyle.Outline(SceneColours.Ink, 0.35);

    public void Paint(Piece.Section section)
    {
        PieceLine line = facts.Geometry.LinesOf(section.Id)[0];
        double flare = Flare / sheet.MillimetresPerMetre;
        foreach (int side in new[] { 1, -1 })
        {
            double beside = side * (sheet.HalfGauge + Beside) / sheet.MillimetresPerMetre;
            PlanPose first = line.At(0), last = line.At(1);
            ImmutableArray<PlanPoint> rail = OffsetLine.Of(line.Points, beside);
            ImmutableArray<PlanPoint> edge =
            [
                (first with { At = first.Ahead(-flare) }).Beside(beside + (side * flare)), .. rail,
                (last with { At = last.Ahead(flare) }).Beside(beside + (side * flare)),
            ];
            rails.Edge(edge, Style, section.Id.Name);
        }
    }
}
