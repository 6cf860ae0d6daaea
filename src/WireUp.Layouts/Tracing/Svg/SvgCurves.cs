namespace WireUp.Layouts.Tracing.Svg;

/// <summary>
/// Cuts curves into straight pieces that are nowhere farther off than a tolerance. A curve whose second derivative is at most M lies within
/// M h²/8 of its chord over a step h of its parameter (the error of linear interpolation).
/// </summary>
/// <param name="tolerance">The tolerance, in units of the points.</param>
internal sealed class SvgCurves(double tolerance)
{
    /// <summary>A cubic Bézier curve without its first point.</summary>
    public IEnumerable<PlanPoint> Cubic(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d)
    {
        double most = 6 * Math.Max(Bend(a, b, c), Bend(b, c, d));
        return Pieces(Math.Sqrt(most / (8 * tolerance)), t =>
        {
            double u = 1 - t;
            (double wa, double wb, double wc, double wd) = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t);
            return new((wa * a.X) + (wb * b.X) + (wc * c.X) + (wd * d.X), (wa * a.Y) + (wb * b.Y) + (wc * c.Y) + (wd * d.Y));
        }, d);
    }

    /// <summary>A quadratic Bézier curve without its first point.</summary>
    public IEnumerable<PlanPoint> Quadratic(PlanPoint a, PlanPoint b, PlanPoint c) => Pieces(Math.Sqrt(2 * Bend(a, b, c) / (8 * tolerance)), t =>
    {
        double u = 1 - t;
        return new((u * u * a.X) + (2 * u * t * b.X) + (t * t * c.X), (u * u * a.Y) + (2 * u * t * b.Y) + (t * t * c.Y));
    }, c);

    /// <summary>An arc of an ellipse between two points, without the first.</summary>
    /// <param name="from">Where it begins.</param>
    /// <param name="shape">The two radii, and the turn of the first against the x axis in degrees.</param>
    /// <param name="flags">Whether it is the larger of two arcs, and whether it runs towards growing angles.</param>
    /// <param name="to">Where it ends.</param>
    public IEnumerable<PlanPoint> Arc(PlanPoint from, (double Rx, double Ry, double Turn) shape, (bool Large, bool Sweep) flags, PlanPoint to)
    {
        (double rx, double ry) = (Math.Abs(shape.Rx), Math.Abs(shape.Ry));
        if (rx == 0 || ry == 0 || from == to)
        {
            return [to];
        }

        // Appendix F.6.5: the middle of the ellipse in its own axes, radii enlarged where they do not reach.
        (double sin, double cos) = Math.SinCos(shape.Turn * Math.PI / 180);
        (double hx, double hy) = ((from.X - to.X) / 2, (from.Y - to.Y) / 2);
        (double x, double y) = ((cos * hx) + (sin * hy), (cos * hy) - (sin * hx));
        double reach = ((x * x) / (rx * rx)) + ((y * y) / (ry * ry));
        (rx, ry) = reach > 1 ? (rx * Math.Sqrt(reach), ry * Math.Sqrt(reach)) : (rx, ry);
        double under = (rx * rx * y * y) + (ry * ry * x * x);
        double root = Math.Sqrt(Math.Max(((rx * rx * ry * ry) - under) / under, 0)) * (flags.Large == flags.Sweep ? -1 : 1);
        (double mx, double my) = (root * rx * y / ry, -root * ry * x / rx);
        PlanPoint middle = new((cos * mx) - (sin * my) + ((from.X + to.X) / 2), (sin * mx) + (cos * my) + ((from.Y + to.Y) / 2));
        double first = Math.Atan2((y - my) / ry, (x - mx) / rx);
        double turn = Math.Atan2((-y - my) / ry, (-x - mx) / rx) - first;
        turn += (flags.Sweep, turn) switch { (true, < 0) => 2 * Math.PI, (false, > 0) => -2 * Math.PI, _ => 0 };
        return Pieces(Steps(Math.Max(rx, ry), turn), t =>
        {
            (double s, double c) = Math.SinCos(first + (t * turn));
            return new(middle.X + (rx * c * cos) - (ry * s * sin), middle.Y + (rx * c * sin) + (ry * s * cos));
        }, to);
    }

    /// <summary>A whole ellipse, beginning and ending at the right.</summary>
    public IEnumerable<PlanPoint> Ellipse(PlanPoint middle, double rx, double ry)
    {
        PlanPoint right = new(middle.X + rx, middle.Y);
        return [right, .. Pieces(Math.Max(Steps(Math.Max(rx, ry), 2 * Math.PI), 8), t =>
        {
            (double s, double c) = Math.SinCos(t * 2 * Math.PI);
            return new(middle.X + (rx * c), middle.Y + (ry * s));
        }, right)];
    }

    private double Steps(double radius, double turn) => Math.Abs(turn) * Math.Sqrt(radius / (8 * tolerance));

    private static double Bend(PlanPoint a, PlanPoint b, PlanPoint c)
    {
        (double x, double y) = (a.X - (2 * b.X) + c.X, a.Y - (2 * b.Y) + c.Y);
        return Math.Sqrt((x * x) + (y * y));
    }

    private static IEnumerable<PlanPoint> Pieces(double steps, Func<double, PlanPoint> point, PlanPoint last)
    {
        int count = (int)Math.Clamp(Math.Ceiling(steps), 1, SvgLimits.CurvePieces);
        for (int i = 1; i < count; i++)
        {
            yield return point((double)i / count);
        }

        yield return last;
    }
}
