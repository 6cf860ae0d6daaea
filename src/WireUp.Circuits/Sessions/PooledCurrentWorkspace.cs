using System.Collections.Immutable;
using System.Runtime.InteropServices;

namespace WireUp.Circuits.Sessions;

/// <summary>A percentile of the current with the interval that holds the true one in about 95 of 100 runs.</summary>
/// <param name="Value">The percentile, microamperes.</param>
/// <param name="Low">Lower end of the interval.</param>
/// <param name="High">Upper end; the largest current seen where the sessions do not reach farther.</param>
internal readonly record struct PercentileRange(long Value, long Low, long High);

/// <summary>
/// The current of one district or booster over all sessions together, and how sure it is. The sessions are independent, what happens
/// within one is not; so a session counts as one observation, whatever its length.
/// </summary>
/// <remarks>
/// The p-th percentile is the smallest current x with F(x) ≥ p, F(x) the mean over the sessions of the share of time in which no more than x
/// flows. Its interval is that of all x that F, with t times its standard error over the sessions, does not contradict: the method of
/// Woodruff for samples taken in clusters, by inverting the test (so it needs no density, and holds where current comes in steps).
/// Sources: R. S. Woodruff, "Confidence intervals for medians and other position measures", Journal of the American Statistical
/// Association 47, 1952; C. A. Francisco, W. A. Fuller, "Quantile estimation with a complex survey design", Annals of Statistics 19, 1991;
/// Student's t by M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 1964, 26.7.5. All from memory.
/// </remarks>
internal sealed class PooledCurrentWorkspace
{
    /// <summary>Quantile of the normal distribution for 95 of 100 on both sides.</summary>
    internal const double Normal95 = 1.959963984540054;

    /// <summary>Shares of time are sums of many numbers.</summary>
    private const double Rounding = 1e-12;

    private readonly List<TimeShares> _sessions = [];
    private readonly Dictionary<long, double> _share = [];
    private long[] _values = [];
    private double[] _upTo = [];

    /// <summary>Adds a session.</summary>
    internal void Add(TimeShares session)
    {
        _sessions.Add(session);
        for (int i = 0; i < session.UpTo.Length; i++)
        {
            CollectionsMarshal.GetValueRefOrAddDefault(_share, session.Microamperes[i], out _) += session.UpTo[i] - (i == 0 ? 0 : session.UpTo[i - 1]);
        }

        _values = [];
    }

    /// <summary>Mean over all time.</summary>
    internal double MeanMicroamperes => _sessions.Average(session => session.MeanMicroamperes);

    /// <summary>Standard error of <see cref="MeanMicroamperes"/>; infinite with one session.</summary>
    internal double MeanErrorMicroamperes => StandardError(session => session.MeanMicroamperes);

    /// <summary>The largest current seen.</summary>
    internal long Largest
    {
        get
        {
            Sort();
            return _values[^1];
        }
    }

    /// <summary>Every current that occurred, ascending, with the share of all time in which no more than that flows.</summary>
    internal ImmutableArray<(long Microamperes, double UpTo)> Shares()
    {
        Sort();
        return [.. _values.Zip(_upTo)];
    }

    /// <summary>A percentile and its interval.</summary>
    /// <param name="part">Which, above 0 and below 1.</param>
    internal PercentileRange Percentile(double part)
    {
        Sort();
        double t = Student95(_sessions.Count - 1);
        int at = Array.FindIndex(_upTo, share => share >= part - Rounding);
        at = at < 0 ? _values.Length - 1 : at;
        int low = at, high = at;
        while (low > 0 && _upTo[low - 1] + (t * ErrorAt(_values[low - 1])) >= part)
        {
            low--;
        }

        while (high + 1 < _values.Length && _upTo[high] - (t * ErrorAt(_values[high])) < part)
        {
            high++;
        }

        return new(_values[at], _values[low], _values[high]);
    }

    /// <summary>Share of all time in which no more than this flows.</summary>
    internal double UpTo(long microamperes) => _sessions.Average(session => session.At(microamperes));

    /// <summary>Standard error of <see cref="UpTo"/>; infinite with one session.</summary>
    internal double ErrorAt(long microamperes) => StandardError(session => session.At(microamperes));

    /// <summary>Student's t for 95 of 100 on both sides; infinite without a degree of freedom.</summary>
    internal static double Student95(int degrees)
    {
        const double x = Normal95, x3 = x * x * x, x5 = x3 * x * x, x7 = x5 * x * x;
        double v = degrees;
        return degrees < 1
            ? double.PositiveInfinity
            : x + ((x3 + x) / (4 * v)) + (((5 * x5) + (16 * x3) + (3 * x)) / (96 * v * v))
                + (((3 * x7) + (19 * x5) + (17 * x3) - (15 * x)) / (384 * v * v * v));
    }

    private double StandardError(Func<TimeShares, double> value)
    {
        int count = _sessions.Count;
        if (count < 2)
        {
            return double.PositiveInfinity;
        }

        double mean = _sessions.Average(value), squares = 0;
        foreach (TimeShares session in _sessions)
        {
            double off = value(session) - mean;
            squares += off * off;
        }

        return Math.Sqrt(squares / (count - 1) / count);
    }

    private void Sort()
    {
        if (_values.Length > 0)
        {
            return;
        }

        _values = [.. _share.Keys.Order()];
        _upTo = new double[_values.Length];
        double sum = 0;
        for (int i = 0; i < _values.Length; i++)
        {
            sum += _share[_values[i]];
            _upTo[i] = sum / _sessions.Count;
        }
    }
}
