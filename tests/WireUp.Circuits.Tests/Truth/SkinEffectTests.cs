using System.Numerics;
using WireUp.Circuits.Signals;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Truth;

public sealed class SkinEffectTests
{
    private const double CopperOhmMetres = 1e-6 / 58;

    /// <summary>Terman's table as read by the author of the page, 3.35; his own bench gave 3.74.</summary>
    [Fact]
    public void Ten_gauge_at_100_kilohertz_has_the_ratio_of_the_handbook() =>
        Assert.Equal(3.35, SkinEffect.OfCopper(new Wire.Awg(10), 100e3), 3.35 * 0.01);

    /// <summary>Depth in copper: the printed rule is 66/√f millimetres.</summary>
    [Theory]
    [InlineData(4310)]
    [InlineData(8620)]
    [InlineData(10e3)]
    [InlineData(100e3)]
    public void Skin_depth_of_copper_follows_the_printed_rule(double hertz) =>
        Assert.Equal(66 / Math.Sqrt(hertz), SkinEffect.DepthMetres(CopperOhmMetres, 1, hertz) * 1000, 0.005 * 66 / Math.Sqrt(hertz));

    [Theory]
    [InlineData(8620, 10, 1.193)]
    [InlineData(8620, 12, 1.084)]
    [InlineData(8620, 14, 1.035)]
    [InlineData(8620, 16, 1.014)]
    [InlineData(8620, 18, 1.0055)]
    [InlineData(8620, 22, 1.0009)]
    [InlineData(10e3, 10, 1.247)]
    [InlineData(10e3, 12, 1.111)]
    [InlineData(10e3, 14, 1.046)]
    [InlineData(10e3, 16, 1.019)]
    [InlineData(10e3, 22, 1.001)]
    [InlineData(100e3, 10, 3.361)]
    [InlineData(100e3, 12, 2.724)]
    [InlineData(100e3, 14, 2.222)]
    [InlineData(100e3, 16, 1.814)]
    [InlineData(100e3, 22, 1.107)]
    public void Ratios_of_copper_wire_keep_their_digits(double hertz, int gauge, double ratio) =>
        Assert.Equal(ratio, SkinEffect.OfCopper(new Wire.Awg(gauge), hertz), 0.0006);

    /// <summary>The whole range, from far below the skin depth to 250 of them, against another library's Bessel functions.</summary>
    [Theory]
    [InlineData(0.01)]
    [InlineData(0.3)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(20)]
    [InlineData(80)]
    [InlineData(250)]
    public void The_continued_fraction_is_the_quotient_of_the_Bessel_functions(double radii)
    {
        Complex z = radii * new Complex(1, 1);

        // Scaled functions: the plain ones pass the range of a double.
        Complex expected = z / 2 * MathNet.Numerics.SpecialFunctions.BesselIScaled(0, z) / MathNet.Numerics.SpecialFunctions.BesselIScaled(1, z);

        Assert.Equal(expected.Real, SkinEffect.ResistanceRatio(radii, 1), expected.Real * 1e-10);
        Assert.Equal(expected.Imaginary / (radii * radii / 4), SkinEffect.InternalInductanceRatio(radii, 1), 1e-9);
    }

    [Fact]
    public void Far_below_the_skin_depth_nothing_changes()
    {
        Assert.Equal(1, SkinEffect.ResistanceRatio(1e-6, 1), 1e-12);
        Assert.Equal(1, SkinEffect.InternalInductanceRatio(1e-6, 1), 1e-9);
        Assert.Equal(1, SkinEffect.InternalInductanceRatio(0, 1));
    }

    [Fact]
    public void Nickel_silver_rail_is_no_worse_at_the_signals_frequency_but_steel_rail_is()
    {
        Assert.InRange(SkinEffect.OfRail(new RailMaterial(100, "nickel-silver", null), 8620), 1, 1.002);
        Assert.InRange(SkinEffect.OfRail(new RailMaterial(100, "steel", null), 8620), 1.5, 3);
    }
}
