using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Tests.Truth;

public sealed class WireTableTests
{
    private const double FeetPerKilometre = 1000 / 0.3048;

    [Theory]
    [InlineData(10, 0.9989)]
    [InlineData(11, 1.26)]
    [InlineData(12, 1.588)]
    [InlineData(13, 2.003)]
    [InlineData(14, 2.525)]
    [InlineData(15, 3.184)]
    [InlineData(16, 4.016)]
    [InlineData(17, 5.064)]
    [InlineData(18, 6.385)]
    [InlineData(19, 8.051)]
    [InlineData(20, 10.15)]
    [InlineData(21, 12.8)]
    [InlineData(22, 16.14)]
    [InlineData(23, 20.36)]
    [InlineData(24, 25.67)]
    [InlineData(25, 32.37)]
    [InlineData(26, 40.81)]
    [InlineData(27, 51.47)]
    [InlineData(28, 64.9)]
    [InlineData(29, 81.83)]
    [InlineData(30, 103.2)]
    public void Solid_copper_at_20_degrees_agrees_with_the_handbook(int gauge, double ohmsPerThousandFeet) =>
        Close(ohmsPerThousandFeet, OhmsPerThousandFeet(new Wire.Awg(gauge), 20), 5e-4);

    [Theory]
    [InlineData(18, 7.77)]
    [InlineData(16, 4.89)]
    [InlineData(14, 3.07)]
    [InlineData(12, 1.93)]
    [InlineData(10, 1.21)]
    public void Solid_copper_at_75_degrees_agrees_with_the_electrical_code(int gauge, double ohmsPerThousandFeet) =>
        Close(ohmsPerThousandFeet, OhmsPerThousandFeet(new Wire.Awg(gauge), 75), 5e-3);

    [Theory]
    [InlineData(18, 7.95)]
    [InlineData(16, 4.99)]
    [InlineData(14, 3.14)]
    [InlineData(12, 1.98)]
    public void Stranded_copper_at_75_degrees_agrees_with_the_electrical_code(int gauge, double ohmsPerThousandFeet) =>
        Close(ohmsPerThousandFeet, OhmsPerThousandFeet(new Wire.Awg(gauge) { Stranded = true }, 75), 6e-3);

    [Theory]
    [InlineData(0.5, 36.0)]
    [InlineData(1.5, 12.1)]
    [InlineData(2.5, 7.41)]
    [InlineData(6, 3.08)]
    public void Solid_metric_copper_is_what_the_standard_allows(double squareMillimetres, double ohmsPerKilometre) =>
        Close(ohmsPerKilometre / 1000,
            Conductors.OhmsPerMetre(new Wire.Metric(squareMillimetres) { Solid = true }, Temperature.FromDegreesCelsius(20)), 1e-12);

    [Fact]
    public void Gauge_steps_have_the_printed_ratios()
    {
        Close(2.005, Conductors.AreaSquareMillimetres(new Wire.Awg(17)) / Conductors.AreaSquareMillimetres(new Wire.Awg(20)), 1e-4);
        Close(2.005, Conductors.DiameterMillimetres(new(14)) / Conductors.DiameterMillimetres(new(20)), 1e-4);
        Close(10.16, Conductors.AreaSquareMillimetres(new Wire.Awg(10)) / Conductors.AreaSquareMillimetres(new Wire.Awg(20)), 5e-4);
        Close(0.127, Conductors.DiameterMillimetres(new(36)), 1e-12);
        Close(0.46 * 25.4, Conductors.DiameterMillimetres(new(-3)), 1e-12);
    }

    [Theory]
    [InlineData(0.5, 39.0)]
    [InlineData(0.75, 26.0)]
    [InlineData(1, 19.5)]
    [InlineData(1.5, 13.3)]
    [InlineData(2.5, 7.98)]
    [InlineData(4, 4.95)]
    [InlineData(6, 3.30)]
    public void Metric_sizes_take_the_largest_resistance_of_flexible_conductors(double squareMillimetres, double ohmsPerKilometre)
    {
        Wire wire = new Wire.Metric(squareMillimetres);
        Close(ohmsPerKilometre / 1000, Conductors.OhmsPerMetre(wire, Temperature.FromDegreesCelsius(20)), 1e-12);
        double bare = 1 / 58.0 / squareMillimetres;
        Assert.InRange(Conductors.OhmsPerMetre(wire, Temperature.FromDegreesCelsius(20)) / bare, 1.13, 1.16);
    }

    [Theory]
    [InlineData(14, 0.505, 0.0005)]
    [InlineData(12, 0.318, 0.0005)]
    public void Two_hundred_feet_of_wire_have_the_printed_resistance(int gauge, double ohms, double lastDigit) =>
        Assert.Equal(ohms, OhmsPerThousandFeet(new Wire.Awg(gauge), 20) * 0.2, lastDigit);

    [Fact]
    public void Every_gauge_on_hand_has_a_resistance_and_thicker_ones_have_less()
    {
        foreach (IEnumerable<Wire> family in new[] { Conductors.GaugesOnHand.Where(w => w is Wire.Awg), Conductors.GaugesOnHand.Where(w => w is Wire.Metric) })
        {
            double[] ohms = [.. family.Select(wire => Conductors.OhmsPerMetre(wire, Temperature.FromDegreesCelsius(20)))];
            Assert.True(ohms.Length >= 4);
            Assert.Equal(ohms.Order(), ohms);
        }
    }

    [Fact]
    public void Wires_lying_together_carry_six_amps_a_square_millimetre() =>
        Close(15, Conductors.AmpacityAmps(new Wire.Metric(2.5)), 1e-12);

    private static double OhmsPerThousandFeet(Wire wire, double degreesCelsius) =>
        Conductors.OhmsPerMetre(wire, Temperature.FromDegreesCelsius(degreesCelsius)) * 1e6 / FeetPerKilometre;

    private static void Close(double expected, double actual, double relative) => Assert.Equal(expected, actual, Math.Abs(expected) * relative);
}
