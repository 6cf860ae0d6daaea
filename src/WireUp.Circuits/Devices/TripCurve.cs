using System.Collections.Immutable;

namespace WireUp.Circuits.Devices;

/// <summary>
/// How long a breaker or booster takes to open: points of current and time, straight lines between them where both axes are logarithmic.
/// Below the first point it never opens, beyond the last it takes the last one's time.
/// </summary>
public sealed class TripCurve
{
    private readonly ImmutableArray<(double Amps, double Seconds)> _points;

    /// <summary>A curve.</summary>
    /// <param name="points">Current in ampere, rising, and time in seconds, never rising; all above 0, at least one.</param>
    /// <exception cref="ArgumentException">There are none, a value is not above 0, or their order is another one.</exception>
    public TripCurve(params IEnumerable<(double Amps, double Seconds)> points)
    {
        _points = [.. points];
        if (_points.IsEmpty || _points.Any(point => !(point.Amps > 0) || !(point.Seconds > 0)))
        {
            throw new ArgumentException("a trip curve has a point at least, all currents and times above 0", nameof(points));
        }

        for (int i = 1; i < _points.Length; i++)
        {
            if (!(_points[i].Amps > _points[i - 1].Amps) || !(_points[i].Seconds <= _points[i - 1].Seconds))
            {
                throw new ArgumentException("currents of a trip curve rise from point to point, and times never do", nameof(points));
            }
        }
    }

    /// <summary>Opens after one time at every current from the trip current upward.</summary>
    /// <param name="tripAmps">Trip current, ampere.</param>
    /// <param name="seconds">That time, seconds.</param>
    public static TripCurve Flat(double tripAmps, double seconds) => new((tripAmps, seconds));

    /// <summary>Lowest current at which it opens at all, ampere.</summary>
    public double LeastAmps => _points[0].Amps;

    /// <summary>Currents at which the curve bends, ampere.</summary>
    public ImmutableArray<double> Bends => [.. _points.Select(point => point.Amps)];

    /// <summary>Time at a current, seconds; infinite where it never opens.</summary>
    /// <param name="amps">The current, ampere.</param>
    public double SecondsAt(double amps)
    {
        if (!(amps >= LeastAmps))
        {
            return double.PositiveInfinity;
        }

        int next = 0;
        while (next < _points.Length && _points[next].Amps <= amps)
        {
            next++;
        }

        if (next == _points.Length)
        {
            return _points[^1].Seconds;
        }

        ((double lowAmps, double lowSeconds), (double highAmps, double highSeconds)) = (_points[next - 1], _points[next]);
        double part = Math.Log(amps / lowAmps) / Math.Log(highAmps / lowAmps);
        return lowSeconds * Math.Pow(highSeconds / lowSeconds, part);
    }

    /// <summary>Lowest current from which it takes no longer than a time, ampere; infinite where it always takes longer.</summary>
    /// <param name="seconds">The time, seconds.</param>
    public double AmpsWithin(double seconds)
    {
        int index = 0;
        while (index < _points.Length && _points[index].Seconds > seconds)
        {
            index++;
        }

        if (index == 0 || index == _points.Length)
        {
            return index == 0 ? LeastAmps : double.PositiveInfinity;
        }

        ((double lowAmps, double lowSeconds), (double highAmps, double highSeconds)) = (_points[index - 1], _points[index]);
        double part = Math.Log(seconds / lowSeconds) / Math.Log(highSeconds / lowSeconds);
        return lowAmps * Math.Pow(highAmps / lowAmps, part);
    }
}
