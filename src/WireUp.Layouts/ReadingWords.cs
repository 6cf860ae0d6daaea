using System.Globalization;
using UnitsNet;
using WireUp.Layouts.Reading;

namespace WireUp.Layouts;

/// <summary>Readings in a few words, in the units a meter shows.</summary>
internal static class ReadingWords
{
    public static string Of(ElectricPotential volts) => Scaled(volts.Volts, "V", "mV");

    public static string Of(ElectricCurrent amps) => Scaled(amps.Amperes, "A", "mA");

    public static string Of(ElectricResistance resistance) => Math.Abs(resistance.Ohms) < 1000
        ? Scaled(resistance.Ohms, "ohm", "mohm")
        : Number(resistance.Ohms / 1000, "kohm");

    public static string Of(RunningState state) => Words.Of(Words.Running, state);

    /// <summary>The load of a reading; its place only where it stands elsewhere.</summary>
    public static string Under(ReadingLoad? load, ReadingPlace? at) =>
        load is null ? "" : $" under {(load.Resistance is { } ohms ? Of(ohms) : Of(load.Amps))}{(load.At == at ? "" : $" at {load.At}")}";

    public static string When(MeterReading reading)
    {
        string settings = reading.Settings.IsEmpty ? "" : $" when {string.Join(", ", reading.Settings)}";
        return reading.Supply is { } supply ? $"{settings} fed with {Of(supply.Volts)} up to {Of(supply.Amps)} at booster {supply.Booster}" : settings;
    }

    private static string Scaled(double value, string unit, string thousandth) =>
        value != 0 && Math.Abs(value) < 0.1 ? Number(value * 1000, thousandth) : Number(value, unit);

    private static string Number(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(value, 6)} {unit}");
}
