using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>One sheet of a plan that takes several.</summary>
/// <param name="Name">Its number; the same in both views.</param>
/// <param name="Part">The part of the plan on it.</param>
internal sealed record Tile(string Name, PlanBox Part);

/// <summary>How a plan is cut into sheets: few of them, each well filled, overlapping where the track goes on.</summary>
internal sealed record TileSet(ImmutableArray<Tile> Tiles)
{
    /// <summary>How much larger than on one page, in the order tried.</summary>
    public static readonly ImmutableArray<double> Magnifications = [1.5, 2, 2.7, 3.6, 4.8];

    /// <summary>The sheets at a magnification over the plan on one page.</summary>
    public static TileSet Of(PlanGeometry geometry, SceneBox window, double magnification)
    {
        PlanBox all = LayoutDrawing.Around(geometry, window);
        double scale = magnification * Math.Min(window.Width / all.Width, window.Height / all.Height);
        return new(new TileCover(geometry, window.Width / scale, window.Height / scale, scale).Tiles());
    }

    /// <summary>The sheet that shows most of what lies around a point, other than one sheet; null when none shows it.</summary>
    public Tile? Beyond(Tile tile, PlanPoint point)
    {
        double best = 0;
        Tile? found = null;
        foreach (Tile other in Tiles)
        {
            double depth = Math.Min(
                Math.Min(point.X - other.Part.MinX, other.Part.MaxX - point.X), Math.Min(point.Y - other.Part.MinY, other.Part.MaxY - point.Y));
            if (other != tile && depth > best) (best, found) = (depth, other);
        }

        return found;
    }
}

/// <summary>
/// Covers the track with windows of one size, greedily: the next window is the one that shows most of what no window shows yet;
/// then each is moved so that what it shows lies in its middle.
/// </summary>
internal sealed class TileCover
{
    private const double MarginOnPaper = 13;
    private readonly double _width;
    private readonly double _height;
    private readonly double _margin;
    private readonly ImmutableArray<PlanPoint> _points;

    public TileCover(PlanGeometry geometry, double width, double height, double millimetresPerMetre)
    {
        (_width, _height) = (width, height);
        _margin = Math.Min(MarginOnPaper / millimetresPerMetre, Math.Min(width, height) / 5);
        double step = Math.Min(width, height) / 24;
        _points = [.. geometry.Lines.SelectMany(line => Samples(line, step)).Distinct()];
    }

    /// <summary>The sheets, numbered from left to right in rows from the top.</summary>
    public ImmutableArray<Tile> Tiles()
    {
        List<PlanBox> windows = [];
        HashSet<PlanPoint> open = [.. _points];
        while (open.Count > 0)
        {
            PlanBox best = Candidates(open).MaxBy(candidate => Count(open, candidate));
            PlanPoint[] shown = [.. open.Where(point => Holds(best, point))];
            windows.Add(Centred(PlanBox.Around(_points.Where(point => Holds(best, point))), best));
            open.ExceptWith(shown);
        }

        for (int i = windows.Count - 1; i >= 0; i--)
        {
            if (IsShownByOthers(windows, i)) windows.RemoveAt(i);
        }

        while (Merge(windows))
        {
        }

        double row = _height / 2;
        return
        [
            .. windows.Select(window => Centred(PlanBox.Around(_points.Where(point => Holds(window, point))), window)).OrderBy(window => Math.Round(-window.MaxY / row)).ThenBy(window => window.MinX)
                .Select((window, i) => new Tile(Figure.Whole(i + 1), window)),
        ];
    }

    /// <summary>Whether all that a window shows is on other sheets too, as can be after windows were moved.</summary>
    private bool IsShownByOthers(List<PlanBox> windows, int index) => _points.Where(point => Holds(windows[index], point))
        .All(point => windows.Index().Any(other => other.Index != index && Holds(other.Item, point)));

    /// <summary>Makes one window of two where what no other shows fits into one; false when there are no such two.</summary>
    private bool Merge(List<PlanBox> windows)
    {
        ILookup<(int, int), PlanPoint> few = (from point in _points
                                              let shown = windows.Index().Where(each => Holds(each.Item, point)).Select(each => each.Index).Take(3).ToArray()
                                              where shown.Length is 1 or 2
                                              select (Key: (shown[0], shown[^1]), Point: point)).ToLookup(each => each.Key, each => each.Point);
        for (int i = 0; i < windows.Count; i++)
        {
            for (int k = i + 1; k < windows.Count; k++)
            {
                PlanPoint[] only = [.. few[(i, i)], .. few[(k, k)], .. few[(i, k)]];
                PlanBox own = PlanBox.Around(only);
                if (own.Width > _width - (2 * _margin) || own.Height > _height - (2 * _margin)) continue;
                if (only.Length > 0) windows[i] = Centred(own, windows[i]);
                windows.RemoveAt(k);
                return true;
            }
        }

        return false;
    }

    private static IEnumerable<PlanPoint> Samples(PieceLine line, double step)
    {
        int parts = Math.Max(1, (int)Math.Ceiling(line.LengthMetres / step));
        return Enumerable.Range(0, parts + 1).Select(i => line.At((double)i / parts).At);
    }

    /// <summary>Windows with an uncovered point near a corner, near the middle of a side or in the middle.</summary>
    private IEnumerable<PlanBox> Candidates(HashSet<PlanPoint> open)
    {
        const int Most = 120;
        int skip = Math.Max(1, open.Count / Most);
        double[] across = [_margin, _width / 2, _width - _margin], up = [_margin, _height / 2, _height - _margin];
        return from point in _points.Where(open.Contains).Where((_, i) => i % skip == 0)
               from x in across
               from y in up
               select new PlanBox(point.X - x, point.Y - y, point.X - x + _width, point.Y - y + _height);
    }

    private int Count(HashSet<PlanPoint> open, PlanBox window) => open.Count(point => Holds(window, point));

    private bool Holds(PlanBox window, PlanPoint point) =>
        point.X >= window.MinX + (_margin * 0.99) && point.X <= window.MaxX - (_margin * 0.99)
        && point.Y >= window.MinY + (_margin * 0.99) && point.Y <= window.MaxY - (_margin * 0.99);

    private static PlanBox Centred(PlanBox shown, PlanBox window)
    {
        double x = ((shown.MinX + shown.MaxX) / 2) - (window.Width / 2), y = ((shown.MinY + shown.MaxY) / 2) - (window.Height / 2);
        return new(x, y, x + window.Width, y + window.Height);
    }
}
