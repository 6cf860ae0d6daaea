using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>The lines of the basic shapes. Source: Scalable Vector Graphics (SVG) 1.1, W3C 2011, chapter 9.</summary>
internal static class SvgShapes
{
    /// <summary>The lines of a shape, in its own units, and whether all of it could be read.</summary>
    public static (ImmutableArray<ImmutableArray<PlanPoint>> Lines, bool IsWhole) Lines(SvgNode node, double tolerance) => node.Name switch
    {
        "path" => SvgPathData.Lines(node["d"] ?? "", tolerance),
        "line" => One([new(Number(node, "x1"), Number(node, "y1")), new(Number(node, "x2"), Number(node, "y2"))]),
        "polyline" => Points(node, false),
        "polygon" => Points(node, true),
        "rect" => One(Rectangle(node, tolerance)),
        "circle" => One(Ellipse(node, tolerance, Number(node, "r"), Number(node, "r"))),
        "ellipse" => One(Ellipse(node, tolerance, Number(node, "rx"), Number(node, "ry"))),
        _ => throw new ArgumentOutOfRangeException(nameof(node), node.Name, "not a shape"),
    };

    private static (ImmutableArray<ImmutableArray<PlanPoint>> Lines, bool IsWhole) One(ImmutableArray<PlanPoint> line) => line.Length < 2 ? ([], true) : ([line], true);

    private static double Number(SvgNode node, string attribute) => SvgLength.Parse(node[attribute])?.Units ?? 0;

    private static (ImmutableArray<ImmutableArray<PlanPoint>> Lines, bool IsWhole) Points(SvgNode node, bool isClosed)
    {
        SvgNumbers text = new(node["points"] ?? "");
        ImmutableArray<double> numbers = text.All();
        ImmutableArray<PlanPoint> points = [.. Enumerable.Range(0, numbers.Length / 2).Select(i => new PlanPoint(numbers[2 * i], numbers[(2 * i) + 1]))];
        bool isWhole = text.IsAtEnd && numbers.Length % 2 == 0;
        return points.Length < 2 ? ([], isWhole) : ([isClosed ? points.Add(points[0]) : points], isWhole);
    }

    private static ImmutableArray<PlanPoint> Ellipse(SvgNode node, double tolerance, double rx, double ry) =>
        rx > 0 && ry > 0 ? [.. new SvgCurves(tolerance).Ellipse(new(Number(node, "cx"), Number(node, "cy")), rx, ry)] : [];

    private static ImmutableArray<PlanPoint> Rectangle(SvgNode node, double tolerance)
    {
        (double x, double y, double width, double height) = (Number(node, "x"), Number(node, "y"), Number(node, "width"), Number(node, "height"));
        if (width <= 0 || height <= 0)
        {
            return [];
        }

        double? rx = SvgLength.Parse(node["rx"])?.Units, ry = SvgLength.Parse(node["ry"])?.Units;
        (double h, double v) = (Math.Clamp(rx ?? ry ?? 0, 0, width / 2), Math.Clamp(ry ?? rx ?? 0, 0, height / 2));
        if (h <= 0 || v <= 0)
        {
            return [new(x, y), new(x + width, y), new(x + width, y + height), new(x, y + height), new(x, y)];
        }

        SvgCurves curves = new(tolerance);
        (double right, double bottom) = (x + width, y + height);
        return
        [
            new(x + h, y), new(right - h, y), .. Corner(new(right - h, y), new(right, y + v)),
            new(right, bottom - v), .. Corner(new(right, bottom - v), new(right - h, bottom)),
            new(x + h, bottom), .. Corner(new(x + h, bottom), new(x, bottom - v)),
            new(x, y + v), .. Corner(new(x, y + v), new(x + h, y)),
        ];

        IEnumerable<PlanPoint> Corner(PlanPoint from, PlanPoint to) => curves.Arc(from, (h, v, 0), (false, true), to);
    }
}
