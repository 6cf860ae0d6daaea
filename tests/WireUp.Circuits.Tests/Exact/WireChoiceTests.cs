using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Which wire for so many metres at so many amperes, against sums by hand.</summary>
public sealed class WireChoiceTests
{
    [Fact]
    public void Drop_and_fault_current_of_a_pair_are_ohms_law_there_and_back()
    {
        // 2.5 mm2 has at most 7.98 ohm/km (IEC 60228): 12 m there and back 0.19152 ohm; source, breaker and coin 0.2 ohm.
        WireRow row = Row(WireTable.Of(new(Length.FromMeters(12), Amps(5))), new Wire.Metric(2.5));
        Assert.Equal(0.19152, row.Loop.Ohms, 1e-12);
        Assert.Equal(100 * 5 * 0.19152 / 15, row.Drop.Percent, 1e-9);
        Assert.Equal(15 / 0.39152, row.FaultCurrent.Amperes, 1e-9);
        Assert.Equal(15, row.Carries.Amperes, 1e-9);
    }

    [Fact]
    public void The_page_that_forgot_the_way_back_is_not_followed()
    {
        // Trade pages allow 50 ft of 14 AWG at 5 A; there and back that drops 8.4 % of 15 V.
        WireRow row = Row(WireTable.Of(new(Length.FromFeet(50), Amps(5))), new Wire.Awg(14));
        Assert.Equal(8.4, row.Drop.Percent, 0.05);
        Assert.Contains("drops more than 5 %", row.Broken);
    }

    [Theory]
    [InlineData(12, 5, "12 AWG or 4 mm2")] // 24 m of 5.21 mohm/m: 4.2 %; of 14 AWG 6.6 %; of 2.5 mm2 6.4 %
    [InlineData(3, 1, "22 AWG or 0.25 mm2")] // 24 AWG carries 1.23 A, and the trip is 1.5 A
    [InlineData(1, 0.5, "24 AWG or 0.25 mm2")]
    [InlineData(200, 5, "")]
    public void The_thinnest_that_keeps_every_limit_is_named(double metres, double amps, string thinnest)
    {
        System.Collections.Immutable.ImmutableArray<WireRow> rows = WireTable.Of(new(Length.FromMeters(metres), Amps(amps)));
        Assert.Equal(thinnest, string.Join(" or ", WireTable.Thinnest(rows)));
        foreach (IGrouping<bool, WireRow> system in rows.GroupBy(row => row.Wire is Wire.Metric))
        {
            // From the thickest down: once a limit is broken it stays broken.
            bool[] will = [.. system.Select(row => row.Broken.IsEmpty)];
            Assert.Equal(will.OrderDescending(), will);
        }
    }

    [Fact]
    public void Warm_copper_drops_more_and_a_given_trip_is_the_limit()
    {
        WireQuestion question = new(Length.FromMeters(5), Amps(3)) { Trip = Amps(8) };
        WireRow cold = Row(WireTable.Of(question), new Wire.Awg(14)), warm = Row(WireTable.Of(question with { Temperature = Temperature.FromDegreesCelsius(45) }), new Wire.Awg(14));
        Assert.Equal(1 + (0.00393 * 25), warm.Loop / cold.Loop, 1e-12);
        Assert.Contains("too thin for a trip of 8 A", Row(WireTable.Of(question), new Wire.Awg(16)).Broken);
        Assert.Empty(cold.Broken);
    }

    private static WireRow Row(IEnumerable<WireRow> rows, Wire wire) => rows.Single(row => row.Wire == wire);

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);
}
