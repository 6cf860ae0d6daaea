using System.Collections.Immutable;

namespace WireUp.Documents.Drawings;

/// <summary>Collects the shapes of a sheet, cutting lines off at the edge of a window.</summary>
internal sealed class SheetBuilder
{
    private readonly ImmutableArray<Shape>.Builder _shapes = ImmutableArray.CreateBuilder<Shape>();

    /// <summary>What has been drawn.</summary>
    public ImmutableArray<Shape> Shapes => _shapes.ToImmutable();

    /// <summary>Adds a shape as it is.</summary>
    public void Add(Shape shape) => _shapes.Add(shape);

    /// <summary>Adds the parts of a line that lie inside a window.</summary>
    public void AddWithin(SceneBox window, Shape.Line line)
    {
        foreach (ImmutableArray<ScenePoint> part in Clip.Line(line.Points, window)) _shapes.Add(line with { Points = part });
    }

    /// <summary>Adds the strokes of which both ends lie inside a window.</summary>
    public void AddWithin(SceneBox window, Shape.Strokes strokes)
    {
        ImmutableArray<ScenePoint>.Builder kept = ImmutableArray.CreateBuilder<ScenePoint>();
        for (int i = 0; i + 1 < strokes.Points.Length; i += 2)
        {
            if (window.Holds(strokes.Points[i]) && window.Holds(strokes.Points[i + 1])) kept.AddRange(strokes.Points[i], strokes.Points[i + 1]);
        }

        if (kept.Count > 0) _shapes.Add(strokes with { Points = kept.ToImmutable() });
    }

    /// <summary>Adds a small sign when its middle lies inside a window.</summary>
    public void AddWithin(SceneBox window, Shape.Circle circle)
    {
        if (window.Holds(circle.Centre)) _shapes.Add(circle);
    }
}
