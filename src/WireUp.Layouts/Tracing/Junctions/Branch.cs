using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Junctions;

/// <summary>A track as it leaves a place where several meet.</summary>
/// <param name="Points">Its centre line, beginning at the place; two different points or more.</param>
internal sealed record Branch(ImmutableArray<PlanPoint> Points)
{
    /// <summary>How far the line goes, in metres.</summary>
    public double LengthMetres { get; } = Polyline.Length(Points);

    /// <summary>The line a distance from the place, looking away from the place along the line.</summary>
    public PlanPose At(double metres) => Polyline.At(Points, Math.Min(metres, LengthMetres));

    /// <summary>The direction in which the track leaves, in radians counter-clockwise from the right: towards its point a reach away.</summary>
    /// <param name="reachMetres">The reach; the whole line where it is shorter.</param>
    public double Bearing(double reachMetres)
    {
        PlanPoint far = At(reachMetres).At;
        (double x, double y) = (far.X - Points[0].X, far.Y - Points[0].Y);
        return x == 0 && y == 0 ? Heading(0) : Math.Atan2(y, x);
    }

    /// <summary>The direction of the line itself a distance away, in radians.</summary>
    public double Heading(double metres)
    {
        PlanPose pose = At(metres);
        return Math.Atan2(pose.DirectionY, pose.DirectionX);
    }

    /// <summary>How far one goes along two branches until they are so far apart; null where they never are.</summary>
    public static double? Parting(Branch one, Branch other, double apartMetres)
    {
        double most = Math.Min(one.LengthMetres, other.LengthMetres);
        double step = apartMetres / 8;
        int steps = (int)Math.Min(Math.Ceiling(most / step), 10_000);
        (double before, double wasApart) = (0, 0);
        for (int i = 1; i <= steps; i++)
        {
            double metres = Math.Min(i * step, most);
            double apart = Polyline.Distance(one.At(metres).At, other.At(metres).At);
            if (apart >= apartMetres)
            {
                return before + ((metres - before) * (apartMetres - wasApart) / (apart - wasApart));
            }

            (before, wasApart) = (metres, apart);
        }

        return null;
    }

    /// <summary>An angle turned by whole turns until it lies from −π to π.</summary>
    public static double Turn(double radians) => Math.IEEERemainder(radians, 2 * Math.PI);

    /// <summary>The angle between two directions, from 0 to π.</summary>
    public static double Between(double one, double other) => Math.Abs(Turn(one - other));
}
