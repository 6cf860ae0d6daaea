namespace WireUp.Layouts.Plans;

/// <summary>A straight line on the plan.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
internal readonly record struct Stroke(PlanPoint From, PlanPoint To)
{
    public double LengthMetres => Polyline.Distance(From, To);

    /// <summary>The point a share of the way along.</summary>
    public PlanPoint At(double share) => Polyline.Between(From, To, share);

    /// <summary>The share of the way at which another stroke crosses or touches this one; null where none does, or where they are parallel.</summary>
    public double? Crossing(Stroke other)
    {
        (double dx, double dy, double ex, double ey) = (To.X - From.X, To.Y - From.Y, other.To.X - other.From.X, other.To.Y - other.From.Y);
        double turn = (dx * ey) - (dy * ex);
        if (Math.Abs(turn) <= 1e-12 * LengthMetres * other.LengthMetres)
        {
            return null;
        }

        (double x, double y) = (other.From.X - From.X, other.From.Y - From.Y);
        (double share, double otherShare) = (((x * ey) - (y * ex)) / turn, ((x * dy) - (y * dx)) / turn);
        return share is >= 0 and <= 1 && otherShare is >= 0 and <= 1 ? share : null;
    }

    /// <summary>The share of the way at which this stroke is nearest to a point.</summary>
    /// <param name="point">The point.</param>
    /// <param name="least">The share is not less, from 0.</param>
    /// <param name="most">The share is not more, to 1.</param>
    public double Nearest(PlanPoint point, double least = 0, double most = 1)
    {
        (double dx, double dy) = (To.X - From.X, To.Y - From.Y);
        double square = (dx * dx) + (dy * dy);
        return square > 0 ? Math.Clamp((((point.X - From.X) * dx) + ((point.Y - From.Y) * dy)) / square, least, most) : least;
    }
}
