using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts;

/// <summary>What is wired, as built or as proposed.</summary>
public sealed record Wiring
{
    /// <summary>No wiring at all.</summary>
    public static readonly Wiring None = new();

    /// <summary>Low-voltage supplies that feed boosters.</summary>
    public ImmutableArray<Supply> Supplies { get; init; } = [];

    /// <summary>Boosters, or for direct and three-rail layouts the controllers.</summary>
    public ImmutableArray<Booster> Boosters { get; init; } = [];

    /// <summary>Power districts.</summary>
    public ImmutableArray<District> Districts { get; init; } = [];

    /// <summary>Runs of bus, by district.</summary>
    public ImmutableArray<Bus> Buses { get; init; } = [];

    /// <summary>Feeders.</summary>
    public ImmutableArray<Feeder> Feeders { get; init; } = [];

    /// <summary>Gaps.</summary>
    public ImmutableArray<Gap> Gaps { get; init; } = [];

    /// <summary>Hand switches: cab selectors, isolating and reversing switches.</summary>
    public ImmutableArray<Switch> Switches { get; init; } = [];
}

/// <summary>A hand switch on the panel. No piece of track has its name.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Positions">Its positions, two or more; it stands in the first one unless told otherwise.</param>
public sealed record Switch(PieceId Name, ImmutableArray<string> Positions);

/// <summary>A position of a switch, turnout or other piece that moves.</summary>
/// <param name="Owner">The switch or piece.</param>
/// <param name="Position">The position.</param>
public readonly record struct Setting(PieceId Owner, string Position)
{
    /// <summary>As written in the layout file: <c>T1.diverging</c>.</summary>
    public override string ToString() => $"{Owner}.{Position}";
}

/// <summary>A supply: a ready-made, enclosed unit with a low-voltage output.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Output">Output voltage.</param>
/// <param name="Alternating">True for an AC output.</param>
/// <param name="Rating">Rated output power (VA for AC).</param>
/// <param name="Class">Whether its output is energy-limited.</param>
public sealed record Supply(string Name, ElectricPotential Output, bool Alternating, Power Rating, SupplyClass Class);

/// <summary>Whether a supply limits the energy it can put into a fault.</summary>
public enum SupplyClass
{
    /// <summary>Energy-limited (Class 2, limited power source).</summary>
    Limited,

    /// <summary>Any other.</summary>
    Other,
}

/// <summary>A source of track power.</summary>
/// <param name="Name">Its name; the buses of its districts start at a point of this name.</param>
/// <param name="Volts">Open-circuit track voltage (rms for AC, amplitude for a square wave).</param>
/// <param name="Amps">Rated current, at which it shuts down.</param>
/// <param name="Resistance">Output resistance, shared by its districts.</param>
public sealed record Booster(string Name, ElectricPotential Volts, ElectricCurrent Amps, ElectricResistance Resistance)
{
    /// <summary>How long it goes on above its rated current before it shuts down.</summary>
    public Duration Delay { get; init; } = DeviceTable.BoosterDelay;

    /// <summary>The supply it runs from, or null when not stated.</summary>
    public string? Supply { get; init; }

    /// <summary>Where it stands on the plan, or null when not stated.</summary>
    public PlanPoint? At { get; init; }

    /// <summary>Of a cab or an alternating controller: whether neither side of its output is joined to that of any other.</summary>
    public bool Isolated { get; init; } = true;

    /// <summary>Of alternating or digital track power: whether its output is turned against the others, as when its mains or track leads are exchanged.</summary>
    public bool PhaseTurned { get; init; }

    /// <summary>The place of the track it stands beside, or null when not stated.</summary>
    public TrackPlace? Beside { get; init; }
}

/// <summary>The track fed through one protective device.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Booster">The booster that feeds it.</param>
/// <param name="Trip">Current at which its breaker trips.</param>
/// <param name="Resistance">Resistance of breaker and its connections.</param>
public sealed record District(string Name, string Booster, ElectricCurrent Trip, ElectricResistance Resistance)
{
    /// <summary>Whether the device swaps polarity under a train (an auto-reverser).</summary>
    public bool Reversing { get; init; }

    /// <summary>What its power is for.</summary>
    public DistrictUse Use { get; init; } = DistrictUse.Running;

    /// <summary>How long its breaker lets a current of <see cref="Trip"/> or more flow before it opens; where <see cref="Curve"/> says more, that counts.</summary>
    public Duration Delay { get; init; } = DeviceTable.BreakerDelay;

    /// <summary>How long after opening its breaker closes again by itself.</summary>
    public Duration Reclose { get; init; } = DeviceTable.BreakerReclose;

    /// <summary>
    /// Currents, ascending, each with the time it takes the breaker to open at it, not longer than that of the one before; below the first
    /// it never opens. Empty where it opens after <see cref="Delay"/> at every current from <see cref="Trip"/> up.
    /// </summary>
    public ImmutableArray<TripPoint> Curve { get; init; } = [];

    /// <summary>Lowest current at which its breaker is sure to open at all: <see cref="Trip"/>, or the first of its <see cref="Curve"/> where that is more.</summary>
    public ElectricCurrent OpensFrom => Curve.IsEmpty || Curve[0].Current < Trip ? Trip : Curve[0].Current;
}

/// <summary>A point of a breaker's trip curve.</summary>
/// <param name="Current">Current through it.</param>
/// <param name="Time">Time until it opens at that current.</param>
public readonly record struct TripPoint(ElectricCurrent Current, Duration Time);

/// <summary>What a district's power is for.</summary>
public enum DistrictUse
{
    /// <summary>Trains.</summary>
    Running,

    /// <summary>Setting up decoders on a track of its own, which nothing may join to a running district.</summary>
    Programming,

    /// <summary>Accessories, which never shares a rail with trains.</summary>
    Accessories,
}

/// <summary>The pair of wires that carries one district's power along the benchwork.</summary>
/// <param name="District">The district.</param>
/// <param name="Runs">Its lengths; the first points are reached from the booster.</param>
public sealed record Bus(string District, ImmutableArray<BusRun> Runs)
{
    /// <summary>Distance of the two wires from middle to middle, or null where they lie together in their insulation.</summary>
    public Length? Spacing { get; init; }
}

/// <summary>One length of bus pair between two points.</summary>
/// <param name="From">Point nearer the booster: a tap, or the booster's name.</param>
/// <param name="To">The other point.</param>
/// <param name="Length">Length of the pair; each of the two wires is this long.</param>
/// <param name="Wire">The wire.</param>
public sealed record BusRun(string From, string To, Length Length, Wire Wire)
{
    /// <summary>How many connectors, as between modules, each of its two wires goes through.</summary>
    public int Connectors { get; init; }
}

/// <summary>The thin pair from a bus point to the rails.</summary>
/// <param name="Name">Its name.</param>
/// <param name="At">The place of the rails it is soldered to.</param>
/// <param name="District">The district whose bus it taps.</param>
/// <param name="Tap">The bus point it taps.</param>
/// <param name="Wire">The wire.</param>
/// <param name="Length">Length of each of the two wires.</param>
public sealed record Feeder(string Name, TrackPlace At, string District, string Tap, Wire Wire, Length Length)
{
    /// <summary>False: leg A to the section's left rail (centre rail). True: leg A to the right (running) rail.</summary>
    public bool Swap { get; init; }

    /// <summary>The switch or turnout position in which it conducts, or null when it always does.</summary>
    public Setting? When { get; init; }
}

/// <summary>How sizes of wire are named.</summary>
public enum WireSystem
{
    /// <summary>Cross-sections in mm² after IEC 60228.</summary>
    Metric,

    /// <summary>American wire gauge.</summary>
    Awg,
}

/// <summary>A wire by its published size.</summary>
public abstract record Wire
{
    private Wire()
    {
    }

    /// <summary>American wire gauge, solid copper by the diameter law unless it is stranded.</summary>
    /// <param name="Gauge">Gauge number; 0000 is −3. From −3 to 40.</param>
    public sealed record Awg(int Gauge) : Wire
    {
        /// <summary>Whether it is made of strands, which lie round each other and so are a little longer than the wire.</summary>
        public bool Stranded { get; init; }

        /// <summary>As written in the layout file: <c>12 AWG</c>, <c>2/0 AWG</c>, <c>14 AWG stranded</c>.</summary>
        public override string ToString() => (Gauge < 0
            ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{1 - Gauge}/0 AWG")
            : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Gauge} AWG")) + (Stranded ? " stranded" : "");
    }

    /// <summary>A metric cross-section by IEC 60228: flexible (class 5) unless it is solid (class 1).</summary>
    /// <param name="SquareMillimetres">Nominal cross-section, from 0.05 to 120 mm².</param>
    public sealed record Metric(double SquareMillimetres) : Wire
    {
        /// <summary>Whether it is one solid conductor.</summary>
        public bool Solid { get; init; }

        /// <summary>As written in the layout file: <c>2.5 mm2</c>, <c>1.5 mm2 solid</c>.</summary>
        public override string ToString() =>
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{SquareMillimetres} mm2") + (Solid ? " solid" : "");
    }
}
