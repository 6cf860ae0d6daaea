using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws each bus dotted beside the track, the name and gauge of its lines now and then, and the boosters.</summary>
internal sealed class BusPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas, LabelPlacer placer)
{
    private const string Layer = "bus";
    private const double CorridorLane = 0.6;
    private static readonly LabelLook Look = new(Layer, 1.8, SceneColours.Ink);
    private static readonly LabelLook BoosterLook = new(Layer, 2.3, SceneColours.Ink) { Bold = true, Framed = true };

    private readonly StripPainter _strips = new(facts, sheet);

    /// <summary>Draws the lines.</summary>
    public void Paint()
    {
        _strips.KeepOff(placer);
        foreach (BusRoute route in facts.Routes)
        {
            ImmutableArray<ScenePoint> points = Line(facts, sheet, route);
            if (points.Length < 2) continue;
            canvas.AddWithin(
                sheet.Window,
                new Shape.Line(Layer, points, false, ShapeStyle.Outline(SceneColours.Ink, 0.34, DashKind.Dotted)) { Id = $"{route.Run.From} > {route.Run.To}" });
            placer.Avoid(points);
        }

        if (BusRoutes.FollowCorridors(facts.Layout, facts.Geometry)) PaintLeads();
    }

    /// <summary>Feeders that are led to a corridor: a thin line from the rail to the tap.</summary>
    private void PaintLeads()
    {
        ShapeStyle lead = ShapeStyle.Outline(SceneColours.Ink, 0.16), tap = new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.2 };
        foreach (Bus bus in facts.Layout.Wiring.Buses)
        {
            BusPoints taps = new(bus, facts.Layout, facts.Geometry);
            foreach (Feeder feeder in facts.Layout.Wiring.Feeders.Where(feeder => feeder.District == bus.District))
            {
                if (taps.At(feeder.Tap) is not { } at) continue;
                ImmutableArray<ScenePoint> line = sheet.Line([facts.Geometry.PointAt(feeder.At).At, at]);
                canvas.AddWithin(sheet.Window, new Shape.Line(Layer, line, false, lead) { Id = feeder.Name });
                canvas.AddWithin(sheet.Window, new Shape.Circle(Layer, line[1], 0.42, tap) { Id = feeder.Tap });
                placer.Avoid(line);
            }
        }
    }

    /// <summary>Draws terminal strips and boosters with their names, and writes the name and gauge of each line of bus every so often.</summary>
    public void Label(LabelWriter writer)
    {
        _strips.Paint(canvas, writer);
        foreach (Booster booster in facts.Layout.Wiring.Boosters)
        {
            if (BusPoints.Where(booster, facts.Layout, facts.Geometry) is not { } where) continue;
            ScenePoint at = sheet.Point(where);
            if (!sheet.Window.Holds(at)) continue;
            canvas.Add(new Shape.Circle(Layer, at, 0.9, ShapeStyle.Area(SceneColours.Ink)) { Id = booster.Name });
            placer.KeepOff(new SceneBox(at.X - 1, at.Y - 1, at.X + 1, at.Y + 1));
            writer.Write(booster.Name, booster.Name, BoosterLook, [new(new(at.X, at.Y - 1), 0, -1), new(new(at.X, at.Y + 1), 0, 1)]);
        }

        foreach (IGrouping<(string, Wire), BusRoute> alike in facts.Routes.GroupBy(route => (route.Line, route.Run.Wire))) LabelLine(writer, alike);
    }

    private void LabelLine(LabelWriter writer, IGrouping<(string Line, Wire Wire), BusRoute> alike)
    {
        const double Apart = 110;
        List<ScenePoint> labelled = [];
        string text = $"{alike.Key.Line} · {PlaceWords.Size(alike.Key.Wire)}";
        foreach (ImmutableArray<ScenePoint> line in alike.Select(route => Line(facts, sheet, route)).Where(line => line.Length > 1).OrderByDescending(Length))
        {
            if (MiddleInWindow(line, sheet.Window) is not var (at, x, y) || labelled.Exists(other => other.DistanceTo(at) < Apart)) continue;
            labelled.Add(at);
            writer.Write(text, alike.Key.Line, Look, [new(new(at.X + (0.5 * y), at.Y - (0.5 * x)), y, -x), new(new(at.X - (0.5 * y), at.Y + (0.5 * x)), -y, x)]);
        }
    }

    /// <summary>The run on the sheet, beside the track where it follows the track; each district in a lane of its own.</summary>
    public static ImmutableArray<ScenePoint> Line(PlanFacts facts, PlanSheet sheet, BusRoute route)
    {
        int lane = Math.Max(0, facts.Letters.IndexOf(route.District)) % 3;
        if (!route.AlongTrack)
        {
            return sheet.Line(BusRoutes.FollowCorridors(facts.Layout, facts.Geometry) ? OffsetLine.Of(route.Points, lane * CorridorLane / sheet.MillimetresPerMetre) : route.Points);
        }

        double offset = sheet.HalfGauge + Math.Clamp(sheet.Spacing * 0.22, 0.75, 2.2) + (lane * Math.Clamp(sheet.Spacing * 0.06, 0.3, 0.8));
        return sheet.Line(OffsetLine.Of(route.Points, offset / sheet.MillimetresPerMetre));
    }

    /// <summary>The middle of the longest part of a line in a window, and the way the line goes there; null where none of it is in the window.</summary>
    public static (ScenePoint At, double X, double Y)? MiddleInWindow(ImmutableArray<ScenePoint> line, SceneBox window)
    {
        ImmutableArray<ScenePoint> part = Clip.Line(line, window).OrderByDescending(Length).FirstOrDefault();
        if (part.IsDefault) return null;
        double half = Length(part) / 2;
        for (int i = 1; i < part.Length; i++)
        {
            double step = part[i - 1].DistanceTo(part[i]);
            if (step > 0 && half <= step)
            {
                return (part[i - 1].Towards(part[i], half / step), (part[i].X - part[i - 1].X) / step, (part[i].Y - part[i - 1].Y) / step);
            }

            half -= step;
        }

        return null;
    }

    private static double Length(ImmutableArray<ScenePoint> line)
    {
        double length = 0;
        for (int i = 1; i < line.Length; i++) length += line[i - 1].DistanceTo(line[i]);
        return length;
    }
}
