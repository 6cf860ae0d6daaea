using System.Collections.Immutable;

namespace WireUp.Layouts;

/// <summary>Lengths and places along a line of straight pieces.</summary>
public static class Polyline
{
    /// <summary>Sum of the lengths of the straight pieces.</summary>
    public static double Length(ImmutableArray<PlanPoint> points)
    {
        double length = 0;
        for (int i = 1; i < points.Length; i++) length += Distance(points[i - 1], points[i]);
        return length;
    }

    /// <summary>The place a distance from the first point, looking along the line.</summary>
    public static PlanPose At(ImmutableArray<PlanPoint> points, double distance)
    {
        for (int i = 1; i < points.Length; i++)
        {
            double step = Distance(points[i - 1], points[i]);
            if (step > 0 && (distance <= step || i == points.Length - 1))
            {
                double share = Math.Min(distance / step, 1);
                (double x, double y) = ((points[i].X - points[i - 1].X) / step, (points[i].Y - points[i - 1].Y) / step);
                return new(Between(points[i - 1], points[i], share), x, y);
            }

            distance -= step;
        }

        return new(points[^1], 1, 0);
    }

    /// <summary>The stretch between two distances from the first point.</summary>
    public static ImmutableArray<PlanPoint> Part(ImmutableArray<PlanPoint> points, double from, double to)
    {
        ImmutableArray<PlanPoint>.Builder part = ImmutableArray.CreateBuilder<PlanPoint>();
        part.Add(At(points, from).At);
        double passed = 0;
        for (int i = 1; i < points.Length - 1; i++)
        {
            passed += Distance(points[i - 1], points[i]);
            if (passed > from && passed < to) part.Add(points[i]);
        }

        part.Add(At(points, to).At);
        return part.ToImmutable();
    }

    /// <summary>Distance between two points.</summary>
    public static double Distance(PlanPoint a, PlanPoint b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    /// <summary>The point a share of the way from one to another.</summary>
    public static PlanPoint Between(PlanPoint a, PlanPoint b, double share) => new(a.X + (share * (b.X - a.X)), a.Y + (share * (b.Y - a.Y)));
}
