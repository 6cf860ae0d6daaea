using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>How the sheets of one board fit together: match lines through the middle of what two of them share, with two registration marks on each.</summary>
internal sealed class BoardMatch(ImmutableArray<PlanBox> sheets, int index)
{
    private const string Layer = "match";
    private const double Arm = 2.2, Radius = 1.3;
    private static readonly ShapeStyle Line = ShapeStyle.Outline(SceneColours.Quiet, 0.25, DashKind.Short), Mark = ShapeStyle.Outline(SceneColours.Ink, 0.18);

    /// <summary>What the signs mean, and which sheets lie beside this one; empty for a board on one sheet.</summary>
    public string Words(DrawingView view)
    {
        if (sheets.Length == 1) return string.Empty;
        IEnumerable<string> beside = Neighbours().Select(next => Figure.Text($"{Side(next.Index, view)}: sheet {next.Index + 1}"));
        return $"Lay sheets on each other so that their dashed match lines and ringed crosses meet; {string.Join(", ", beside)}.";
    }

    /// <summary>What no label should cover.</summary>
    public IEnumerable<ImmutableArray<ScenePoint>> KeptOff(PlanSheet sheet) =>
        [.. Lines(sheet), .. Marks(sheet).Select(at => ImmutableArray.Create(at with { X = at.X - Arm }, at with { X = at.X + Arm }))];

    /// <summary>Draws both.</summary>
    public void Paint(SheetBuilder canvas, PlanSheet sheet)
    {
        foreach (ImmutableArray<ScenePoint> line in Lines(sheet)) canvas.AddWithin(sheet.Window, new Shape.Line(Layer, line, false, Line));
        foreach (ScenePoint at in Marks(sheet))
        {
            canvas.Add(new Shape.Strokes(Layer, [at with { X = at.X - Arm }, at with { X = at.X + Arm }, at with { Y = at.Y - Arm }, at with { Y = at.Y + Arm }], Mark));
            canvas.Add(new Shape.Circle(Layer, at, Radius, Mark));
        }
    }

    private IEnumerable<ImmutableArray<ScenePoint>> Lines(PlanSheet sheet) => Neighbours().Select(next => sheet.Line([next.From, next.To]));

    /// <summary>The marks on paper; on both sheets the same points of the plan.</summary>
    private IEnumerable<ScenePoint> Marks(PlanSheet sheet) => Neighbours()
        .SelectMany(next => ((double[])[0.2, 0.8]).Select(share => sheet.Point(Polyline.Between(next.From, next.To, share))));

    /// <summary>The sheets in the same row or column that share a strip with this one, and the middle line of that strip.</summary>
    private IEnumerable<(int Index, PlanPoint From, PlanPoint To)> Neighbours()
    {
        PlanBox own = sheets[index];
        foreach ((int other, PlanBox box) in sheets.Index())
        {
            if (other == index) continue;
            PlanBox shared = new(Math.Max(own.MinX, box.MinX), Math.Max(own.MinY, box.MinY), Math.Min(own.MaxX, box.MaxX), Math.Min(own.MaxY, box.MaxY));
            if (shared.Width <= 0 || shared.Height <= 0) continue;
            (double x, double y) = ((shared.MinX + shared.MaxX) / 2, (shared.MinY + shared.MaxY) / 2);
            if (IsSame(own.MinY, box.MinY)) yield return (other, new(x, shared.MinY), new(x, shared.MaxY));
            else if (IsSame(own.MinX, box.MinX)) yield return (other, new(shared.MinX, y), new(shared.MaxX, y));
        }
    }

    private string Side(int other, DrawingView view)
    {
        (PlanBox own, PlanBox box) = (sheets[index], sheets[other]);
        if (!IsSame(own.MinY, box.MinY)) return box.MinY > own.MinY ? "above" : "below";
        return box.MinX > own.MinX == (view == DrawingView.Above) ? "right" : "left";
    }

    private static bool IsSame(double one, double other) => Math.Abs(one - other) < 1e-9;
}
