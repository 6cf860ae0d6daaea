using System.Collections.Immutable;
using SkiaSharp;

namespace WireUp.Documents;

/// <summary>Draws a scene on a Skia canvas whose unit is one millimetre.</summary>
internal static class SkiaPainter
{
    /// <summary>Draws every shape in order.</summary>
    public static void Paint(Scene scene, SKCanvas canvas)
    {
        foreach (Shape shape in scene.Shapes)
        {
            switch (shape)
            {
                case Shape.Line line:
                    Paint(line, canvas);
                    break;
                case Shape.Strokes strokes:
                    Paint(strokes, canvas);
                    break;
                case Shape.Circle circle:
                    Paint(circle.Style, paint => canvas.DrawCircle(Point(circle.Centre), (float)circle.Radius, paint));
                    break;
                case Shape.Text text:
                    Paint(text, canvas);
                    break;
                default:
                    throw new ArgumentOutOfRangeException(nameof(scene), shape, "no way to draw it");
            }
        }
    }

    private static void Paint(Shape.Line line, SKCanvas canvas)
    {
        using SKPathBuilder builder = new();
        ImmutableArray<double> pattern = DashPattern.Of(line.Style);
        ImmutableArray<ScenePoint> points = line.Closed && !pattern.IsEmpty ? [.. line.Points, line.Points[0]] : line.Points;
        foreach (ImmutableArray<ScenePoint> part in pattern.IsEmpty ? [points] : DashPattern.Split(points, pattern)) Add(builder, part);
        if (line.Closed && pattern.IsEmpty) builder.Close();
        using SKPath path = builder.Detach();
        Paint(line.Style, paint => canvas.DrawPath(path, paint));
    }

    private static void Add(SKPathBuilder builder, ImmutableArray<ScenePoint> points)
    {
        builder.MoveTo(Point(points[0]));
        foreach (ScenePoint point in points.AsSpan()[1..]) builder.LineTo(Point(point));
    }

    private static void Paint(Shape.Strokes strokes, SKCanvas canvas)
    {
        using SKPathBuilder builder = new();
        for (int i = 0; i + 1 < strokes.Points.Length; i += 2)
        {
            builder.MoveTo(Point(strokes.Points[i]));
            builder.LineTo(Point(strokes.Points[i + 1]));
        }

        using SKPath path = builder.Detach();
        Paint(strokes.Style, paint => canvas.DrawPath(path, paint));
    }

    private static void Paint(Shape.Text text, SKCanvas canvas)
    {
        using SKFont font = SceneText.Font(text.Style.Bold, text.Style.SizeMillimetres);
        using SKPaint paint = new() { Color = Colour(text.Style.Colour), IsAntialias = true };
        SceneBox box = text.Box;
        canvas.DrawText(SceneText.Clean(text.Content), (float)box.Left, (float)text.At.Y, SKTextAlign.Left, font, paint);
    }

    private static void Paint(ShapeStyle style, Action<SKPaint> draw)
    {
        if (style.Fill is { } fill)
        {
            using SKPaint paint = new() { Color = Colour(fill), IsAntialias = true, Style = SKPaintStyle.Fill };
            draw(paint);
        }

        if (style.Stroke is { } stroke)
        {
            using SKPaint paint = new()
            {
                Color = Colour(stroke),
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                StrokeWidth = (float)style.WidthMillimetres,
                StrokeJoin = SKStrokeJoin.Round,
                StrokeCap = DashPattern.RoundEnds(style) ? SKStrokeCap.Round : SKStrokeCap.Butt,
            };
            draw(paint);
        }
    }

    private static SKPoint Point(ScenePoint point) => new((float)point.X, (float)point.Y);

    private static SKColor Colour(SceneColour colour) => new(colour.Red, colour.Green, colour.Blue);
}
