using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Lines beside a line.</summary>
internal static class OffsetLine
{
    private const double SharpestCosine = 0.5;

    /// <summary>The line a distance to the left, with mitred corners; very sharp corners are cut short.</summary>
    /// <param name="points">The line, in metres of the plan.</param>
    /// <param name="metresLeft">Distance; negative is to the right.</param>
    public static ImmutableArray<PlanPoint> Of(ImmutableArray<PlanPoint> points, double metresLeft)
    {
        ImmutableArray<PlanPoint> clean = WithoutRepeats(points);
        if (clean.Length < 2) return clean;
        ImmutableArray<PlanPoint>.Builder beside = ImmutableArray.CreateBuilder<PlanPoint>(clean.Length);
        for (int i = 0; i < clean.Length; i++)
        {
            (double X, double Y) before = Normal(clean, Math.Max(i - 1, 0));
            (double X, double Y) after = Normal(clean, Math.Min(i, clean.Length - 2));
            (double x, double y) = (before.X + after.X, before.Y + after.Y);
            double length = Math.Sqrt((x * x) + (y * y));
            (x, y) = length > 1e-9 ? (x / length, y / length) : before;
            double mitre = metresLeft / Math.Max(SharpestCosine, (x * after.X) + (y * after.Y));
            beside.Add(new(clean[i].X + (x * mitre), clean[i].Y + (y * mitre)));
        }

        return beside.MoveToImmutable();
    }

    /// <summary>Where two lines first cross, seen from the far end of the first, as (share of first's points passed, point); null where they do not.</summary>
    public static (int First, int Second, PlanPoint At)? LastCrossing(ImmutableArray<PlanPoint> first, ImmutableArray<PlanPoint> second)
    {
        for (int i = first.Length - 1; i > 0; i--)
        {
            for (int k = second.Length - 1; k > 0; k--)
            {
                if (Crossing(first[i - 1], first[i], second[k - 1], second[k]) is { } at) return (i, k, at);
            }
        }

        return null;
    }

    /// <summary>Where two straight pieces cross, or null.</summary>
    public static PlanPoint? Crossing(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d)
    {
        double across = ((b.X - a.X) * (d.Y - c.Y)) - ((b.Y - a.Y) * (d.X - c.X));
        if (Math.Abs(across) < 1e-15) return null;
        double s = (((c.X - a.X) * (d.Y - c.Y)) - ((c.Y - a.Y) * (d.X - c.X))) / across;
        double t = (((c.X - a.X) * (b.Y - a.Y)) - ((c.Y - a.Y) * (b.X - a.X))) / across;
        return s is >= 0 and <= 1 && t is >= 0 and <= 1 ? new(a.X + (s * (b.X - a.X)), a.Y + (s * (b.Y - a.Y))) : null;
    }

    private static (double X, double Y) Normal(ImmutableArray<PlanPoint> points, int from)
    {
        (double x, double y) = (points[from + 1].X - points[from].X, points[from + 1].Y - points[from].Y);
        double length = Math.Sqrt((x * x) + (y * y));
        return (-y / length, x / length);
    }

    private static ImmutableArray<PlanPoint> WithoutRepeats(ImmutableArray<PlanPoint> points) =>
        [.. points.Where((point, i) => i == 0 || point != points[i - 1])];
}
