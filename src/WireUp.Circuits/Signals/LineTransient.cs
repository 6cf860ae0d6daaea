namespace WireUp.Circuits.Signals;

/// <summary>A bus as a wave sees it, from a source that goes from one side to the other in a straight ramp to what hangs at its far end.</summary>
/// <param name="Ohms">Characteristic impedance, Ω.</param>
/// <param name="DelaySeconds">Time a wave takes from one end to the other, seconds.</param>
/// <param name="SourceOhms">Resistance of the source and half that of both wires, Ω.</param>
/// <param name="WireOhms">The other half of that of both wires, Ω.</param>
/// <param name="EdgeSeconds">Length of the ramp, seconds.</param>
internal readonly record struct Line(double Ohms, double DelaySeconds, double SourceOhms, double WireOhms, double EdgeSeconds)
{
    /// <summary>Resistance at the far end, Ω; infinite where there is none.</summary>
    internal double LoadOhms { get; init; } = double.PositiveInfinity;

    /// <summary>Capacitance at the far end, farad.</summary>
    internal double LoadFarads { get; init; }

    /// <summary>Resistor of a terminator at the far end, Ω; infinite where there is none.</summary>
    internal double TerminatorOhms { get; init; } = double.PositiveInfinity;

    /// <summary>Capacitor in series with it, farad.</summary>
    internal double TerminatorFarads { get; init; } = 1;

    /// <summary>
    /// Lowest frequency at which a line with a source of no resistance and this capacitance at its end rings: θ·tan θ is the line's
    /// capacitance over that at the end, θ = 2π·f·delay between 0 and π/2. θ·tan θ grows from 0 without limit, so halving finds it.
    /// </summary>
    internal double RingHertz
    {
        get
        {
            double ratio = LoadFarads > 0 ? DelaySeconds / Ohms / LoadFarads : double.PositiveInfinity;
            double low = 0, high = Math.PI / 2;
            for (int i = 0; i < 60; i++)
            {
                double middle = (low + high) / 2;
                (low, high) = middle * Math.Tan(middle) < ratio ? (middle, high) : (low, middle);
            }

            return low / (2 * Math.PI * DelaySeconds);
        }
    }
}

/// <summary>What the far end of a line does after an edge of height 1.</summary>
/// <param name="Final">Where it comes to rest, of the source's step.</param>
/// <param name="Peak">Highest value, of the source's step.</param>
/// <param name="SettledSeconds">From the start of the edge until it stays within a twentieth of the step around its final value; the whole time looked at where it does not settle.</param>
/// <param name="Crossings">Times of crossing the final value, seconds.</param>
internal sealed record Transient(double Final, double Peak, double SettledSeconds, IReadOnlyList<double> Crossings)
{
    /// <summary>Half a period after another, on average, over the first few; not a number where it does not ring.</summary>
    internal double RingHertz
    {
        get
        {
            int halves = Math.Min(8, Crossings.Count - 1);
            return halves < 2 ? double.NaN : halves / (2 * (Crossings[halves] - Crossings[0]));
        }
    }
}

/// <summary>
/// Follows the waves to and fro on a line (L. Bergeron 1949; H. W. Dommel 1969, authors and years from memory): either end sees the
/// wave that left the other one delay ago, twice its height behind the characteristic impedance. Exact for the line; capacitors by the
/// trapezoidal rule.
/// </summary>
internal static class LineTransient
{
    private const int StepsInDelay = 16;

    /// <summary>How far from its final value the end counts as settled, of the step.</summary>
    private const double Settled = 0.05;

    /// <summary>Follows one edge.</summary>
    /// <param name="line">The line; its delay is above 0.</param>
    /// <param name="forSeconds">How long.</param>
    internal static Transient Follow(in Line line, double forSeconds)
    {
        double step = line.DelaySeconds / StepsInDelay, final = FinalOf(line);
        double[] outgoing = new double[StepsInDelay], returning = new double[StepsInDelay];
        End end = new(line, step);
        double peak = 0, settled = 0, before = 0;
        List<double> crossings = [];
        int steps = (int)Math.Ceiling(forSeconds / step);
        for (int i = 1; i <= steps; i++)
        {
            int slot = i % StepsInDelay;
            (double arrived, double back) = (outgoing[slot], returning[slot]);
            double volts = end.Step(arrived);
            returning[slot] = end.Reflected;
            double source = line.EdgeSeconds > 0 ? Math.Min(1, i * step / line.EdgeSeconds) : 1;
            outgoing[slot] = (((source * line.Ohms) + (2 * back * line.SourceOhms)) / (line.Ohms + line.SourceOhms)) - back;
            peak = Math.Max(peak, volts);
            if ((before < final) != (volts < final))
            {
                crossings.Add(step * (i - 1 + ((final - before) / (volts - before))));
            }

            settled = Math.Abs(volts - final) > Settled ? i * step : settled;
            before = volts;
        }

        return new(final, peak, settled, crossings);
    }

    private static double FinalOf(in Line line) => double.IsInfinity(line.LoadOhms)
        ? 1
        : line.LoadOhms / (line.LoadOhms + line.SourceOhms + line.WireOhms);

    /// <summary>The far end: resistance, capacitance and terminator side by side.</summary>
    private sealed class End(in Line line, double step)
    {
        private readonly double _lineOhms = line.Ohms;
        private readonly double _siemens = 1 / (line.Ohms + line.WireOhms);
        private readonly double _capacitor = 2 * line.LoadFarads / step;
        private readonly double _terminator = 1 / (line.TerminatorOhms + (step / (2 * line.TerminatorFarads)));
        private readonly double _rise = step / (2 * line.TerminatorFarads);
        private readonly double _load = 1 / line.LoadOhms;
        private double _history;
        private double _kept;

        internal double Reflected { get; private set; }

        internal double Step(double arrived)
        {
            double volts = ((2 * arrived * _siemens) + _history + (_kept * _terminator)) / (_siemens + _load + _capacitor + _terminator);
            double terminator = (volts - _kept) * _terminator;
            _history = (2 * _capacitor * volts) - _history;
            _kept += 2 * _rise * terminator;
            Reflected = arrived - (_lineOhms * ((2 * arrived) - volts) * _siemens);
            return volts;
        }
    }
}
