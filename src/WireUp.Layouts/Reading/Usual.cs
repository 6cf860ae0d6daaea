using UnitsNet;

namespace WireUp.Layouts.Reading;

/// <summary>What holds where a file says nothing, in the base units of the reader.</summary>
internal static class Usual
{
    /// <summary>Common practice, no published source: at most 5 % of the volts are lost on the way to the wheels.</summary>
    public static Ratio MaxDrop { get; } = Ratio.FromPercent(5);

    /// <summary>Common practice, no published source: a feeder within a metre.</summary>
    public static Length MaxFeederDistance { get; } = Length.FromMeters(1);

    /// <summary>Gauges where people are told lengths in feet, else cross-sections. Common practice, no published source.</summary>
    public static WireSystem WireSizes(LengthStyle lengths) => lengths == LengthStyle.Feet ? WireSystem.Awg : WireSystem.Metric;

    /// <summary>A length in metres, so that equal lengths are equal values.</summary>
    public static Length Of(Length length) => Length.FromMeters(length.Millimeters / 1000);

    /// <summary>A current in amperes.</summary>
    public static ElectricCurrent Of(ElectricCurrent current) => ElectricCurrent.FromAmperes(current.Amperes);

    /// <summary>A resistance in ohms.</summary>
    public static ElectricResistance Of(ElectricResistance resistance) => ElectricResistance.FromOhms(resistance.Ohms);
}
