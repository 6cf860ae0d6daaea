using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>A point of a track on paper and the way the track runs there.</summary>
/// <param name="At">The point on the centre line, in metres; x to the right, y upward.</param>
/// <param name="DirectionX">Horizontal part of the unit vector along the track.</param>
/// <param name="DirectionY">Vertical part of the unit vector along the track.</param>
public readonly record struct PlanPose(PlanPoint At, double DirectionX, double DirectionY)
{
    /// <summary>The same place looked at the other way round.</summary>
    public PlanPose Reversed => new(At, -DirectionX, -DirectionY);

    /// <summary>A point beside the track: positive is to the left of its direction, in metres.</summary>
    public PlanPoint Beside(double metresLeft) => new(At.X - (metresLeft * DirectionY), At.Y + (metresLeft * DirectionX));

    /// <summary>A point ahead along the direction; negative is behind, in metres.</summary>
    public PlanPoint Ahead(double metres) => new(At.X + (metres * DirectionX), At.Y + (metres * DirectionY));
}

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
