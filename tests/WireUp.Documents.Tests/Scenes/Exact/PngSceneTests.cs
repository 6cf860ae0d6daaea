using SkiaSharp;

namespace WireUp.Documents.Tests.Scenes.Exact;

public sealed class PngSceneTests
{
    [Fact]
    public void Dots_follow_from_size_and_resolution()
    {
        using SKBitmap picture = SKBitmap.Decode(PngScene.Write(SceneSamples.Named("x"), 254));
        Assert.Equal((600, 400), (picture.Width, picture.Height));
    }

    [Fact]
    public void Text_is_really_drawn()
    {
        Shape words = SceneSamples.Named("WWW").Shapes[^1];

        using SKBitmap picture = SKBitmap.Decode(PngScene.Write(new(60, 40, [words]), 254));

        SceneBox box = ((Shape.Text)words).Box;
        int inked = picture.Pixels.Select((pixel, i) => (pixel, X: i % 600 / 10.0, Y: i / 600 / 10.0))
            .Count(dot => dot.pixel.Red < 128 && box.Holds(new ScenePoint(dot.X, dot.Y)));
        Assert.True(inked > 500, $"only {inked} dark dots inside the box of the text");
        Assert.DoesNotContain(picture.Pixels.Select((pixel, i) => (pixel, X: i % 600 / 10.0, Y: i / 600 / 10.0)),
            dot => dot.pixel.Red < 128 && !box.Grow(0.2).Holds(new ScenePoint(dot.X, dot.Y)));
    }

    [Fact]
    public void A_huge_sheet_is_drawn_with_fewer_dots()
    {
        using SKBitmap picture = SKBitmap.Decode(PngScene.Write(new Scene(100_000, 10, [])));
        Assert.Equal(PngScene.MaxSide, picture.Width);
    }
}
