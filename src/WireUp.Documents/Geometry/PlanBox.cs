using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>An upright rectangle of the plan, in metres.</summary>
/// <param name="MinX">Left edge.</param>
/// <param name="MinY">Bottom edge.</param>
/// <param name="MaxX">Right edge, not left of <paramref name="MinX"/>.</param>
/// <param name="MaxY">Top edge, not below <paramref name="MinY"/>.</param>
public readonly record struct PlanBox(double MinX, double MinY, double MaxX, double MaxY)
{
    /// <summary>Width in metres.</summary>
    public double Width => MaxX - MinX;

    /// <summary>Height in metres.</summary>
    public double Height => MaxY - MinY;

    /// <summary>The smallest box around the points; all zero when there are none.</summary>
    public static PlanBox Around(IEnumerable<PlanPoint> points)
    {
        double minX = double.PositiveInfinity, minY = minX, maxX = double.NegativeInfinity, maxY = maxX;
        foreach (PlanPoint point in points)
        {
            (minX, maxX) = (Math.Min(minX, point.X), Math.Max(maxX, point.X));
            (minY, maxY) = (Math.Min(minY, point.Y), Math.Max(maxY, point.Y));
        }

        return maxX < minX ? default : new(minX, minY, maxX, maxY);
    }
}
