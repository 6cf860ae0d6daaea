using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Layouts;

namespace WireUp.Documents.Changes;

/// <summary>How a kind of change looks on the drawing: line style and letter say it, colour only helps.</summary>
/// <param name="Colour">Its colour.</param>
/// <param name="Dash">Its line.</param>
/// <param name="Words">What the legend says.</param>
internal sealed record ChangeLook(SceneColour Colour, DashKind Dash, string Words)
{
    public static readonly ImmutableArray<DifferenceKind> Drawn = [DifferenceKind.Added, DifferenceKind.Removed, DifferenceKind.Changed];

    public static ChangeLook Of(DifferenceKind kind) => kind switch
    {
        DifferenceKind.Added => new(SceneColours.Green, DashKind.Solid, "new"),
        DifferenceKind.Removed => new(SceneColours.Vermilion, DashKind.Short, "taken away"),
        DifferenceKind.Moved or DifferenceKind.Changed or DifferenceKind.Renamed => new(SceneColours.Blue, DashKind.Dotted, "moved or made different"),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no look"),
    };

    /// <summary>The frame of a mark.</summary>
    public ShapeStyle Line(double width = 0.45) => ShapeStyle.Outline(Colour, width, Dash);

    /// <summary>The frames along both sides of a line.</summary>
    public IEnumerable<Shape> Sides(string id, ImmutableArray<ScenePoint> line, double apart)
    {
        foreach (int side in new[] { 1, -1 })
        {
            ImmutableArray<PlanPoint> offset = OffsetLine.Of([.. line.Select(point => new PlanPoint(point.X, point.Y))], side * apart);
            yield return new Shape.Line("changes", [.. offset.Select(point => new ScenePoint(point.X, point.Y))], false, Line(0.4)) { Id = id };
        }
    }
}
