using System.Collections.Frozen;
using UnitsNet;

namespace WireUp.Layouts.Quantities;

/// <summary>The kinds of quantity in a layout file, each made in one base unit so that equal quantities are equal values.</summary>
internal static class QuantityKinds
{
    public static QuantityKind<Length> Length { get; } = new("a length", "2.4 m, 250 mm, 8 ft, 7 ft 6 in or 3/8 in",
        Units(
            ("m metre metres meter meters", new(1)),
            ("cm", new(1, 100)),
            ("mm", new(1, 1000)),
            ("in inch inches \" ″", new(254, 10_000)),
            ("ft foot feet ' ′", new(3048, 10_000)),
            ("yd", new(9144, 10_000))),
        number => UnitsNet.Length.FromMeters(number))
    { Greater = "ft", Lesser = "in" };

    public static QuantityKind<ElectricPotential> Volts { get; } = new("a voltage", "14.5 V",
        Units(("V volt volts", new(1)), ("mV", new(1, 1000))), number => ElectricPotential.FromVolts(number));

    public static QuantityKind<ElectricCurrent> Amps { get; } = new("a current", "0.25 A or 250 mA",
        Units(("A amp amps", new(1)), ("mA", new(1, 1000))), number => ElectricCurrent.FromAmperes(number));

    // The sign of the ohm has two code points, its own (U+2126) and that of the Greek letter (U+03A9).
    public static QuantityKind<ElectricResistance> Ohms { get; } = new("a resistance", "0.05 ohm or 10 mohm",
        Units(("ohm ohms Ohm \u2126 \u03a9", new(1)), ("mohm mohms mOhm m\u2126 m\u03a9", new(1, 1000)), ("kohm kOhm k\u2126 k\u03a9", new(1000))),
        number => ElectricResistance.FromOhms(number));

    public static QuantityKind<Power> Watts { get; } = new("a power", "90 W or 90 VA",
        Units(("W watt watts VA", new(1)), ("kW kVA", new(1000))), number => Power.FromWatts(number));

    public static QuantityKind<Ratio> Percent { get; } = new("a percentage", "5 %",
        Units(("% percent", new(1))), number => Ratio.FromPercent(number));

    public static QuantityKind<Temperature> Temperature { get; } = new("a temperature", "20 degC",
        Units(("degC °C", new(1)), ("degF °F", new(5, 9, -32))), number => UnitsNet.Temperature.FromDegreesCelsius(number));

    public static QuantityKind<Angle> Degrees { get; } = new("an angle", "30 deg",
        Units(("deg ° degree degrees", new(1))), number => Angle.FromDegrees(number));

    public static QuantityKind<Duration> Seconds { get; } = new("a time", "0.3 s or 20 ms",
        Units(("s sec second seconds", new(1)), ("ms", new(1, 1000)), ("min minute minutes", new(60)), ("h hour hours", new(3600))),
        number => Duration.FromSeconds(number));

    // The micro sign has two code points, its own (U+00B5) and that of the Greek letter (U+03BC).
    public static QuantityKind<ElectricCapacitance> Farads { get; } = new("a capacitance", "1000 uF or 0.22 F",
        Units(("F farad farads", new(1)), ("mF", new(1, 1000)), ("uF \u00b5F \u03bcF", new(1, 1_000_000)), ("nF", new(1, 1_000_000_000)), ("pF", new(1, 1_000_000_000_000))),
        number => ElectricCapacitance.FromFarads(number));

    private static FrozenDictionary<string, UnitFactor> Units(params (string Words, UnitFactor Factor)[] rows) =>
        rows.SelectMany(row => row.Words.Split(' ').Select(word => (word, row.Factor)))
            .ToFrozenDictionary(pair => pair.word, pair => pair.Factor, StringComparer.Ordinal);
}
