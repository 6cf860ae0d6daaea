using System.Collections.Immutable;

namespace WireUp.Documents.Drawings;

/// <summary>Draws a small box with a bar where a terminal strip stands, at the end of a line of bus, and names the point. One at a booster is a frame round its dot.</summary>
internal sealed class StripPainter(PlanFacts facts, PlanSheet sheet)
{
    private const string Layer = "bus";
    private const double Half = 0.75, HalfAtBooster = 1.35;
    private static readonly LabelLook Look = new(Layer, 1.8, SceneColours.Ink) { Bold = true };
    private readonly ImmutableArray<Strip> _strips = [.. Strips(facts, sheet).Where(strip => sheet.Window.Grow(-HalfAtBooster).Holds(strip.At))];

    /// <summary>Keeps labels off the boxes.</summary>
    public void KeepOff(LabelPlacer placer)
    {
        foreach (Strip strip in _strips) placer.KeepOff(SceneBox.Around([strip.At]).Grow(strip.Half));
    }

    /// <summary>Draws the boxes, and writes the names of those that stand at no booster.</summary>
    public void Paint(SheetBuilder canvas, LabelWriter writer)
    {
        foreach (Strip strip in _strips)
        {
            foreach (Shape shape in Sign(Layer, strip.At, strip.Half)) canvas.Add(shape with { Id = strip.Point });
            if (strip.Half == Half) writer.Write(strip.Point, strip.Point, Look, [.. Around(strip.At)]);
        }
    }

    /// <summary>The sign, as the legend shows it.</summary>
    public static IEnumerable<Shape> Sign(string layer, ScenePoint at, double half = Half)
    {
        ShapeStyle box = new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.25 };
        yield return new Shape.Line(layer, [new(at.X - half, at.Y - half), new(at.X + half, at.Y - half), new(at.X + half, at.Y + half), new(at.X - half, at.Y + half)], true, box);
        yield return new Shape.Line(layer, [at with { Y = at.Y - half }, at with { Y = at.Y + half }], false, ShapeStyle.Outline(SceneColours.Ink, 0.25));
    }

    private static IEnumerable<Strip> Strips(PlanFacts facts, PlanSheet sheet)
    {
        foreach ((string district, string point) in facts.Strips)
        {
            if (facts.Layout.Wiring.Boosters.FirstOrDefault(booster => booster.Name == point) is { } booster)
            {
                if (BusPoints.Where(booster, facts.Layout, facts.Geometry) is { } where) yield return new(point, sheet.Point(where), HalfAtBooster);
                continue;
            }

            BusRoute? route = facts.Routes.FirstOrDefault(route => route.District == district && (route.Run.From == point || route.Run.To == point));
            if (route is null) continue;
            ImmutableArray<ScenePoint> line = BusPainter.Line(facts, sheet, route);
            if (!line.IsEmpty) yield return new(point, route.Run.From == point ? line[0] : line[^1], Half);
        }
    }

    private static IEnumerable<LabelAnchor> Around(ScenePoint at) =>
        from up in (int[])[-1, 1]
        from side in (int[])[1, -1]
        select new LabelAnchor(new(at.X + (side * Half), at.Y + (up * Half)), side * 0.8, up * 0.6);

    private readonly record struct Strip(string Point, ScenePoint At, double Half);
}
