using System.Collections.Immutable;
using WireUp.Circuits.Places;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Plans;
using WireUp.Rails.Routes;

namespace WireUp.Documents.Plots;

/// <summary>What a plot along a route stands on: tinted districts with their hatch above, feeders, names of pieces.</summary>
internal sealed class RouteGround(SheetBuilder canvas, RoutePower route, Layout layout, PlanGeometry? geometry)
{
    private const double NameSize = 2.1, StripHeight = 3;

    private readonly DistrictLetters _letters = new(layout);

    /// <summary>Draws it behind a panel.</summary>
    public void Paint(PlotPanel panel, bool names)
    {
        foreach ((string? district, double from, double to) in Districts()) PaintDistrict(panel, district, panel.X(from), panel.X(to));
        foreach ((string feeder, double at) in Feeders()) PaintFeeder(panel, feeder, panel.X(at));
        if (!names) return;
        PaintNames(panel);
        foreach ((string board, double from, double to) in Boards()) PaintBoard(panel, board, panel.X(from), panel.X(to));
    }

    /// <summary>Runs of track on one board, sampled every few centimetres; trackwork belongs to what is before it.</summary>
    private IEnumerable<(string Board, double From, double To)> Boards()
    {
        const double SampleMetres = 0.03;
        if (geometry is null || geometry.Automatic || layout.Benchwork.Boards.IsEmpty) yield break;
        Areas boards = new(layout.Benchwork.Boards);
        (string? board, double from, double driven) = (null, 0, 0);
        foreach (RouteStep step in route.Route.Steps)
        {
            int samples = step is { FromPlaceMetres: not null, ToPlaceMetres: not null } ? Math.Max(1, (int)Math.Ceiling(step.LengthMetres / SampleMetres)) : 0;
            for (int i = 0; i < samples; i++)
            {
                double share = (i + 0.5) / samples;
                TrackPlace place = new(step.Piece, step.FromPlaceMetres!.Value + (share * (step.ToPlaceMetres!.Value - step.FromPlaceMetres.Value)));
                string here = boards.At(geometry.PointAt(place).At)?.Name ?? "";
                if (here == board) continue;
                double at = driven + (step.LengthMetres * i / samples);
                if (board is { Length: > 0 }) yield return (board, from, at);
                (board, from) = (here, at);
            }

            driven += step.LengthMetres;
        }

        if (board is { Length: > 0 }) yield return (board, from, driven);
    }

    private void PaintBoard(PlotPanel panel, string board, double left, double right)
    {
        double y = panel.Box.Bottom + 8.6;
        ShapeStyle style = ShapeStyle.Outline(SceneColours.Quiet, 0.3);
        canvas.Add(new Shape.Line("boards", [new(left + 0.3, y - 1.2), new(left + 0.3, y), new(right - 0.3, y), new(right - 0.3, y - 1.2)], false, style) { Id = board });
        if (SceneText.Width($"board {board}", NameSize) + 1 < right - left)
        {
            canvas.Add(new Shape.Text("boards", new((left + right) / 2, y - 0.6), $"board {board}", new(NameSize, SceneColours.Ink) { Align = TextAlign.Middle }));
        }
    }

    /// <summary>Runs of one district, and of track without power; trackwork belongs to what is before it.</summary>
    private IEnumerable<(string? District, double From, double To)> Districts()
    {
        string? district = null;
        double from = 0;
        bool begun = false;
        foreach (RouteStretch stretch in route.Stretches)
        {
            if (route.Route.Steps[stretch.Step].FromPlaceMetres is null) continue;
            if (begun && stretch.Track?.District != district)
            {
                yield return (district, from, stretch.FromMetres);
                from = stretch.FromMetres;
            }

            (district, begun) = (stretch.Track?.District, true);
        }

        if (begun) yield return (district, from, route.Route.LengthMetres);
    }

    private void PaintDistrict(PlotPanel panel, string? district, double left, double right)
    {
        ImmutableArray<ScenePoint> area = [new(left, panel.Box.Top), new(right, panel.Box.Top), new(right, panel.Box.Bottom), new(left, panel.Box.Bottom)];
        if (district is null)
        {
            canvas.Add(new Shape.Line("ground", area, true, ShapeStyle.Area(SceneColours.Zebra)));
            Write("no power", (left + right) / 2, panel.Box.Centre.Y, right - left, SceneColours.Quiet);
            return;
        }

        DistrictLook look = DistrictLook.Of(Math.Max(0, _letters.IndexOf(district)));
        double y = panel.Box.Top - (StripHeight / 2);
        ImmutableArray<ScenePoint> line = [new(left, y), new(right, y)];
        canvas.Add(new Shape.Line("ground", line, false, ShapeStyle.Outline(look.Tint, StripHeight)) { Id = district });
        canvas.AddWithin(new(left, y - (StripHeight / 2), right, y + (StripHeight / 2)), new Shape.Strokes("ground", [.. Hatch.Strokes(line, StripHeight / 2, look.Hatch)], ShapeStyle.Outline(look.Dark, 0.14)) { Id = district });
        canvas.Add(new Shape.Line("ground", [area[1], area[2]], false, ShapeStyle.Outline(SceneColours.Quiet, 0.15, DashKind.Short)));
        Write($"{_letters.Of(district)}  {district}", (left + right) / 2, panel.Box.Top + 3, right - left, SceneColours.Ink);
    }

    private IEnumerable<(string Feeder, double At)> Feeders()
    {
        double driven = 0;
        foreach (RouteStep step in route.Route.Steps)
        {
            if (step is { FromPlaceMetres: { } from, ToPlaceMetres: { } to })
            {
                foreach (Feeder feeder in layout.Wiring.Feeders.Where(feeder => feeder.At.Section == step.Piece))
                {
                    double along = to >= from ? feeder.At.MetresFromA - from : from - feeder.At.MetresFromA;
                    if (along >= 0 && along <= step.LengthMetres) yield return (feeder.Name, driven + along);
                }
            }

            driven += step.LengthMetres;
        }
    }

    private void PaintFeeder(PlotPanel panel, string feeder, double x)
    {
        canvas.Add(new Shape.Line("feeders", [new(x, panel.Box.Bottom - 3), new(x, panel.Box.Bottom)], false, ShapeStyle.Outline(SceneColours.Ink, 0.2)) { Id = feeder });
        canvas.Add(new Shape.Circle("feeders", new(x, panel.Box.Bottom), 0.7, ShapeStyle.Area(SceneColours.Ink)) { Id = feeder });
    }

    /// <summary>Names under the panel, each where it has room beside the one before.</summary>
    private void PaintNames(PlotPanel panel)
    {
        double driven = 0, free = 0;
        foreach (RouteStep step in route.Route.Steps)
        {
            double middle = panel.X(driven + (step.LengthMetres / 2)), half = SceneText.Width(step.Piece.Name, NameSize) / 2;
            if (driven > 0)
            {
                canvas.Add(new Shape.Line("pieces", [new(panel.X(driven), panel.Box.Bottom), new(panel.X(driven), panel.Box.Bottom + 2.4)], false, ShapeStyle.Outline(SceneColours.Quiet, 0.15)));
            }

            if (middle - half > free)
            {
                canvas.Add(new Shape.Text("pieces", new(middle, panel.Box.Bottom + 5), step.Piece.Name, new(NameSize, SceneColours.Ink) { Align = TextAlign.Middle }));
                free = middle + half + 1.2;
            }

            driven += step.LengthMetres;
        }
    }

    private void Write(string words, double x, double y, double room, SceneColour colour)
    {
        if (SceneText.Width(words, NameSize) + 1 < room)
        {
            canvas.Add(new Shape.Text("ground", new(x, y), words, new(NameSize, colour) { Align = TextAlign.Middle }));
        }
    }
}
