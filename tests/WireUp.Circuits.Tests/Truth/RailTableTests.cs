using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Tests.Truth;

public sealed class RailTableTests
{
    private static readonly Temperature Room = Temperature.FromDegreesCelsius(20);

    [Theory]
    [InlineData("nickel-silver", 1.45)]
    [InlineData("brass", 0.48)]
    public void Measured_rail_of_code_100_is_what_was_published(string alloy, double milliohmsPerInch)
    {
        double expected = milliohmsPerInch / 0.0254 / 1000;
        Assert.Equal(expected, RailTable.OhmsPerMetre(new RailMaterial(100, alloy, null), Room), expected * 5e-3);
    }

    [Fact]
    public void A_measured_resistance_wins_over_code_and_alloy() =>
        Assert.Equal(0.035, RailTable.OhmsPerMetre(new RailMaterial(83, "nickel-silver", 0.035), Temperature.FromDegreesCelsius(60)));

    [Fact]
    public void Brass_by_the_estimate_lies_near_its_measurement()
    {
        double estimate = 62.9e-9 / (RailTable.SectionSquareMillimetres(100) * 1e-6);
        Assert.InRange(estimate / 0.0189, 0.9, 1.1);
    }

    [Fact]
    public void Every_code_and_alloy_has_a_resistance_and_says_where_it_is_from()
    {
        foreach (string alloy in RailTable.Alloys)
        {
            foreach (int code in new[] { 25, 40, 55, 70, 75, 83, 100, 143, 148, 250, 332 })
            {
                ReferenceValue value = RailTable.OhmsPerMetreAt20(new RailMaterial(code, alloy, null));
                Assert.InRange(value.Value, 1e-4, 10);
                Assert.NotEmpty(value.Source);
            }
        }
    }

    [Fact]
    public void A_larger_section_never_comes_from_a_lower_rail()
    {
        double[] sections = [.. Enumerable.Range(20, 320).Select(RailTable.SectionSquareMillimetres)];
        Assert.Equal(sections.Order(), sections);
    }

    [Fact]
    public void Every_row_of_every_table_names_a_source()
    {
        Assert.All(Constants.All, value => Assert.False(string.IsNullOrWhiteSpace(value.Source)));
        Assert.All(DeviceTable.SupplyLimits, limit => Assert.False(string.IsNullOrWhiteSpace(limit.Source)));
        Assert.All(ScaleTable.Sources, source => Assert.False(string.IsNullOrWhiteSpace(source.Source)));
        Assert.Equal(12, ScaleTable.Sources.Length);
    }

    [Fact]
    public void Scales_run_from_small_to_large()
    {
        double[] gauges = [.. ScaleTable.All.Select(scale => scale.Gauge.Millimeters)];
        Assert.Equal(gauges.Order(), gauges);
        Assert.Equal(15, ScaleTable.Get("HO").TrackVolts(ControlSystem.Command).Volts);
        Assert.Null(ScaleTable.Find("HOn0"));
    }
}
