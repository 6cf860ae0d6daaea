using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>Reads the lines of an SVG drawing. Nothing outside the text is looked at, and nothing in it can make this throw or run without end.</summary>
public static class SvgDrawing
{
    /// <summary>Reads a drawing.</summary>
    /// <param name="text">The whole text of the file.</param>
    /// <param name="import">Which lines are track, and how large they are.</param>
    /// <returns>The lines; or why there are none, one sentence without a full stop.</returns>
    public static (SvgReading? Reading, string? Trouble) Read(string text, SvgImport import)
    {
        (SvgNode? root, string? trouble) = SvgTree.Read(text.StartsWith('\uFEFF') ? text[1..] : text);
        if (root is null)
        {
            return (null, trouble);
        }

        (SvgPage? page, trouble) = SvgPage.Of(root, import);
        if (page is null)
        {
            return (null, trouble);
        }

        SvgWalkWorkspace walk = new(root, import, page.UnitMetres);
        walk.Walk();
        return walk.Trouble is not null ? (null, walk.Trouble) : Found(walk, page, import);
    }

    private static (SvgReading? Reading, string? Trouble) Found(SvgWalkWorkspace walk, SvgPage page, SvgImport import)
    {
        if (import.Layer is { } layer && !walk.FoundLayer)
        {
            return (null, $"the drawing has no layer \"{layer}\"{(walk.Layers.Length == 0 ? "" : $"; it has {Spoken(walk.Layers)}")}");
        }

        if (walk.Lines.IsEmpty)
        {
            return (null, import.Stroke is { } stroke && walk.Strokes.Length > 0
                ? $"no line of the drawing has the stroke \"{stroke}\"; there are {Spoken(walk.Strokes)}"
                : "there is no line in the drawing");
        }

        ImmutableArray<ImmutableArray<PlanPoint>> lines = [.. walk.Lines.Select(line => line.Select(page.OnPlan).ToImmutableArray())];
        return (new(lines, walk.Layers, [.. page.Notes, .. walk.Notes()]) { UnitMetres = page.UnitMetres }, null);
    }

    private static string Spoken(ImmutableArray<string> names) =>
        string.Join(", ", names.Take(12).Select(name => $"\"{Text.ProblemList.Shorten(name)}\"")) + (names.Length > 12 ? string.Create(CultureInfo.InvariantCulture, $" and {names.Length - 12} more") : "");
}
