using SkiaSharp;

namespace WireUp.Documents;

/// <summary>A scene as a picture of dots.</summary>
public static class PngScene
{
    private const double MillimetresPerInch = 25.4;

    /// <summary>The largest side of a picture, in dots; a wish for more is answered with fewer dots per inch.</summary>
    public const int MaxSide = 8_000;

    /// <summary>The picture as a PNG file, on white paper. The same scene gives the same bytes.</summary>
    /// <param name="scene">The scene.</param>
    /// <param name="dotsPerInch">Dots per inch, from 10 to 1200.</param>
    public static byte[] Write(Scene scene, double dotsPerInch = 200)
    {
        if (!(dotsPerInch is >= 10 and <= 1200))
        {
            throw new ArgumentOutOfRangeException(nameof(dotsPerInch), dotsPerInch, "must lie in [10–1200] dots per inch");
        }

        double largest = Math.Max(scene.WidthMillimetres, scene.HeightMillimetres);
        double scale = Math.Min(dotsPerInch / MillimetresPerInch, MaxSide / largest);
        SKImageInfo info = new(Dots(scene.WidthMillimetres * scale), Dots(scene.HeightMillimetres * scale));
        using SKSurface surface = SKSurface.Create(info)
            ?? throw new InvalidOperationException($"no room for a picture of {info.Width} × {info.Height} dots");
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale((float)scale);
        SkiaPainter.Paint(scene, surface.Canvas);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static int Dots(double size) => Math.Max(1, (int)Math.Ceiling(size));
}
