using System.Collections.Immutable;

namespace WireUp.Layouts.Plans;

/// <summary>Which points of the plan lie in some areas, and which parts of a line do not.</summary>
/// <param name="outlines">The areas.</param>
public sealed class Areas(ImmutableArray<PlanOutline> outlines)
{
    private const double LeastMetres = 1e-6;

    /// <summary>The areas.</summary>
    public ImmutableArray<PlanOutline> Outlines { get; } = outlines;

    /// <summary>The first area that a point lies in, or null.</summary>
    public PlanOutline? At(PlanPoint point) => Outlines.FirstOrDefault(outline => Holds(outline.Corners, point));

    /// <summary>The parts of a line that lie in no area, as distances from its first point, in their order.</summary>
    /// <param name="line">Two points or more.</param>
    public ImmutableArray<(double FromMetres, double ToMetres)> Outside(ImmutableArray<PlanPoint> line)
    {
        double length = Polyline.Length(line);
        if (Outlines.IsEmpty)
        {
            return [(0, length)];
        }

        List<(double From, double To)> parts = [];
        double[] cuts = [0, .. Cuts(line).Order(), length];
        for (int i = 1; i < cuts.Length; i++)
        {
            (double from, double to) = (cuts[i - 1], cuts[i]);
            if (to - from < LeastMetres || At(Polyline.At(line, (from + to) / 2).At) is not null)
            {
                continue;
            }

            if (parts.Count > 0 && from - parts[^1].To < LeastMetres)
            {
                (from, _) = parts[^1];
                parts.RemoveAt(parts.Count - 1);
            }

            parts.Add((from, to));
        }

        return [.. parts];
    }

    /// <summary>Distances along a line at which it crosses the border of an area.</summary>
    private IEnumerable<double> Cuts(ImmutableArray<PlanPoint> line)
    {
        double passed = 0;
        for (int i = 1; i < line.Length; i++)
        {
            Stroke step = new(line[i - 1], line[i]);
            foreach (PlanOutline outline in Outlines)
            {
                for (int corner = 0; corner < outline.Corners.Length; corner++)
                {
                    Stroke border = new(outline.Corners[corner], outline.Corners[(corner + 1) % outline.Corners.Length]);
                    if (step.Crossing(border) is { } share)
                    {
                        yield return passed + (share * step.LengthMetres);
                    }
                }
            }

            passed += step.LengthMetres;
        }
    }

    /// <summary>Even-odd rule: a ray to the right crosses the border an odd number of times.</summary>
    private static bool Holds(ImmutableArray<PlanPoint> corners, PlanPoint point)
    {
        bool inside = false;
        for (int i = 0, before = corners.Length - 1; i < corners.Length; before = i++)
        {
            (PlanPoint a, PlanPoint b) = (corners[before], corners[i]);
            if ((a.Y > point.Y) != (b.Y > point.Y) && point.X < a.X + ((b.X - a.X) * (point.Y - a.Y) / (b.Y - a.Y)))
            {
                inside = !inside;
            }
        }

        return inside;
    }
}
