using System.Collections.Immutable;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// The current of every district, every booster and the whole railway while a session runs, and for how long each value has lasted. A
/// series is a district's index; then come the boosters, then the whole.
/// </summary>
internal sealed class CurrentMeterWorkspace
{
    private readonly ImmutableArray<int> _boosterOf;
    private readonly long[] _now;
    private readonly double[] _since;
    private readonly Dictionary<long, double>[] _seconds;
    private readonly List<(double Seconds, long Microamperes)>[]? _trace;

    private int _moving;
    private double _movingSince, _movingSeconds;

    /// <param name="boosterOf">For each district the index of its booster.</param>
    /// <param name="boosters">How many boosters there are.</param>
    /// <param name="traced">Whether every change is kept.</param>
    internal CurrentMeterWorkspace(ImmutableArray<int> boosterOf, int boosters, bool traced)
    {
        _boosterOf = boosterOf;
        int count = boosterOf.Length + boosters + 1;
        (_now, _since) = (new long[count], new double[count]);
        _seconds = [.. Enumerable.Range(0, count).Select(_ => new Dictionary<long, double>())];
        _trace = traced ? [.. Enumerable.Range(0, count).Select(_ => new List<(double, long)> { (0, 0) })] : null;
    }

    /// <summary>Current of a series, microamperes.</summary>
    internal long Now(int series) => _now[series];

    /// <summary>Locomotives moving, mean over the time up to the last change or the end.</summary>
    internal double MeanMoving => _movingSeconds / _movingSince;

    /// <summary>So many locomotives more begin to move; fewer when negative.</summary>
    internal void Moves(int change, double now)
    {
        _movingSeconds += _moving * (now - _movingSince);
        _movingSince = now;
        _moving += change;
    }

    /// <summary>Reads what every consumer of a train draws where it is now.</summary>
    internal void Draw(TrainWorkspace train, Draws draws, double now)
    {
        if (train.IsDrawnAs(draws))
        {
            return;
        }

        for (int i = 0; i < train.Drawn.Length; i++)
        {
            int before = train.Districts[i], district = draws == Draws.Nothing ? before : train.DistrictUnder(i), amps = train.Unit.Consumers[i].At(draws);
            Change(before, (district == before ? amps : 0) - train.Drawn[i], now);
            Change(district, district == before ? 0 : amps, now);
            (train.Districts[i], train.Drawn[i]) = (district, amps);
        }
    }

    /// <summary>A district's current changes by this much, and its booster's and the whole with it.</summary>
    private void Change(int district, long microamperes, double now)
    {
        if (microamperes != 0)
        {
            Add(district, microamperes, now);
            Add(_boosterOf.Length + _boosterOf[district], microamperes, now);
            Add(_now.Length - 1, microamperes, now);
        }
    }

    /// <summary>Closes the session.</summary>
    internal ImmutableArray<TimeShares> Finish(double end)
    {
        Moves(0, end);
        for (int series = 0; series < _now.Length; series++)
        {
            Lasts(series, end);
        }

        return [.. _seconds.Select(TimeShares.Of)];
    }

    /// <summary>Every change of a series: from when which current flows.</summary>
    internal ImmutableArray<(double Seconds, long Microamperes)> Trace(int series) => _trace is null ? [] : [.. _trace[series]];

    private void Add(int series, long microamperes, double now)
    {
        Lasts(series, now);
        _now[series] += microamperes;
        if (_trace is not null)
        {
            List<(double Seconds, long Microamperes)> trace = _trace[series];
            if (trace[^1].Seconds == now)
            {
                trace.RemoveAt(trace.Count - 1);
            }

            trace.Add((now, _now[series]));
        }
    }

    private void Lasts(int series, double now)
    {
        if (now > _since[series])
        {
            System.Runtime.InteropServices.CollectionsMarshal.GetValueRefOrAddDefault(_seconds[series], _now[series], out _) += now - _since[series];
            _since[series] = now;
        }
    }
}
