using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts;

/// <summary>What somebody measured and saw while looking for one fault. It never changes the layout.</summary>
public sealed record ReadingSet
{
    /// <summary>Nothing was measured.</summary>
    public static readonly ReadingSet None = new();

    /// <summary>Name of the layout file it belongs to, or null where it does not say.</summary>
    public string? LayoutFile { get; init; }

    /// <summary>The day, as the person gave it.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>How good the meter is.</summary>
    public MeterAccuracy Meter { get; init; } = MeterAccuracy.Usual;

    /// <summary>What is on hand for further readings.</summary>
    public ReadingTools Tools { get; init; } = ReadingTools.Usual;

    /// <summary>What the load on hand draws.</summary>
    public ElectricCurrent LoadBox { get; init; } = ElectricCurrent.FromAmperes(Constants.Get("test-load").Value);

    /// <summary>Every reading, in the order of the file.</summary>
    public ImmutableArray<MeterReading> Readings { get; init; } = [];
}

/// <summary>How far a meter may be out, as a part of what it shows; its last digit comes on top.</summary>
/// <param name="Volts">On its volt ranges.</param>
/// <param name="Ohms">On its ohm ranges.</param>
/// <param name="Amps">On its ampere ranges, or of the clamp.</param>
public sealed record MeterAccuracy(Ratio Volts, Ratio Ohms, Ratio Amps)
{
    /// <summary>An ordinary pocket meter.</summary>
    public static MeterAccuracy Usual { get; } = new(Part("meter-volts-accuracy"), Part("meter-ohms-accuracy"), Part("meter-amps-accuracy"));

    private static Ratio Part(string name) => Ratio.FromPercent(100 * Constants.Get(name).Value);
}

/// <summary>What a person has on hand to measure with.</summary>
[Flags]
public enum ReadingTools
{
    /// <summary>Eyes, and a locomotive to try the track with.</summary>
    None = 0,

    /// <summary>A meter for volts.</summary>
    Volts = 1,

    /// <summary>A meter for ohms and continuity, power off.</summary>
    Ohms = 2,

    /// <summary>A load to put across the rails: a lamp, a resistor, a load box.</summary>
    Load = 4,

    /// <summary>A clamp that reads the current of one wire.</summary>
    Clamp = 8,

    /// <summary>A supply whose current is limited, to stand in for the booster.</summary>
    Supply = 16,

    /// <summary>An ordinary meter and a load.</summary>
    Usual = Volts | Ohms | Load,
}

/// <summary>A supply with limited current that stands in for a booster during a reading.</summary>
/// <param name="Booster">The booster whose output leads it feeds; the booster itself is disconnected.</param>
/// <param name="Volts">Its volts without load.</param>
/// <param name="Amps">The current it gives at most.</param>
public sealed record LimitedSupply(string Booster, ElectricPotential Volts, ElectricCurrent Amps);

/// <summary>A load that stands across the track during a reading; nothing else draws current then.</summary>
/// <param name="At">Where.</param>
/// <param name="Amps">What it draws at the full volts of the track, as a lamp or a resistor is rated; at fewer volts it draws less.</param>
public sealed record ReadingLoad(ReadingPlace At, ElectricCurrent Amps)
{
    /// <summary>Its resistance where that is known, or null: then the full volts of the track over <see cref="Amps"/>.</summary>
    public ElectricResistance? Resistance { get; init; }
}
