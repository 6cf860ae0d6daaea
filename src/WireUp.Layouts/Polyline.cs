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

    /// <summary>The same line with fewer points: none that is left out lies farther from it than a distance. Both ends stay.</summary>
    /// <remarks>Source: D. Douglas, T. Peucker, Algorithms for the reduction of the number of points required to represent a digitized line, Cartographica 10, 1973.</remarks>
    /// <param name="points">The line, two points or more.</param>
    /// <param name="within">The distance.</param>
    public static ImmutableArray<PlanPoint> Thinned(ImmutableArray<PlanPoint> points, double within)
    {
        bool[] stays = new bool[points.Length];
        (stays[0], stays[^1]) = (true, true);
        Stack<(int From, int To)> open = new([(0, points.Length - 1)]);
        while (open.TryPop(out (int From, int To) part))
        {
            (double far, int at) = (within, -1);
            for (int i = part.From + 1; i < part.To; i++)
            {
                double off = DistanceToStroke(points[i], points[part.From], points[part.To]);
                if (off > far) (far, at) = (off, i);
            }

            if (at < 0) continue;
            stays[at] = true;
            open.Push((part.From, at));
            open.Push((at, part.To));
        }

        return [.. points.Where((_, i) => stays[i])];
    }

    /// <summary>Distance between two points.</summary>
    public static double Distance(PlanPoint a, PlanPoint b) => Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    private static double DistanceToStroke(PlanPoint at, PlanPoint from, PlanPoint to)
    {
        (double dx, double dy) = (to.X - from.X, to.Y - from.Y);
        double square = (dx * dx) + (dy * dy);
        double share = square > 0 ? Math.Clamp((((at.X - from.X) * dx) + ((at.Y - from.Y) * dy)) / square, 0, 1) : 0;
        return Distance(at, Between(from, to, share));
    }

    /// <summary>The point a share of the way from one to another.</summary>
    public static PlanPoint Between(PlanPoint a, PlanPoint b, double share) => new(a.X + (share * (b.X - a.X)), a.Y + (share * (b.Y - a.Y)));
}
