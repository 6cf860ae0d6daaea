using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Signals;

/// <summary>What a district's bus does to the command signal at one of its ends.</summary>
/// <param name="End">The point where the bus ends.</param>
/// <param name="Length">Length of the pair from the booster.</param>
/// <param name="Inductance">Inductance of the loop.</param>
/// <param name="Resistance">Resistance of both wires, direct current.</param>
/// <param name="SignalResistance">Their resistance at the signal's frequency, all ones: skin effect added.</param>
public sealed record BusEnd(
    string End, Length Length, ElectricInductance Inductance, ElectricResistance Resistance, ElectricResistance SignalResistance)
{
    /// <summary>L/R with the district's whole design load at this end: how long the signal takes there to turn over.</summary>
    public required Duration LoadTime { get; init; }

    /// <summary>Most that <see cref="LoadTime"/> should be: a tenth of the shortest half bit.</summary>
    public required Duration AllowedTime { get; init; }

    /// <summary>How fast the volts go from −4 to +4 V at the slowest, behind that inductance.</summary>
    public required ElectricPotentialChangeRate Slew { get; init; }

    /// <summary>Least that a decoder must accept (NMRA S-9.1).</summary>
    public required ElectricPotentialChangeRate AllowedSlew { get; init; }

    /// <summary>L/R of a short at this end: how long its current takes to rise. Microseconds against the milliseconds of a breaker.</summary>
    public required Duration FaultRise { get; init; }

    /// <summary>What the inductance adds to the volts when a breaker interrupts that short: L·I over the time of the switch.</summary>
    public required ElectricPotential OpeningVolts { get; init; }

    /// <summary>Frequency at which the end rings after each edge.</summary>
    public required Frequency Ring { get; init; }

    /// <summary>Highest volts at the end with one decoder there and nothing that draws current.</summary>
    public required ElectricPotential Peak { get; init; }

    /// <summary>Time from an edge until the end stays within a twentieth of the step, then; 24 swings or a half bit where it takes longer.</summary>
    public required Duration Settles { get; init; }

    /// <summary>Volts that a decoder of the scale must survive (NMRA S-9.1).</summary>
    public required ElectricPotential Survives { get; init; }

    /// <summary>The terminator that would take the ringing out.</summary>
    public required Terminator Terminator { get; init; }

    /// <summary>Highest volts with that terminator.</summary>
    public required ElectricPotential PeakTerminated { get; init; }

    /// <summary>Whether the signal turns over in the time it has.</summary>
    public bool IsFastEnough => LoadTime <= AllowedTime && Slew >= AllowedSlew;

    /// <summary>Whether ringing stays below what decoders must survive.</summary>
    public bool IsCalm => Peak <= Survives;
}

/// <summary>Works out <see cref="BusEnd"/>s.</summary>
internal static class BusEnds
{
    /// <summary>How many swings of the ringing are followed: bare, and with a terminator, where the highest is among the first.</summary>
    private const int Swings = 24, SwingsTerminated = 6;

    /// <summary>The ends of a district's bus, the farthest first.</summary>
    internal static IEnumerable<BusEnd> Of(Layout layout, District district, Booster booster, double designAmps) =>
        from way in BusWays.Of(layout, district)
        where way.IsEnd && way.Metres > 0
        orderby way.Henries descending
        select Of(layout, district, booster, designAmps, way);

    private static BusEnd Of(Layout layout, District district, Booster booster, double designAmps, BusWay way)
    {
        double volts = booster.Volts.Volts, sourceOhms = booster.Resistance.Ohms + district.Resistance.Ohms;
        double halfBit = Constants.Get("half-bit-shortest").Value * 1e-6;
        double faultOhms = sourceOhms + way.Ohms + layout.Defaults.Coin.Ohms;
        double loadSeconds = way.Henries * designAmps / volts;
        double crossing = Math.Max(0, volts - Constants.Get("signal-slew-from-zero").Value);

        Line line = LineOf(layout, way, sourceOhms);
        Transient bare = LineTransient.Follow(line, line.EdgeSeconds + Math.Min(halfBit, Swings / line.RingHertz));
        Terminator terminator = Terminator.For(line.Ohms, line.RingHertz, volts);
        Transient calmed = LineTransient.Follow(
            line with { TerminatorOhms = terminator.Resistor.Ohms, TerminatorFarads = terminator.Capacitor.Farads },
            line.EdgeSeconds + (SwingsTerminated / line.RingHertz));

        return new(
            way.Point,
            Length.FromMeters(way.Metres),
            ElectricInductance.FromHenries(way.Henries),
            ElectricResistance.FromOhms(way.Ohms),
            ElectricResistance.FromOhms(way.Ohms + way.WireOhmsAt(1 / (2 * halfBit), layout.Defaults.Temperature) - way.WireOhmsAt(0, layout.Defaults.Temperature)))
        {
            LoadTime = Duration.FromSeconds(loadSeconds),
            AllowedTime = Duration.FromSeconds(halfBit * Constants.Get("signal-part-of-half-bit").Value),
            Slew = ElectricPotentialChangeRate.FromVoltsPerSeconds(loadSeconds > 0 ? Math.Min(1e12, crossing / loadSeconds) : 1e12),
            AllowedSlew = ElectricPotentialChangeRate.FromVoltsPerMicroseconds(Constants.Get("signal-slew-accepted").Value),
            FaultRise = Duration.FromSeconds(way.Henries / faultOhms),
            OpeningVolts = ElectricPotential.FromVolts(way.Henries * volts / faultOhms / (Constants.Get("breaker-opening-time").Value * 1e-6)),
            Ring = Frequency.FromHertz(line.RingHertz),
            Peak = ElectricPotential.FromVolts(volts * ((2 * bare.Peak) - 1)),
            Settles = Duration.FromSeconds(bare.SettledSeconds),
            Survives = ElectricPotential.FromVolts(Survives(layout)),
            Terminator = terminator,
            PeakTerminated = ElectricPotential.FromVolts(volts * ((2 * calmed.Peak) - 1)),
        };
    }

    /// <summary>Runs of unlike wire count as one line of their inductance and capacitance together; one decoder's capacitance at the end.</summary>
    private static Line LineOf(Layout layout, BusWay way, double sourceOhms)
    {
        Line line = new(
            Math.Sqrt(way.FastHenries / way.Farads), Math.Sqrt(way.FastHenries * way.Farads), 0, 0, 0)
        {
            LoadFarads = Constants.Get("decoder-capacitance").Value * 1e-9,
        };
        double half = way.WireOhmsAt(line.RingHertz, layout.Defaults.Temperature) / 2;
        return line with { SourceOhms = sourceOhms + half, WireOhms = half, EdgeSeconds = WorstEdge(line.RingHertz) };
    }

    /// <summary>
    /// The usual edge, or a longer one that strikes the ringing harder: a ramp of a whole number of its periods would not strike it at all,
    /// and no booster keeps to that. A ramp of x periods excites |sin πx|/πx of what a sharp edge does.
    /// </summary>
    private static double WorstEdge(double ringHertz)
    {
        double periods = Constants.Get("signal-edge").Value * 1e-6 * ringHertz, next = Math.Ceiling(periods - 0.5) + 0.5;
        double here = Math.Abs(Math.Sin(Math.PI * periods)) / periods;
        return (here < 1 / next ? next : periods) / ringHertz;
    }

    private static double Survives(Layout layout) =>
        ScaleTable.FindOrUsual(layout.Scale).Ratio >= ScaleTable.Get("N").Ratio
            ? Constants.Get("decoder-withstand-small").Value
            : Constants.Get("decoder-withstand").Value;
}
