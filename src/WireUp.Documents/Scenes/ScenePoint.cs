namespace WireUp.Documents;

/// <summary>A point of a sheet, in millimetres from its top left corner.</summary>
/// <param name="X">Millimetres to the right.</param>
/// <param name="Y">Millimetres downward.</param>
public readonly record struct ScenePoint(double X, double Y)
{
    /// <summary>Distance to another point in millimetres.</summary>
    public double DistanceTo(ScenePoint other) => Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));

    /// <summary>The point a share of the way to another.</summary>
    /// <param name="other">The other point.</param>
    /// <param name="share">0 is this point, 1 the other.</param>
    public ScenePoint Towards(ScenePoint other, double share) => new(X + (share * (other.X - X)), Y + (share * (other.Y - Y)));
}

/// <summary>An upright rectangle of a sheet, in millimetres.</summary>
/// <param name="Left">Left edge.</param>
/// <param name="Top">Top edge.</param>
/// <param name="Right">Right edge, not left of <paramref name="Left"/>.</param>
/// <param name="Bottom">Bottom edge, not above <paramref name="Top"/>.</param>
public readonly record struct SceneBox(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Width in millimetres.</summary>
    public double Width => Right - Left;

    /// <summary>Height in millimetres.</summary>
    public double Height => Bottom - Top;

    /// <summary>The point in the middle.</summary>
    public ScenePoint Centre => new((Left + Right) / 2, (Top + Bottom) / 2);

    /// <summary>The box with each edge moved outward by so many millimetres; inward when negative.</summary>
    public SceneBox Grow(double millimetres) =>
        new(Left - millimetres, Top - millimetres, Right + millimetres, Bottom + millimetres);

    /// <summary>Whether a point lies in the box or on its edge.</summary>
    public bool Holds(ScenePoint point) => point.X >= Left && point.X <= Right && point.Y >= Top && point.Y <= Bottom;

    /// <summary>Whether another box lies wholly in this one.</summary>
    public bool Holds(SceneBox other) =>
        other.Left >= Left && other.Right <= Right && other.Top >= Top && other.Bottom <= Bottom;

    /// <summary>Area that two boxes have in common, in square millimetres.</summary>
    public double OverlapWith(SceneBox other) =>
        Math.Max(0, Math.Min(Right, other.Right) - Math.Max(Left, other.Left))
        * Math.Max(0, Math.Min(Bottom, other.Bottom) - Math.Max(Top, other.Top));

    /// <summary>The smallest box around points; all zero when there are none.</summary>
    public static SceneBox Around(IEnumerable<ScenePoint> points)
    {
        double left = double.PositiveInfinity, top = left, right = double.NegativeInfinity, bottom = right;
        foreach (ScenePoint point in points)
        {
            (left, right) = (Math.Min(left, point.X), Math.Max(right, point.X));
            (top, bottom) = (Math.Min(top, point.Y), Math.Max(bottom, point.Y));
        }

        return right < left ? default : new(left, top, right, bottom);
    }
}
