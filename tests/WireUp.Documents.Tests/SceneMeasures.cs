using System.Collections.Immutable;
using WireUp.Documents.Drawings;

namespace WireUp.Documents.Tests;

/// <summary>Measures what a reader would complain of: words that cover words or track, or leave the paper.</summary>
internal static class SceneMeasures
{
    /// <summary>Pairs of texts that overlap by more than a hair, as sentences.</summary>
    public static IEnumerable<string> TextsOnTexts(Scene scene)
    {
        (Shape.Text Text, SceneBox Box)[] texts = [.. scene.Texts.Select(text => (text, text.Box)).OrderBy(pair => pair.Box.Left)];
        for (int i = 0; i < texts.Length; i++)
        {
            for (int k = i + 1; k < texts.Length && texts[k].Box.Left < texts[i].Box.Right; k++)
            {
                if (texts[i].Box.OverlapWith(texts[k].Box) > 0.05) yield return $"'{texts[i].Text.Content}' on '{texts[k].Text.Content}'";
            }
        }
    }

    /// <summary>Texts that cover a rail.</summary>
    public static IEnumerable<string> TextsOnRails(Scene scene)
    {
        (ImmutableArray<ScenePoint> Points, string Id)[] rails =
            [.. scene.Shapes.OfType<Shape.Line>().Where(line => line.Layer == "rails" && line.Id.Length > 0).Select(line => (line.Points, line.Id))];
        foreach (Shape.Text text in scene.Texts)
        {
            SceneBox box = text.Box;
            foreach ((ImmutableArray<ScenePoint> points, string id) in rails)
            {
                if (Clip.Line(points, box).Any()) yield return $"'{text.Content}' on {id}";
            }
        }
    }

    /// <summary>Whether the lowest words of a page of a book, above its foot, are a heading.</summary>
    public static bool EndsWithHeading(Scene page)
    {
        const double Foot = 17, CellSize = 3.05;
        Shape.Text[] written = [.. page.Texts.Where(text => text.At.Y < page.HeightMillimetres - Foot)];
        return written.Length > 0 && written.MaxBy(text => text.At.Y) is { Layer: "text", Style: { Bold: true, SizeMillimetres: > CellSize } };
    }

    /// <summary>Texts that leave a box.</summary>
    public static IEnumerable<string> TextsOutside(Scene scene, SceneBox box) =>
        scene.Texts.Where(text => !box.Grow(0.05).Holds(text.Box)).Select(text => text.Content);
}
