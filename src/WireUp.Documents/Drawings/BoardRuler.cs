using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Rules along the lower and the left edge of a board, counted as its drilling list counts: from its left edge, from below from its right
/// edge, and from its lower edge.
/// </summary>
internal sealed class BoardRuler(PlanBox board, PlanSheet sheet, LengthStyle lengths)
{
    private const string Layer = "ruler";
    private const double Size = 1.7, Tick = 1.6, LeastApart = 11, Away = 1.5;
    private const double Inch = 0.0254;
    private static readonly ImmutableArray<double> Metric = [0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5];
    private static readonly ImmutableArray<double> Feet = [Inch, 2 * Inch, 3 * Inch, 6 * Inch, 12 * Inch, 24 * Inch, 60 * Inch, 120 * Inch];
    private static readonly ShapeStyle Stroke = ShapeStyle.Outline(SceneColours.Ink, 0.2);

    /// <summary>Room that the rules take beside a board, in millimetres.</summary>
    public const double Room = 12;

    private double Bottom => sheet.Window.Bottom + Away;

    private double Left => sheet.Window.Left - Away;

    /// <summary>Draws both rules along the left and the lower edge of the sheet, as far as it shows the board.</summary>
    public void Paint(SheetBuilder canvas)
    {
        ImmutableArray<double> steps = lengths == LengthStyle.Feet ? Feet : Metric;
        double step = steps.FirstOrDefault(step => step * sheet.MillimetresPerMetre >= LeastApart, steps[^1]);
        SceneBox window = sheet.Window.Grow(0.01);
        for (int i = 0; i * step <= board.Width + 1e-9; i++)
        {
            double from = sheet.View == DrawingView.Above ? board.MinX + (i * step) : board.MaxX - (i * step), x = sheet.Point(new(from, board.MinY)).X;
            if (x >= window.Left && x <= window.Right) Mark(canvas, (new(x, Bottom), new(x, Bottom + Tick)), new(x, Bottom + Tick + 2), i * step, TextAlign.Middle);
        }

        for (int i = 0; i * step <= board.Height + 1e-9; i++)
        {
            double y = sheet.Point(new(board.MinX, board.MinY + (i * step))).Y;
            if (y >= window.Top && y <= window.Bottom) Mark(canvas, (new(Left, y), new(Left - Tick, y)), new(Left - Tick - 0.5, y + 0.6), i * step, TextAlign.Right);
        }

        SceneBox edges = SceneBox.Around([sheet.Point(new(board.MinX, board.MinY)), sheet.Point(new(board.MaxX, board.MaxY))]);
        canvas.Add(new Shape.Line(Layer, [new(sheet.Window.Left, Bottom), new(Math.Min(edges.Right, sheet.Window.Right), Bottom)], false, Stroke));
        canvas.Add(new Shape.Line(Layer, [new(Left, Math.Max(edges.Top, sheet.Window.Top)), new(Left, sheet.Window.Bottom)], false, Stroke));
    }

    private void Mark(SheetBuilder canvas, (ScenePoint From, ScenePoint To) tick, ScenePoint words, double metres, TextAlign align)
    {
        canvas.Add(new Shape.Line(Layer, [tick.From, tick.To], false, Stroke));
        canvas.Add(new Shape.Text(Layer, words, lengths.Mark(metres), new(Size, SceneColours.Ink) { Align = align }));
    }
}
