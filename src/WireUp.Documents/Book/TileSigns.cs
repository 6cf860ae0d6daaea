using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The map of the sheets on the overview: a frame for each with its number in a corner.</summary>
internal sealed class TileMap(TileSet tiles, PlanSheet plan) : IUnderlay
{
    private static readonly SceneColour Grey = new(140, 138, 132);

    /// <inheritdoc/>
    public void Paint(SheetBuilder canvas)
    {
        foreach (Tile tile in tiles.Tiles)
        {
            SceneBox box = Box(tile);
            canvas.Add(new Shape.Line(
                "sheets",
                [new(box.Left, box.Top), new(box.Right, box.Top), new(box.Right, box.Bottom), new(box.Left, box.Bottom)],
                true,
                ShapeStyle.Outline(Grey, 0.18, DashKind.Short)));
        }
    }

    /// <inheritdoc/>
    public void Label(LabelWriter writer)
    {
        LabelLook look = new("sheets", 3.2, Grey) { Bold = true };
        foreach (Tile tile in tiles.Tiles)
        {
            SceneBox box = Box(tile).Grow(-0.6);
            writer.Write($"sheet {tile.Name}", tile.Name, look, [
                new(new(box.Left, box.Top), 0.75, 0.66), new(new(box.Right, box.Top), -0.75, 0.66),
                new(new(box.Left, box.Bottom), 0.75, -0.66), new(new(box.Right, box.Bottom), -0.75, -0.66),
            ]);
        }
    }

    private SceneBox Box(Tile tile)
    {
        SceneBox box = SceneBox.Around([
            plan.Point(new(tile.Part.MinX, tile.Part.MinY)), plan.Point(new(tile.Part.MaxX, tile.Part.MaxY)),
        ]);
        SceneBox window = plan.Window;
        return new(
            Math.Max(box.Left, window.Left), Math.Max(box.Top, window.Top), Math.Min(box.Right, window.Right), Math.Min(box.Bottom, window.Bottom));
    }
}

/// <summary>Where track leaves a sheet, the number of the sheet on which it goes on.</summary>
internal sealed class TileExits(PlanGeometry geometry, TileSet tiles, Tile tile, PlanSheet plan) : IUnderlay
{
    private const double Apart = 20;
    private static readonly LabelLook Look = new("sheets", 2.3, SceneColours.Quiet) { Bold = true };

    /// <summary>Every place of the track lies at least so far, and room for its label, from the edge of some sheet.</summary>
    public double Margin => 7;

    /// <summary>Nothing lies under the plan.</summary>
    public void Paint(SheetBuilder canvas)
    {
    }

    /// <inheritdoc/>
    public void Label(LabelWriter writer)
    {
        List<(string Name, ScenePoint At)> written = [];
        foreach ((PlanPoint at, Tile next) in Exits())
        {
            ScenePoint point = plan.Point(at);
            if (written.Exists(other => other.Name == next.Name && other.At.DistanceTo(point) < Apart)) continue;
            written.Add((next.Name, point));
            ScenePoint middle = plan.Window.Centre;
            double length = Math.Max(1e-6, point.DistanceTo(middle));
            ScenePoint inside = point.Towards(middle, 1.2 / length);
            (double x, double y) = ((middle.X - point.X) / length, (middle.Y - point.Y) / length);
            writer.Write($"to sheet {next.Name}", next.Name, Look, [new(inside, y, -x), new(inside, -y, x), new(inside, x, y)]);
        }
    }

    /// <summary>Points just inside the sheet where a line leaves it, with the sheet that shows what follows.</summary>
    private IEnumerable<(PlanPoint At, Tile Next)> Exits()
    {
        foreach (PieceLine line in geometry.Lines)
        {
            for (int i = 1; i < line.Points.Length; i++)
            {
                (PlanPoint a, PlanPoint b) = (line.Points[i - 1], line.Points[i]);
                if (Holds(a) == Holds(b)) continue;
                (PlanPoint inside, PlanPoint outside) = Holds(a) ? (a, b) : (b, a);
                PlanPoint edge = Edge(inside, outside);
                if (tiles.Beyond(tile, edge) is { } next) yield return (edge, next);
            }
        }
    }

    private PlanPoint Edge(PlanPoint inside, PlanPoint outside)
    {
        for (int i = 0; i < 40; i++)
        {
            PlanPoint middle = Polyline.Between(inside, outside, 0.5);
            if (Holds(middle)) inside = middle;
            else outside = middle;
        }

        return inside;
    }

    private bool Holds(PlanPoint point) =>
        point.X > tile.Part.MinX && point.X < tile.Part.MaxX && point.Y > tile.Part.MinY && point.Y < tile.Part.MaxY;
}
