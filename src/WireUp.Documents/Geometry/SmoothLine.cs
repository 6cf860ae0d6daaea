using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>Curves as lines of many short straight pieces.</summary>
internal static class SmoothLine
{
    private const int StepsOfBend = 12;

    /// <summary>A smooth line from one outward-looking end of a piece to another.</summary>
    public static ImmutableArray<PlanPoint> Bent(PlanPose from, PlanPose to)
    {
        double reach = Polyline.Distance(from.At, to.At) / 3;
        (PlanPoint p1, PlanPoint p2) = (from.Ahead(-reach), to.Ahead(-reach));
        return [.. Enumerable.Range(0, StepsOfBend + 1).Select(step => Bezier(from.At, p1, p2, to.At, (double)step / StepsOfBend))];
    }

    /// <summary>A smooth line through points.</summary>
    /// <param name="points">The points; neighbours that coincide count once.</param>
    /// <param name="start">Direction at the first point, along the line; null leaves it free.</param>
    /// <param name="end">Direction at the last point, along the line; null leaves it free.</param>
    /// <param name="subdivisions">Straight pieces from one point to the next.</param>
    public static ImmutableArray<PlanPoint> Through(PlanPoint[] points, PlanPose? start, PlanPose? end, int subdivisions)
    {
        PlanPoint[] knots = [.. points.Where((point, i) => i == 0 || Polyline.Distance(point, points[i - 1]) > 1e-9)];
        if (knots.Length < 2) return [points[0], points[^1]];
        var line = ImmutableArray.CreateBuilder<PlanPoint>();
        line.Add(knots[0]);
        for (int i = 1; i < knots.Length; i++)
        {
            double reach = Polyline.Distance(knots[i - 1], knots[i]) / 3;
            (double ax, double ay) = Tangent(knots, i - 1, start, end);
            (double bx, double by) = Tangent(knots, i, start, end);
            PlanPoint p1 = new(knots[i - 1].X + (reach * ax), knots[i - 1].Y + (reach * ay));
            PlanPoint p2 = new(knots[i].X - (reach * bx), knots[i].Y - (reach * by));
            for (int step = 1; step <= subdivisions; step++) line.Add(Bezier(knots[i - 1], p1, p2, knots[i], (double)step / subdivisions));
        }

        return line.ToImmutable();
    }

    // The direction of the circle through a point and its neighbours: the nearer neighbour counts for more.
    private static (double X, double Y) Tangent(PlanPoint[] knots, int i, PlanPose? start, PlanPose? end)
    {
        if (i == 0 && start is { } s) return (s.DirectionX, s.DirectionY);
        if (i == knots.Length - 1 && end is { } e) return (e.DirectionX, e.DirectionY);
        (PlanPoint before, PlanPoint at, PlanPoint after) = (knots[Math.Max(i - 1, 0)], knots[i], knots[Math.Min(i + 1, knots.Length - 1)]);
        double d0 = Math.Max(Polyline.Distance(before, at), 1e-12), d1 = Math.Max(Polyline.Distance(at, after), 1e-12);
        double x = ((at.X - before.X) * d1 / d0) + ((after.X - at.X) * d0 / d1);
        double y = ((at.Y - before.Y) * d1 / d0) + ((after.Y - at.Y) * d0 / d1);
        double length = Math.Sqrt((x * x) + (y * y));
        return length > 0 ? (x / length, y / length) : (1, 0);
    }

    private static PlanPoint Bezier(PlanPoint p0, PlanPoint p1, PlanPoint p2, PlanPoint p3, double t)
    {
        double u = 1 - t;
        (double b0, double b1, double b2, double b3) = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t);
        return new((b0 * p0.X) + (b1 * p1.X) + (b2 * p2.X) + (b3 * p3.X), (b0 * p0.Y) + (b1 * p1.Y) + (b2 * p2.Y) + (b3 * p3.Y));
    }
}
