using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Draws each district as a tinted and hatched band under its track, with its letter beside it now and then.</summary>
internal sealed class BandPainter(PlanFacts facts, PlanSheet sheet, SheetBuilder canvas)
{
    private const string Layer = "districts";
    private readonly List<(string District, ScenePoint At, double Length, PlanPose Pose)> _middles = [], _trackwork = [];

    /// <summary>Half the width of a band in millimetres.</summary>
    public double HalfWidth => sheet.HalfGauge + Math.Clamp(sheet.Spacing * 0.12, 0.45, 1.1);

    public void Paint()
    {
        List<(string District, ImmutableArray<ScenePoint> Points)> bands = [.. Bands()];
        foreach ((string district, ImmutableArray<ScenePoint> points) in bands) PaintTint(district, points);
        foreach ((string district, ImmutableArray<ScenePoint> points) in bands) PaintHatch(district, points);
    }

    /// <summary>Where letters go: the middle of the longest stretches of each district, some way apart from each other; on trackwork where it has no section, as a bridge of its own.</summary>
    public IEnumerable<(string District, PlanPose Pose)> LetterPlaces()
    {
        const double Apart = 75;
        List<(string District, ScenePoint At)> chosen = [];
        HashSet<string> onSections = [.. _middles.Select(middle => middle.District)];
        foreach ((string district, ScenePoint at, double length, PlanPose pose) in _middles.Concat(_trackwork.Where(middle => !onSections.Contains(middle.District))).OrderByDescending(middle => middle.Length))
        {
            if (chosen.Exists(other => other.District == district && other.At.DistanceTo(at) < Apart)) continue;
            chosen.Add((district, at));
            yield return (district, pose);
        }
    }

    private IEnumerable<(string District, ImmutableArray<ScenePoint> Points)> Bands()
    {
        foreach (Piece piece in facts.Layout.Track)
        {
            foreach ((string district, ImmutableArray<PlanPoint> line) in Lines(facts, piece))
            {
                ImmutableArray<ScenePoint> points = sheet.Line(line);
                foreach (ImmutableArray<ScenePoint> part in Clip.Line(points, sheet.Window.Grow(HalfWidth)))
                {
                    Note(piece is Piece.Section ? _middles : _trackwork, district, line, part);
                    yield return (district, part);
                }
            }
        }
    }

    private void Note(List<(string, ScenePoint, double, PlanPose)> middles, string district, ImmutableArray<PlanPoint> line, ImmutableArray<ScenePoint> part)
    {
        PlanPose pose = Polyline.At(line, Polyline.Length(line) / 2);
        ScenePoint at = sheet.Point(pose.At);
        if (sheet.Window.Holds(at)) middles.Add((district, at, LengthOf(part), pose));
    }

    /// <summary>The stretches of a piece that some district feeds.</summary>
    public static IEnumerable<(string District, ImmutableArray<PlanPoint> Line)> Lines(PlanFacts facts, Piece piece)
    {
        if (piece.PlacesMetres is not null)
        {
            foreach (Stretch<string?> stretch in Stretches.OfDistrict(facts, piece.Id))
            {
                if (stretch.Value is { } district) yield return (district, Stretches.Line(facts, piece.Id, stretch));
            }

            yield break;
        }

        foreach (PieceLine line in facts.Geometry.LinesOf(piece.Id))
        {
            if (DistrictAt(facts, piece.End(line.From)) is { } district) yield return (district, line.Points);
        }
    }

    private static string? DistrictAt(PlanFacts facts, TrackEnd end)
    {
        (RailSide first, RailSide second) = RailSides.Of(facts.Layout.Control);
        return facts.Phases.DistrictOf(facts.Phases.Graph.NodeAt(new(end, first)))
            ?? facts.Phases.DistrictOf(facts.Phases.Graph.NodeAt(new(end, second)));
    }

    /// <summary>A broad line; near the edge of the window the area of that line, cut off there.</summary>
    private void PaintTint(string district, ImmutableArray<ScenePoint> points)
    {
        SceneBox inner = sheet.Window.Grow(-HalfWidth);
        if (points.All(inner.Holds))
        {
            canvas.Add(new Shape.Line(Layer, points, false, ShapeStyle.Outline(Look(district).Tint, 2 * HalfWidth)) { Id = district });
            return;
        }

        ImmutableArray<ScenePoint> area = Clip.Area([.. Beside(points, HalfWidth), .. Beside(points, -HalfWidth).Reverse()], sheet.Window);
        if (area.Length > 2) canvas.Add(new Shape.Line(Layer, area, true, ShapeStyle.Area(Look(district).Tint)) { Id = district });
    }

    private static IEnumerable<ScenePoint> Beside(ImmutableArray<ScenePoint> points, double millimetres) =>
        OffsetLine.Of([.. points.Select(point => new PlanPoint(point.X, point.Y))], millimetres).Select(point => new ScenePoint(point.X, point.Y));

    private void PaintHatch(string district, ImmutableArray<ScenePoint> points)
    {
        DistrictLook look = Look(district);
        ImmutableArray<ScenePoint> strokes = [.. Hatch.Strokes(points, HalfWidth, Turned(look.Hatch))];
        if (!strokes.IsEmpty) canvas.AddWithin(sheet.Window, new Shape.Strokes(Layer, strokes, ShapeStyle.Outline(look.Dark, 0.14)) { Id = district });
    }

    /// <summary>A mirrored band would lean the other way; the legend shows one leaning for both views.</summary>
    private HatchKind Turned(HatchKind kind) => (sheet.View, kind) switch
    {
        (DrawingView.Below, HatchKind.Forward) => HatchKind.Back,
        (DrawingView.Below, HatchKind.Back) => HatchKind.Forward,
        _ => kind,
    };

    private DistrictLook Look(string district) => DistrictLook.Of(Math.Max(0, facts.Letters.IndexOf(district)));

    private static double LengthOf(ImmutableArray<ScenePoint> points)
    {
        double length = 0;
        for (int i = 1; i < points.Length; i++) length += points[i - 1].DistanceTo(points[i]);
        return length;
    }
}
