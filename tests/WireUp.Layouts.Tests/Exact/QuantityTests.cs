using WireUp.Layouts.Quantities;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>
/// Numbers with units. An inch is 25.4 mm, a foot 0.3048 m and a yard 0.9144 m exactly by the international agreement of 1959;
/// °C = (°F − 32) · 5/9 by definition.
/// </summary>
public sealed class QuantityTests
{
    [Theory]
    [InlineData("2.4 m", 2.4)]
    [InlineData("2.4m", 2.4)]
    [InlineData("  2.4   m ", 2.4)]
    [InlineData("+2.4 m", 2.4)]
    [InlineData("-2.4 m", -2.4)]
    [InlineData("250 mm", 0.25)]
    [InlineData("1150 mm", 1.15)]
    [InlineData("1.5 cm", 0.015)]
    [InlineData(".5 m", 0.5)]
    [InlineData("5. m", 5)]
    [InlineData("2.5e-3 m", 0.0025)]
    [InlineData("2E3 mm", 2)]
    [InlineData("8 ft", 2.4384)]
    [InlineData("8 feet", 2.4384)]
    [InlineData("7 ft 6 in", 2.286)]
    [InlineData("7ft6in", 2.286)]
    [InlineData("7' 6\"", 2.286)]
    [InlineData("7'6\"", 2.286)]
    [InlineData("-7 ft 6 in", -2.286)]
    [InlineData("90 in", 2.286)]
    [InlineData("2 ft 1 1/2 in", 0.6477)]
    [InlineData("3/8 in", 0.009525)]
    [InlineData("1 1/2 in", 0.0381)]
    [InlineData("2 yd", 1.8288)]
    [InlineData("1 metre", 1)]
    [InlineData("1200", 1.2)]
    [InlineData("1 1/2", 0.0015)]
    public void A_length_is_read_in_metres(string text, double metres) => Assert.Equal(metres, Value(QuantityKinds.Length, text, "mm"));

    [Theory]
    [InlineData("1200", "mm", 1.2)]
    [InlineData("1200", "cm", 12)]
    [InlineData("12", "in", 0.3048)]
    [InlineData("12", "ft", 3.6576)]
    [InlineData("12", "m", 12)]
    public void A_bare_number_is_in_the_unit_of_the_file(string text, string unit, double metres) =>
        Assert.Equal(metres, Value(QuantityKinds.Length, text, unit));

    [Theory]
    [InlineData("14.5 V", 14.5)]
    [InlineData("250 mV", 0.25)]
    public void A_voltage_is_read_in_volts(string text, double volts) => Assert.Equal(volts, Value(QuantityKinds.Volts, text));

    [Theory]
    [InlineData("0.25 A", 0.25)]
    [InlineData("250 mA", 0.25)]
    public void A_current_is_read_in_amperes(string text, double amps) => Assert.Equal(amps, Value(QuantityKinds.Amps, text));

    [Theory]
    [InlineData("10 mohm", 0.01)]
    [InlineData("10 mΩ", 0.01)]
    [InlineData("0.15 ohm", 0.15)]
    [InlineData("2 \u2126", 2)]
    [InlineData("2 \u03a9", 2)]
    [InlineData("1.5 kohm", 1500)]
    public void A_resistance_is_read_in_ohms(string text, double ohms) => Assert.Equal(ohms, Value(QuantityKinds.Ohms, text));

    [Theory]
    [InlineData("90 W", 90)]
    [InlineData("90 VA", 90)]
    [InlineData("0.2 kW", 200)]
    public void A_power_is_read_in_watts(string text, double watts) => Assert.Equal(watts, Value(QuantityKinds.Watts, text));

    [Theory]
    [InlineData("20 degC", 20)]
    [InlineData("-5 °C", -5)]
    [InlineData("32 degF", 0)]
    [InlineData("212 °F", 100)]
    public void A_temperature_is_read_in_degrees_Celsius(string text, double celsius) => Assert.Equal(celsius, Value(QuantityKinds.Temperature, text));

    [Theory]
    [InlineData("5 %", 5)]
    [InlineData("5%", 5)]
    [InlineData("7.5 percent", 7.5)]
    public void A_percentage_is_read_in_per_cent(string text, double percent) => Assert.Equal(percent, Value(QuantityKinds.Percent, text));

    [Theory]
    [InlineData("30 deg", 30)]
    [InlineData("22.5°", 22.5)]
    public void An_angle_is_read_in_degrees(string text, double degrees) => Assert.Equal(degrees, Value(QuantityKinds.Degrees, text));

    [Theory]
    [InlineData("", QuantityFault.NotNumber)]
    [InlineData("m", QuantityFault.NotNumber)]
    [InlineData("two m", QuantityFault.NotNumber)]
    [InlineData("2,4 m", QuantityFault.NotNumber)]
    [InlineData("2..4 m", QuantityFault.NotNumber)]
    [InlineData("1.2.3 m", QuantityFault.NotNumber)]
    [InlineData("--2 m", QuantityFault.NotNumber)]
    [InlineData("NaN", QuantityFault.NotNumber)]
    [InlineData("Infinity", QuantityFault.NotNumber)]
    [InlineData("1/0 in", QuantityFault.NotNumber)]
    [InlineData("1 1/0 in", QuantityFault.NotNumber)]
    [InlineData("6 in 7 ft", QuantityFault.NotNumber)]
    [InlineData("7 ft 12 in", QuantityFault.NotNumber)]
    [InlineData("7 ft -6 in", QuantityFault.NotNumber)]
    [InlineData("7 ft 6 cm", QuantityFault.NotNumber)]
    [InlineData("2 m 4 m", QuantityFault.NotNumber)]
    [InlineData("1 ft 2 in 3 in", QuantityFault.NotNumber)]
    [InlineData("2 M", QuantityFault.WrongUnit)]
    [InlineData("2 km", QuantityFault.WrongUnit)]
    [InlineData("2 V", QuantityFault.WrongUnit)]
    [InlineData("2 e m", QuantityFault.NotNumber)]
    [InlineData("٣ m", QuantityFault.NotNumber)]
    public void What_is_no_length_says_why(string text, object fault) =>
        Assert.Equal((QuantityFault)fault, QuantityKinds.Length.TryRead(text, "mm", out _));

    [Fact]
    public void Only_a_length_may_stand_without_a_unit()
    {
        Assert.Equal(QuantityFault.NoUnit, QuantityKinds.Volts.TryRead("14", null, out _));
        Assert.Equal(QuantityFault.NoUnit, QuantityKinds.Percent.TryRead("0.05", null, out _));
    }

    [Fact]
    public void A_number_too_large_for_a_computer_is_out_of_every_range()
    {
        Assert.Equal(QuantityFault.None, QuantityKinds.Length.TryRead("1e999 m", "mm", out double value));
        Assert.Equal(double.PositiveInfinity, value);
        Assert.False(Reading.Range.Plan.Holds(value));
        Assert.False(Reading.Range.Plan.Holds(double.NaN));
    }

    [Theory]
    [InlineData("12 AWG", 12)]
    [InlineData("12AWG", 12)]
    [InlineData("12 awg", 12)]
    [InlineData("0 AWG", 0)]
    [InlineData("1/0 AWG", 0)]
    [InlineData("2/0 AWG", -1)]
    [InlineData("4/0 AWG", -3)]
    [InlineData("-3 AWG", -3)]
    [InlineData("40 AWG", 40)]
    public void A_wire_gauge_is_read(string text, int gauge) =>
        Assert.Equal(new Wire.Awg(gauge), WireText.TryRead(text, out _, out _));

    [Theory]
    [InlineData("2.5 mm2", 2.5)]
    [InlineData("2.5mm2", 2.5)]
    [InlineData("0.5 mm²", 0.5)]
    [InlineData("120 mm2", 120)]
    public void A_wire_section_is_read(string text, double area) =>
        Assert.Equal(new Wire.Metric(area), WireText.TryRead(text, out _, out _));

    [Theory]
    [InlineData("12", QuantityFault.NoUnit, false)]
    [InlineData("2.5 mm", QuantityFault.WrongUnit, false)]
    [InlineData("thick", QuantityFault.NotNumber, false)]
    [InlineData("1.5 AWG", QuantityFault.NotNumber, false)]
    [InlineData("AWG", QuantityFault.NotNumber, false)]
    [InlineData("41 AWG", QuantityFault.None, true)]
    [InlineData("-4 AWG", QuantityFault.None, true)]
    [InlineData("0.04 mm2", QuantityFault.None, true)]
    [InlineData("121 mm2", QuantityFault.None, true)]
    public void What_is_no_wire_says_why(string text, object fault, bool outOfRange)
    {
        Assert.Null(WireText.TryRead(text, out QuantityFault why, out bool beyond));
        Assert.Equal(((QuantityFault)fault, outOfRange), (why, beyond));
    }

    [Theory]
    [InlineData(-3, "4/0 AWG")]
    [InlineData(0, "0 AWG")]
    [InlineData(12, "12 AWG")]
    public void A_wire_gauge_is_written_as_it_is_read(int gauge, string text) => Assert.Equal(text, new Wire.Awg(gauge).ToString());

    [Theory]
    [InlineData(0.25, "250 mm")]
    [InlineData(2.4, "2.4 m")]
    [InlineData(1.15, "1.15 m")]
    [InlineData(0.0015, "1.5 mm")]
    [InlineData(0, "0 mm")]
    [InlineData(-0.6, "-600 mm")]
    public void A_length_is_written_short(double metres, string text) => Assert.Equal(text, LengthText.Write(metres));

    private static double Value<T>(QuantityKind<T> kind, string text, string? bare = null)
        where T : struct
    {
        Assert.Equal(QuantityFault.None, kind.TryRead(text, bare, out double value));
        return value;
    }
}
