using UnitsNet;
using WireUp.Circuits.Signals;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Tests.Exact;

public sealed class WirePairTests
{
    [Theory]
    [InlineData(14, 4, 0.619, 0.737)]
    [InlineData(14, 152.4, 2.093, 2.193)]
    [InlineData(16, 2.5, 0.512, 0.642)]
    [InlineData(12, 4.25, 0.543, 0.668)]
    public void Inductance_of_two_wires_side_by_side(int gauge, double spacingMillimetres, double fast, double slow)
    {
        WirePair pair = new(Conductors.DiameterMillimetres(new(gauge)) / 1000, spacingMillimetres / 1000, 1);

        Assert.Equal(fast, pair.FastHenriesPerMetre * 1e6, 0.0006);
        Assert.Equal(slow, pair.HenriesPerMetre * 1e6, 0.0006);
    }

    [Fact]
    public void Three_hundred_ohms_in_air_take_wires_6_13_diameters_apart() =>
        Assert.Equal(300, new WirePair(1e-3, 6.13e-3, 1).Ohms, 0.5);

    [Fact]
    public void In_air_a_wave_runs_with_light_and_in_insulation_slower()
    {
        Assert.Equal(1 / 299792458.0, new WirePair(1e-3, 5e-3, 1).SecondsPerMetre, 1e-17);
        Assert.Equal(1.5 / 299792458.0, new WirePair(1e-3, 5e-3, 2.25).SecondsPerMetre, 1e-17);
    }

    [Theory]
    [InlineData(1e-3, 1.2e-3, 2.5)]
    [InlineData(2e-3, 0.1, 1)]
    public void Inductance_capacitance_impedance_and_delay_belong_together(double diameter, double spacing, double permittivity)
    {
        WirePair pair = new(diameter, spacing, permittivity);

        Assert.Equal(pair.SecondsPerMetre, Math.Sqrt(pair.FastHenriesPerMetre * pair.FaradsPerMetre), pair.SecondsPerMetre * 1e-12);
        Assert.Equal(pair.Ohms, pair.FastHenriesPerMetre / pair.SecondsPerMetre, pair.Ohms * 1e-12);
        Assert.InRange(pair.HenriesPerMetre, pair.FastHenriesPerMetre, double.PositiveInfinity);
    }

    [Fact]
    public void Lying_together_is_the_least_spacing_and_has_the_impedance_the_trade_reckons_with()
    {
        WirePair together = WirePair.Of(new Wire.Awg(14), null);

        Assert.Equal(together, WirePair.Of(new Wire.Awg(14), Length.FromMillimeters(1)));
        Assert.InRange(together.Ohms, 100, 150);
        Assert.InRange(together.HenriesPerMetre * 1e6, 0.5, 0.8);
        Assert.True(WirePair.Of(new Wire.Awg(14), Length.FromMillimeters(150)).HenriesPerMetre > 3 * together.HenriesPerMetre);
    }

    [Theory]
    [InlineData(0, 1e-3, 1)]
    [InlineData(1e-3, 1e-3, 1)]
    [InlineData(1e-3, 2e-3, 0.9)]
    public void Wires_that_cannot_be_are_refused(double diameter, double spacing, double permittivity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new WirePair(diameter, spacing, permittivity));
}
