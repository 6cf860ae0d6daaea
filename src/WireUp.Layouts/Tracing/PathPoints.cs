using System.Collections.Immutable;
using WireUp.Layouts.Plans;

namespace WireUp.Layouts.Tracing;

/// <summary>Where points lie along a path, and where paths cross.</summary>
internal static class PathPoints
{
    /// <summary>The place of a path nearest to a point: the distance along the path, and how far off it is.</summary>
    public static (double Along, double Off) Nearest(ImmutableArray<PlanPoint> path, PlanPoint point)
    {
        (double Along, double Off) best = (0, double.PositiveInfinity);
        foreach ((double Along, double Off) near in OfEachStroke(path, point))
        {
            if (near.Off < best.Off) best = near;
        }

        return best;
    }

    /// <summary>Every distance along a path at which it passes a point, nearer than a distance; at its ends exactly 0 and its length.</summary>
    public static ImmutableArray<double> Passes(ImmutableArray<PlanPoint> path, PlanPoint point, double within)
    {
        List<double> passes = [];
        double whole = Polyline.Length(path);
        (double? best, double off) = (null, within);
        foreach ((double along, double distance) in OfEachStroke(path, point))
        {
            if (distance < off)
            {
                (best, off) = (along, distance);
            }
            else if (best is { } found && distance >= within)
            {
                passes.Add(found);
                (best, off) = (null, within);
            }
        }

        if (best is { } last)
        {
            passes.Add(last);
        }

        return [.. passes.Select(along => along <= within ? 0 : along >= whole - within ? whole : along)];
    }

    /// <summary>Of each straight line of a path the place nearest to a point.</summary>
    private static IEnumerable<(double Along, double Off)> OfEachStroke(ImmutableArray<PlanPoint> path, PlanPoint point)
    {
        double passed = 0;
        for (int i = 1; i < path.Length; i++)
        {
            Stroke stroke = new(path[i - 1], path[i]);
            double share = stroke.Nearest(point);
            yield return (passed + (share * stroke.LengthMetres), Polyline.Distance(stroke.At(share), point));
            passed += stroke.LengthMetres;
        }
    }

    /// <summary>The points at which two paths cross, with the distances along each.</summary>
    public static IEnumerable<(PlanPoint At, double One, double Other)> Crossings(ImmutableArray<PlanPoint> one, ImmutableArray<PlanPoint> other)
    {
        double passed = 0;
        for (int i = 1; i < one.Length; i++)
        {
            Stroke stroke = new(one[i - 1], one[i]);
            double passedOther = 0;
            for (int j = 1; j < other.Length; j++)
            {
                Stroke across = new(other[j - 1], other[j]);
                if (stroke.Crossing(across) is { } share)
                {
                    PlanPoint at = stroke.At(share);
                    yield return (at, passed + (share * stroke.LengthMetres), passedOther + Polyline.Distance(across.From, at));
                }

                passedOther += across.LengthMetres;
            }

            passed += stroke.LengthMetres;
        }
    }
}
