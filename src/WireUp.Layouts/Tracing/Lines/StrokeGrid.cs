using System.Collections.Immutable;
using WireUp.Layouts.Plans;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>Finds strokes near a point without looking at all of them: each is entered in the squares of a grid that it passes within the reach.</summary>
internal sealed class StrokeGrid
{
    // Squares along the longer side of the plan: long strokes are entered in about that many.
    private const int Squares = 64;

    private readonly Dictionary<(int, int), List<int>> _squares = [];
    private readonly double _side;

    /// <summary>A grid of strokes.</summary>
    /// <param name="strokes">The strokes, known by their places in the list.</param>
    /// <param name="reachMetres">How near a point must be.</param>
    public StrokeGrid(ImmutableArray<Stroke> strokes, double reachMetres)
    {
        double[] xs = [.. strokes.SelectMany(stroke => new[] { stroke.From.X, stroke.To.X })];
        double[] ys = [.. strokes.SelectMany(stroke => new[] { stroke.From.Y, stroke.To.Y })];
        double extent = strokes.IsEmpty ? 0 : Math.Max(xs.Max() - xs.Min(), ys.Max() - ys.Min());
        _side = Math.Max(extent / Squares, 4 * reachMetres);
        for (int i = 0; i < strokes.Length; i++) Enter(i, strokes[i], reachMetres);
    }

    /// <summary>The strokes that may be within reach of a point; every one that is is among them.</summary>
    public IReadOnlyList<int> Near(PlanPoint at) => _squares.TryGetValue(SquareOf(at.X, at.Y), out List<int>? near) ? near : [];

    /// <summary>A point within reach of the stroke is within reach and a quarter of a side of one of the points looked at, in both directions.</summary>
    private void Enter(int stroke, Stroke line, double reach)
    {
        int steps = (int)Math.Ceiling(2 * line.LengthMetres / _side) + 1;
        double around = (_side / 4) + reach;
        for (int i = 0; i <= steps; i++)
        {
            PlanPoint at = line.At((double)i / steps);
            (int left, int low) = SquareOf(at.X - around, at.Y - around);
            (int right, int high) = SquareOf(at.X + around, at.Y + around);
            for (int x = left; x <= right; x++)
            {
                for (int y = low; y <= high; y++) Enter(stroke, (x, y));
            }
        }
    }

    private void Enter(int stroke, (int, int) square)
    {
        if (!_squares.TryGetValue(square, out List<int>? here)) _squares.Add(square, here = []);
        if (here.Count == 0 || here[^1] != stroke) here.Add(stroke);
    }

    private (int, int) SquareOf(double x, double y) => ((int)Math.Floor(x / _side), (int)Math.Floor(y / _side));
}
