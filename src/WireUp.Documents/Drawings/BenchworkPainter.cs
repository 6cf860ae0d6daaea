using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Documents.Drawings;

/// <summary>Draws what the railway stands on: boards as outlines, corridors as pale bands, and areas out of reach from below hatched.</summary>
internal sealed class BenchworkPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas)
{
    public const string Layer = "benchwork";

    /// <summary>How each part is drawn; the legend shows the same.</summary>
    public static readonly ShapeStyle Board = ShapeStyle.Outline(SceneColours.Hair, 0.4),
        Corridor = ShapeStyle.Outline(SceneColours.Yellow.Tint(0.55), 1.6),
        HatchStroke = ShapeStyle.Outline(SceneColours.Hair, 0.18),
        Border = ShapeStyle.Outline(SceneColours.Quiet, 0.25, DashKind.Short);

    private const double HatchStep = 3.2, NameInset = 1;
    private static readonly LabelLook Look = new(Layer, 2, SceneColours.Quiet) { Optional = true };

    private Benchwork Benchwork => facts.Layout.Benchwork;

    /// <summary>Draws everything, for what lies over it to be drawn later.</summary>
    public void Paint()
    {
        foreach (PlanOutline board in Benchwork.Boards) Outline(board, Board);
        foreach (PlanOutline area in Benchwork.OutOfReach)
        {
            Strokes(area);
            Outline(area, Border);
        }

        foreach (BusCorridor corridor in Benchwork.Corridors)
        {
            ImmutableArray<PlanPoint> path = corridor.Closed ? [.. corridor.Path, corridor.Path[0]] : corridor.Path;
            canvas.AddWithin(sheet.Window, new Shape.Line(Layer, sheet.Line(path), false, Corridor) { Id = corridor.Name });
        }
    }

    /// <summary>Writes the names where there is room.</summary>
    /// <param name="writer">Writes them.</param>
    /// <param name="boards">Whether boards are named too.</param>
    public void Label(LabelWriter writer, bool boards = true)
    {
        foreach (PlanOutline board in boards ? Benchwork.Boards : []) Name(writer, board, $"board {board.Name}");
        foreach (PlanOutline area in Benchwork.OutOfReach) Name(writer, area, $"{area.Name}: out of reach");
        foreach (BusCorridor corridor in Benchwork.Corridors)
        {
            ScenePoint middle = sheet.Line(corridor.Path)[0].Towards(sheet.Line(corridor.Path)[1], 0.5);
            if (!sheet.Window.Holds(middle)) continue;
            writer.Write(corridor.Name, corridor.Name, Look, [new(new(middle.X, middle.Y - NameInset), 0, -1), new(new(middle.X, middle.Y + NameInset), 0, 1)]);
        }
    }

    private void Name(LabelWriter writer, PlanOutline outline, string words)
    {
        ImmutableArray<LabelAnchor> corners = [.. sheet.Line(outline.Corners).Where(sheet.Window.Holds)
            .SelectMany(corner => new LabelAnchor[] { new(new(corner.X, corner.Y + NameInset), 0, 1), new(new(corner.X, corner.Y - NameInset), 0, -1) })];
        if (!corners.IsEmpty) writer.Write(words, outline.Name, Look, corners);
    }

    private void Outline(PlanOutline outline, ShapeStyle style) => canvas.AddWithin(
        sheet.Window,
        new Shape.Line(Layer, sheet.Line([.. outline.Corners, outline.Corners[0]]), false, style) { Id = outline.Name });

    /// <summary>Strokes aslant over the area, cut off at its border and at the edge of the sheet.</summary>
    private void Strokes(PlanOutline area)
    {
        Areas inside = new([area]);
        double step = HatchStep / sheet.MillimetresPerMetre;
        double least = area.Corners.Min(corner => corner.X + corner.Y), most = area.Corners.Max(corner => corner.X + corner.Y);
        double left = area.Corners.Min(corner => corner.X), right = area.Corners.Max(corner => corner.X);
        ImmutableArray<ScenePoint>.Builder strokes = ImmutableArray.CreateBuilder<ScenePoint>();
        for (double sum = least + step; sum < most; sum += step)
        {
            ImmutableArray<PlanPoint> across = [new(left - step, sum - left + step), new(right + step, sum - right - step)];
            ImmutableArray<(double From, double To)> outside = inside.Outside(across);
            for (int i = 1; i < outside.Length; i++)
            {
                ScenePoint from = sheet.Point(Polyline.At(across, outside[i - 1].To).At), to = sheet.Point(Polyline.At(across, outside[i].From).At);
                if (Clip.Segment(from, to, sheet.Window) is var (first, last)) strokes.AddRange(first, last);
            }
        }

        if (strokes.Count > 0) canvas.Add(new Shape.Strokes(Layer, strokes.ToImmutable(), HatchStroke) { Id = area.Name });
    }
}
