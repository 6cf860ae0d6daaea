using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Signals;
using WireUp.Layouts;

namespace WireUp.Circuits.Devices;

/// <summary>What protective devices do in time, and what the signal finds on the bus.</summary>
/// <param name="Districts">One entry for every solved district, in the order of the report on power.</param>
/// <param name="Boosters">Under command control, what each booster that feeds such a district does when power comes back to all of them at once.</param>
public sealed record ProtectionReport(ImmutableArray<DistrictProtection> Districts, ImmutableArray<BoosterRestart> Boosters)
{
    /// <summary>Under command control, what skin effect does to every kind of rail in the layout; the layout's usual rail first.</summary>
    public ImmutableArray<RailAtSignal> Rails { get; init; } = [];
}

/// <summary>A rail at the frequency of the command signal, all ones.</summary>
/// <param name="Rail">The rail.</param>
/// <param name="ResistanceRatio">Its resistance over that at direct current; an estimate, see <see cref="SkinEffect.OfRail"/>.</param>
public sealed record RailAtSignal(RailMaterial Rail, double ResistanceRatio);

/// <summary>One district's breaker in time.</summary>
/// <param name="District">The district.</param>
/// <param name="Booster">Its booster.</param>
public sealed record DistrictProtection(string District, string Booster)
{
    /// <summary>Current of a coin at the worst place.</summary>
    public required ElectricCurrent LeastFault { get; init; }

    /// <summary>Current of a coin right behind the breaker: the largest that a short can draw.</summary>
    public required ElectricCurrent MostFault { get; init; }

    /// <summary>Time until the breaker clears a coin at the worst place, or null where it never does.</summary>
    public required Duration? Clears { get; init; }

    /// <summary>Currents at which its booster is not sure to wait for it, or null where there are none; none either where it is the booster's only district.</summary>
    public BoosterFirst? BoosterFirst { get; init; }

    /// <summary>Every run of bus and every feeder, in the order of the layout, with what a short does to it.</summary>
    public required ImmutableArray<WireStress> Wires { get; init; }

    /// <summary>What happens when its breaker closes again; null where trains are not under command control.</summary>
    public RestartVerdict? Restart { get; init; }

    /// <summary>The ends of its bus, the farthest first; none where trains are not under command control.</summary>
    public ImmutableArray<BusEnd> Ends { get; init; } = [];
}

/// <summary>Currents of a short at which a booster is not sure to wait for a breaker.</summary>
/// <param name="From">The lowest.</param>
/// <param name="To">The highest.</param>
/// <param name="BreakerTime">What the breaker takes at the lowest of them.</param>
/// <param name="BoosterTime">What the booster takes then.</param>
/// <param name="IsCertain">True where the breaker takes as long as the booster or longer, false where it takes more than half as long.</param>
public sealed record BoosterFirst(ElectricCurrent From, ElectricCurrent To, Duration BreakerTime, Duration BoosterTime, bool IsCertain);

/// <summary>What a short does to one wire until the breaker opens.</summary>
/// <param name="Name">The feeder, or the run of bus as <c>P1 &gt; P2</c>.</param>
/// <param name="IsFeeder">Whether it is a feeder.</param>
/// <param name="Wire">The wire.</param>
/// <param name="Current">The current that is worst for it.</param>
/// <param name="Clears">Time until the breaker opens at that current.</param>
/// <param name="Allowed">Time until the wire is at its short-time limit at that current.</param>
public sealed record WireStress(string Name, bool IsFeeder, Wire Wire, ElectricCurrent Current, Duration Clears, Duration Allowed)
{
    /// <summary>Whether the breaker opens in time.</summary>
    public bool Passes => Clears <= Allowed;
}

/// <summary>Whether a breaker or booster stays closed when power comes back.</summary>
/// <param name="Expected">Locomotives reckoned to stand behind it: its share of all by length of track, at least one.</param>
/// <param name="Most">How many can stand there, those that draw most taken first.</param>
/// <param name="IsMostOpen">True where more than <paramref name="Most"/> were not tried.</param>
/// <param name="First">Current at the first moment, of the expected ones.</param>
/// <param name="OpensAfter">When it opens again with the expected ones behind it, or null where it stays closed.</param>
/// <param name="TrainThatCannot">A train that alone makes it open again, or null.</param>
public sealed record RestartVerdict(
    int Expected, int Most, bool IsMostOpen, ElectricCurrent First, Duration? OpensAfter, string? TrainThatCannot);

/// <summary>A booster when power comes back to all its districts at once.</summary>
/// <param name="Booster">The booster.</param>
/// <param name="Restart">What it does.</param>
public sealed record BoosterRestart(string Booster, RestartVerdict Restart);
