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
        builder.MoveTo(Point(line.Points[0]));
        foreach (ScenePoint point in line.Points.AsSpan()[1..]) builder.LineTo(Point(point));
        if (line.Closed) builder.Close();
        using SKPath path = builder.Detach();
        Paint(line.Style, paint => canvas.DrawPath(path, paint));
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
            using SKPathEffect? dashes = Dashes(style);
            using SKPaint paint = new()
            {
                Color = Colour(stroke),
                IsAntialias = true,
                Style = SKPaintStyle.Stroke,
                StrokeWidth = (float)style.WidthMillimetres,
                StrokeJoin = SKStrokeJoin.Round,
                StrokeCap = DashPattern.RoundEnds(style) ? SKStrokeCap.Round : SKStrokeCap.Butt,
                PathEffect = dashes,
            };
            draw(paint);
        }
    }

    private static SKPathEffect? Dashes(ShapeStyle style)
    {
        ImmutableArray<double> pattern = DashPattern.Of(style);
        return pattern.IsEmpty ? null : SKPathEffect.CreateDash([.. pattern.Select(length => (float)length)], 0);
    }

    private static SKPoint Point(ScenePoint point) => new((float)point.X, (float)point.Y);

    private static SKColor Colour(SceneColour colour) => new(colour.Red, colour.Green, colour.Blue);
}
