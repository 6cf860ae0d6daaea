namespace WireUp.Faults.Search;

/// <summary>
/// Integrates a likelihood over a value whose logarithm is equally likely everywhere in a range: on a fixed grid, and more finely about
/// the best value, which is looked for from the grid and from the values that fit single readings exactly.
/// </summary>
internal static class ValueFit
{
    /// <summary>Points of the grid for each power of ten.</summary>
    private const int PerDecade = 6;

    /// <summary>Half of the width of the fine part, in standard deviations, and its points on either side.</summary>
    private const int FineSigmas = 4, FinePoints = 8;

    /// <param name="least">Lower end of the range, above 0.</param>
    /// <param name="most">Upper end.</param>
    /// <param name="seeds">Values that fit single readings exactly; those outside of the range are passed over.</param>
    /// <param name="logLikelihood">Logarithm of the likelihood of a value.</param>
    internal static FaultFit Integrate(double least, double most, ReadOnlySpan<double> seeds, Func<double, double> logLikelihood)
    {
        double low = Math.Log(least), high = Math.Log(most);
        int steps = (int)Math.Ceiling((high - low) / Math.Log(10) * PerDecade);
        List<(double At, double Log)> points = new(steps + 32);
        for (int i = 0; i <= steps; i++)
        {
            Add(points, low + ((high - low) * i / steps), logLikelihood);
        }

        foreach (double seed in seeds)
        {
            double at = Math.Log(seed);
            if (at > low && at < high)
            {
                Add(points, at, logLikelihood);
            }
        }

        (double At, double Log) best = Climb(points.MaxBy(point => point.Log), low, high, (high - low) / steps, logLikelihood);
        points.Add(best);
        AddFine(points, best, low, high, logLikelihood);
        points.Sort((one, other) => one.At.CompareTo(other.At));
        return Sum(points, best, high - low);
    }

    private static void Add(List<(double At, double Log)> points, double at, Func<double, double> logLikelihood) =>
        points.Add((at, logLikelihood(Math.Exp(at))));

    /// <summary>Golden section about the best point.</summary>
    private static (double At, double Log) Climb((double At, double Log) best, double low, double high, double step, Func<double, double> logLikelihood)
    {
        const double Golden = 0.6180339887498949;
        (double from, double to) = (Math.Max(low, best.At - step), Math.Min(high, best.At + step));
        while (to - from > 1e-4)
        {
            // One probe on the longer side of the best point.
            bool above = to - best.At > best.At - from;
            double at = above ? best.At + ((1 - Golden) * (to - best.At)) : best.At - ((1 - Golden) * (best.At - from));
            double log = logLikelihood(Math.Exp(at));
            if (log > best.Log)
            {
                (from, to) = above ? (best.At, to) : (from, best.At);
                best = (at, log);
            }
            else
            {
                (from, to) = above ? (from, at) : (at, to);
            }
        }

        return best;
    }

    private static void AddFine(List<(double At, double Log)> points, (double At, double Log) best, double low, double high, Func<double, double> logLikelihood)
    {
        const double Step = 1e-3;
        double bend = (logLikelihood(Math.Exp(best.At + Step)) + logLikelihood(Math.Exp(best.At - Step)) - (2 * best.Log)) / (Step * Step);
        if (!(bend < 0))
        {
            return;
        }

        double sigma = 1 / Math.Sqrt(-bend);
        for (int i = -FinePoints; i <= FinePoints; i++)
        {
            double at = best.At + (sigma * FineSigmas * i / FinePoints);
            if (i != 0 && at > low && at < high)
            {
                Add(points, at, logLikelihood);
            }
        }
    }

    /// <summary>Trapezes, and the ends of the interval that leaves a twentieth on either side.</summary>
    private static FaultFit Sum(List<(double At, double Log)> points, (double At, double Log) best, double width)
    {
        double[] parts = new double[points.Count - 1];
        for (int i = 0; i < parts.Length; i++)
        {
            (double a, double b) = (Math.Exp(points[i].Log - best.Log), Math.Exp(points[i + 1].Log - best.Log));
            parts[i] = (points[i + 1].At - points[i].At) * (a + b) / 2;
        }

        double total = parts.Sum();
        return new(
            best.Log + Math.Log(total / width),
            Math.Exp(best.At),
            Math.Exp(Quantile(points, parts, total * 0.05)),
            Math.Exp(Quantile(points, parts, total * 0.95)));
    }

    private static double Quantile(List<(double At, double Log)> points, double[] parts, double target)
    {
        double sum = 0;
        for (int i = 0; i < parts.Length; i++)
        {
            if (sum + parts[i] >= target)
            {
                return points[i].At + ((points[i + 1].At - points[i].At) * (target - sum) / Math.Max(parts[i], 1e-300));
            }

            sum += parts[i];
        }

        return points[^1].At;
    }
}
