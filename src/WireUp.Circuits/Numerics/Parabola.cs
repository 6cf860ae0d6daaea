namespace WireUp.Circuits.Numerics;

/// <summary>A quadratic on [0, 1]: c0 + c1·t + c2·t². Its extremes are found in closed form.</summary>
internal readonly record struct Parabola(double C0, double C1, double C2)
{
    /// <summary>What one place must be better by, of the value itself: rounding alone never moves the place.</summary>
    private const double Margin = 1e-12;

    internal double At(double t) => C0 + (t * (C1 + (t * C2)));

    /// <summary>The same curve with the part from one argument to another drawn out to [0, 1].</summary>
    internal Parabola Between(double from, double to)
    {
        double width = to - from;
        return new(At(from), width * (C1 + (2 * C2 * from)), width * width * C2);
    }

    /// <summary>The quadratic that has these values at 0, ½ and 1.</summary>
    internal static Parabola Through(double start, double middle, double end) =>
        new(start, (4 * middle) - (3 * start) - end, (2 * start) + (2 * end) - (4 * middle));

    /// <summary>Where it is largest on [0, 1]; of two equal places the smaller.</summary>
    internal double Highest() => Best(1);

    /// <summary>Where it is smallest on [0, 1]; of two equal places the smaller.</summary>
    internal double Lowest() => Best(-1);

    /// <summary>
    /// Where line/(this + constant) is smallest on [0, 1], for a line y0 + y1·t that has no zero inside: the derivative's
    /// numerator y1·(c0 + k) − y0·c1 − 2·y0·c2·t − y1·c2·t² is a quadratic, so ends and its roots are all there is to try.
    /// </summary>
    internal double LowestRatio(double y0, double y1, double constant)
    {
        Parabola self = this;
        double best = 0, least = Ratio(0);
        double c = (y1 * (C0 + constant)) - (y0 * C1), b = -2 * y0 * C2, a = -y1 * C2;
        foreach (double t in (ReadOnlySpan<double>)[1, .. Roots(a, b, c)])
        {
            if (t > 0 && t <= 1 && least - Ratio(t) > Margin * Math.Abs(Ratio(t)))
            {
                (best, least) = (t, Ratio(t));
            }
        }

        return best;

        double Ratio(double t) => (y0 + (y1 * t)) / (self.At(t) + constant);
    }

    private double Best(int sign)
    {
        double best = 0, turn = C2 == 0 ? 1 : -C1 / (2 * C2);
        foreach (double t in (ReadOnlySpan<double>)[turn, 1])
        {
            if (t > 0 && t <= 1 && sign * At(t) > (sign * At(best)) + (Margin * Math.Abs(At(best))))
            {
                best = t;
            }
        }

        return best;
    }

    private static double[] Roots(double a, double b, double c)
    {
        if (a == 0)
        {
            return b == 0 ? [] : [-c / b];
        }

        double under = (b * b) - (4 * a * c);
        if (under < 0)
        {
            return [];
        }

        double q = -0.5 * (b + (b < 0 ? -Math.Sqrt(under) : Math.Sqrt(under)));
        return q == 0 ? [0] : [q / a, c / q];
    }
}
