using WireUp.Faults.Network;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>What a reading shows and how well it fits what it ought to show.</summary>
/// <param name="Source">The reading.</param>
/// <param name="Probe">Its probe.</param>
/// <param name="Measured">Volt, ampere or ohm; of words the middle of the band.</param>
/// <param name="Sigma">Standard deviation of the meter and of what healthy parts vary by.</param>
/// <param name="Range">Range over which a misread value may lie.</param>
internal sealed record SessionReading(MeterReading Source, Probe Probe, double Measured, double Sigma, double Range)
{
    private static readonly double Misread = Constants.Get("reading-misread").Value;
    private static readonly double BreakerMisread = Constants.Get("breaker-misread").Value;
    private static readonly double SourceSpread = Constants.Get("source-spread").Value;
    private static readonly double FaultSpread = Constants.Get("fault-drop-spread").Value;

    /// <summary>Full volts, trip current: what words are measured against.</summary>
    internal double Full { get; init; } = 1;

    /// <summary>Whether metal joins the points of the reading while all is well, so that a meter shows something definite.</summary>
    internal bool IsDefinite { get; init; } = true;

    /// <summary>Whether it is a number that rises and falls with the boosters' volts.</summary>
    internal bool IsPowered => Source is MeterReading.Volts or MeterReading.VoltsAlong or MeterReading.Amps;

    /// <summary>What the meter ought to show; without sign.</summary>
    internal double Shown(double predicted) => Source is MeterReading.Ohms or MeterReading.Continuity
        ? Math.Abs(predicted) + Meter.LeadOhms
        : Math.Abs(predicted);

    /// <summary>Standard deviation of the reading when a fault changes it: 3 % of a change from nothing, less of one that leaves little.</summary>
    internal double SigmaFor(double predicted)
    {
        double now = Math.Abs(predicted), healthy = Math.Abs(Probe.Healthy);
        double change = FaultSpread * (now - healthy) * now / Math.Max(Math.Max(now, healthy), 1e-12);
        return Math.Sqrt((Sigma * Sigma) + (change * change));
    }

    /// <summary>How far the meter itself may be off at what it shows; what is measured may not be known yet.</summary>
    internal double OffAt(double shown) => Source switch
    {
        MeterReading.Ohms or MeterReading.Continuity => Meter.OhmsOff(MeterAccuracy.Usual, shown),
        MeterReading.Amps => Meter.AmpsOff(MeterAccuracy.Usual, shown),
        _ => Math.Sqrt(Math.Pow(Meter.VoltsOff(MeterAccuracy.Usual, shown, Source.Supply is not null), 2) + Math.Pow(SourceSpread * shown, 2)),
    };

    /// <summary>By how many standard deviations it is off.</summary>
    internal double Sigmas(double predicted, double scale) => Words(predicted) is { } chance
        ? Math.Sqrt(-2 * Math.Log(Math.Max(chance, 1e-300)))
        : (Measured - (scale * Shown(predicted))) / SigmaFor(predicted);

    /// <summary>Logarithm of its likelihood; a small part of all readings is misread and may show anything.</summary>
    internal double LogLikelihood(double predicted, double scale)
    {
        if (Words(predicted) is { } chance)
        {
            return LogOfWords(chance);
        }

        double sigma = SigmaFor(predicted);
        return LogOfNumber((Measured - (scale * Shown(predicted))) / sigma, sigma);
    }

    /// <summary>The most that it can be where what it ought to show lies between two values.</summary>
    /// <param name="least">The lower one.</param>
    /// <param name="most">The higher one.</param>
    /// <param name="sharing">
    /// Readings that share what the boosters are off by: each may take that part of the odds against it, by which they all are as likely as at any one factor.
    /// </param>
    internal double LogAtMost(double least, double most, int sharing)
    {
        double low = least > 0 || most < 0 ? Math.Min(Math.Abs(least), Math.Abs(most)) : 0, high = Math.Max(Math.Abs(least), Math.Abs(most));
        double Between(double value) => Math.Clamp(value, low, high);
        if (Words(low) is { } atLow)
        {
            double middle = Source is MeterReading.Running running ? Edges.Middle(running.State) * Full : low;
            return LogOfWords(Math.Max(Math.Max(atLow, Words(high)!.Value), Words(Between(middle))!.Value));
        }

        double off = Measured - Math.Clamp(Measured, Shown(low), Shown(high)), healthy = Math.Abs(Probe.Healthy);
        double sigma = Math.Max(Math.Max(SigmaFor(low), SigmaFor(high)), SigmaFor(Between(healthy / 2)));
        double source = IsPowered ? SourceSpread * high : 0;
        return LogOfNumber(off / Math.Sqrt((sigma * sigma) + (sharing * source * source)), Sigma);
    }

    private double LogOfWords(double chance)
    {
        double misread = Source is MeterReading.Breaker ? BreakerMisread : Misread;
        return Math.Log(((1 - misread) * chance) + (misread / 4));
    }

    private double LogOfNumber(double off, double sigma) =>
        Math.Log(((1 - Misread) * Math.Exp(-off * off / 2) / (sigma * 2.5066282746310002)) + (Misread / Range));

    /// <summary>The same where the cause is nothing that the model holds: anything may be read.</summary>
    internal double LogLikelihoodOfAnything => IsWords ? Math.Log(0.25) : -Math.Log(Range);

    private bool IsWords => Words(Probe.Healthy) is not null;

    /// <summary>Probability of what was read in words, or null where it is a number.</summary>
    private double? Words(double predicted) => Source switch
    {
        MeterReading.Running running => Edges.Running(running.State, Math.Abs(predicted) / Full),
        MeterReading.Breaker breaker => Chance(breaker.Trips, Edges.Trips(predicted, Full)),
        MeterReading.Continuity continuity => Chance(continuity.Conducts, Edges.Sounds(Shown(predicted))),
        MeterReading.Ohms when Measured >= Meter.MostOhms => Edges.ShowsOpen(Shown(predicted)),
        _ => null,
    };

    private static double Chance(bool happened, double chance) => happened ? chance : 1 - chance;
}
