using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Runs sessions side by side in batches, and looks after each batch whether they are enough. Sessions are put together in the order of
/// their numbers, so that neither threads nor their order show in the result.
/// </summary>
internal sealed class SessionBatchesWorkspace(SessionRailway railway, SessionOptions options)
{
    private const double MicroamperesPerAmpere = 1e6;

    private static readonly ImmutableArray<double> Parts = [0.5, 0.95, 0.99];

    private readonly PooledCurrentWorkspace[] _series =
        [.. Enumerable.Range(0, railway.BoosterOf.Length + railway.Boosters.Length + 1).Select(_ => new PooledCurrentWorkspace())];

    private readonly List<SessionOutcome> _done = [];
    private CurrentMeterWorkspace? _first;

    internal SessionAnswer Run(IProgress<SessionProgress>? progress, CancellationToken cancellation)
    {
        int batch = options.LeastSessions;
        bool stopped = false;
        do
        {
            stopped = !Batch(Math.Min(batch, options.MostSessions - _done.Count), cancellation);
            progress?.Report(new(_done.Count, options.MostSessions));
            batch = Math.Max(options.LeastSessions, _done.Count / 4);
        }
        while (!stopped && _done.Count < options.MostSessions && !IsSure);

        return _done.Count == 0
            ? new SessionAnswer.NothingToRun("It was stopped before the first session was done.")
            : new SessionAnswer.Simulated(Report(stopped));
    }

    private bool IsSure => _done.Count > 1 && Enumerable.Range(0, _series.Length).All(series => IsSureOf(_series[series]));

    private bool IsSureOf(PooledCurrentWorkspace series)
    {
        PercentileRange range = series.Percentile(Parts[^1]);
        double error = ErrorMicroamperes(range);
        return error <= Math.Max(options.ToleratedPart.DecimalFractions * range.Value, options.ToleratedError.Amperes * MicroamperesPerAmpere);
    }

    /// <summary>False when it was stopped; then the sessions done without a hole in their numbers are kept.</summary>
    private bool Batch(int count, CancellationToken cancellation)
    {
        int from = _done.Count;
        SessionOutcome?[] outcomes = new SessionOutcome?[count];
        Parallel.For(0, count, new ParallelOptions { MaxDegreeOfParallelism = options.Threads }, i =>
        {
            if (!cancellation.IsCancellationRequested)
            {
                SessionWorkspace session = new(railway, options.Seed, from + i, options.Length.Seconds, traced: from + i == 0);
                outcomes[i] = session.Run();
                _first = from + i == 0 ? session.Meter : _first;
            }
        });
        foreach (SessionOutcome outcome in outcomes.TakeWhile(outcome => outcome is not null).Select(outcome => outcome!))
        {
            _done.Add(outcome);
            for (int series = 0; series < _series.Length; series++)
            {
                _series[series].Add(outcome.Shares[series]);
            }
        }

        return _done.Count == from + count;
    }

    private SessionReport Report(bool stopped)
    {
        ImmutableArray<District> districts = railway.Feeds.Districts;
        double[] metres = Metres();
        IEnumerable<int> used = Enumerable.Range(0, districts.Length).Where(d => metres[d] > 0);
        IEnumerable<int> boosters = Enumerable.Range(0, railway.Boosters.Length).Where(b => used.Any(d => railway.BoosterOf[d] == b));
        return new()
        {
            Options = options,
            Sessions = _done.Count,
            IsSure = IsSure,
            WasStopped = stopped,
            Districts = [.. used.Select(d => Current(d, districts[d].Name, metres[d]))],
            Boosters = [.. boosters.Select(b => Current(districts.Length + b, railway.Boosters[b], used.Where(d => railway.BoosterOf[d] == b).Sum(d => metres[d])))],
            Railway = Current(_series.Length - 1, railway.Name, metres.Sum()),
            Traffic = new(
                _done.Average(session => session.Trips),
                _done.Average(session => session.Waits),
                _done.Average(session => session.OtherWays),
                _done.Average(session => session.Lifted),
                _done.Average(session => session.MeanMoving),
                railway.Stock.MovingAtOnce)
            {
                Units = railway.Stock.Units.Length,
                NotMadeUp = railway.Stock.NotMadeUp,
                LeftOver = [.. _done.SelectMany(session => session.LeftOver).Distinct().Order(StringComparer.Ordinal)],
                IsAssumed = railway.Stock.IsAssumed,
            },
        };
    }

    /// <summary>For each district the length of its plain track.</summary>
    private double[] Metres()
    {
        double[] metres = new double[railway.BoosterOf.Length];
        foreach (int leg in railway.Track.Lines.SelectMany(line => railway.Track.Stretches[line].Legs))
        {
            metres[railway.Track.Legs[leg].District] += railway.Track.Legs[leg].Metres;
        }

        return metres;
    }

    private SessionCurrent Current(int series, string name, double metres)
    {
        PooledCurrentWorkspace pooled = _series[series];
        return new(
            name,
            Length.FromMeters(metres),
            Amps(pooled.MeanMicroamperes),
            Amps(pooled.MeanErrorMicroamperes),
            [.. Parts.Select(part => Percentile(part, pooled.Percentile(part)))],
            Amps(pooled.Largest))
        {
            Shares = [.. pooled.Shares().Select(share => new CurrentShare(Amps(share.Microamperes), Ratio.FromDecimalFractions(share.UpTo)))],
            FirstSession = [.. (_first?.Trace(series) ?? []).Select(step => new CurrentStep(Duration.FromSeconds(step.Seconds), Amps(step.Microamperes)))],
        };
    }

    private static CurrentPercentile Percentile(double part, PercentileRange range) => new(
        Ratio.FromDecimalFractions(part), Amps(range.Value), Amps(range.Low), Amps(range.High), Amps(ErrorMicroamperes(range)));

    private static double ErrorMicroamperes(PercentileRange range) => (range.High - range.Low) / (2 * PooledCurrentWorkspace.Normal95);

    private static ElectricCurrent Amps(double microamperes) => ElectricCurrent.FromAmperes(microamperes / MicroamperesPerAmpere);
}
