using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class DeviceTests
{
    // HO, ceiling 5 A. Boosters of 5 A carry 4 A and take breakers up to 4 A, so districts up to 2.67 A.
    [Theory]
    [InlineData(1.2, 0.5, 3, 1)]
    [InlineData(1.4, 0.5, 5, 1)]
    [InlineData(4.0, 0.5, 5, 1)]
    [InlineData(4.1, 0.5, 5, 2)]
    [InlineData(7.4, 1.6, 5, 2)]
    [InlineData(12.1, 1.6, 5, 4)]
    public void Boosters_are_as_many_as_carry_the_load_at_four_fifths(double load, double heaviest, double amps, int count)
    {
        PowerSizing sizing = PowerSizing.Of(TrackBuilder.Line(1, 1).Build(), new(load, load / 1.25, heaviest), BreakerSizes.Usual);
        Assert.Equal((amps, count), (sizing.BoosterAmps, sizing.BoosterCount));
    }

    [Theory]
    [InlineData(0.4, 1)]
    [InlineData(1.0, 1.5)]
    [InlineData(1.6, 2.5)]
    [InlineData(2.0, 3)]
    [InlineData(2.67, 4)]
    public void A_breaker_trips_at_the_next_step_above_one_and_a_half_times_the_load(double load, double trip) =>
        Assert.Equal(trip, BreakerSizes.Usual.For(load, 0));

    // Class 2 ends at 5 A: a booster of 3 A at 15 V asks for 3.3 A and may have one, of 5 A for 5.5 A and may not.
    [Theory]
    [InlineData(3, SupplyClass.Limited, 50)]
    [InlineData(5, SupplyClass.Other, 83)]
    public void A_supply_is_energy_limited_where_the_published_limit_allows_it(double amps, SupplyClass expected, double voltAmps)
    {
        Supply supply = SupplyChoice.For("supply-1", 15, amps, alternating: false).Supply;
        Assert.Equal((expected, voltAmps), (supply.Class, (double)supply.Rating.Watts));
    }

    [Theory]
    [InlineData(WireSystem.Metric, 2.5, "0.5 mm2")]
    [InlineData(WireSystem.Metric, 6, "0.75 mm2")]
    [InlineData(WireSystem.Metric, 8, "1.5 mm2")]
    [InlineData(WireSystem.Awg, 4, "20 AWG")]
    [InlineData(WireSystem.Awg, 6, "18 AWG")]
    public void Feeder_wire_carries_the_trip_current_over_its_short_run(WireSystem system, double trip, string wire) =>
        Assert.Equal(wire, GaugeChooser.FeederWire(system, trip).ToString());

    // One section of track of 0.2 m fed in its middle at the end of a bus of length L, everything else without resistance.
    // The engine draws 1.6 A, with a quarter for growth 2 A. Drop = I·2·r·L over V: at 2 A, 15 V and 5 % the wire may have 0.75 V / (2 A · 2 · 20 m) = 9.4 mΩ/m.
    // 6 mm² has 3.3, 4 mm² 4.95 and 2.5 mm² 7.98 mΩ/m; 1.5 mm² has 13.3 (IEC 60228, class 5).
    [Theory]
    [InlineData(10, "1.5 mm2")]
    [InlineData(20, "2.5 mm2")]
    [InlineData(30, "4 mm2")]
    [InlineData(45, "6 mm2")]
    public void The_thinnest_wire_that_keeps_the_drop_is_chosen_as_the_closed_form_says(double busMetres, string expected)
    {
        GaugeChoice choice = Choose(busMetres, 0);
        Assert.Equal(expected, choice.WireOf("d1", 0).ToString());
        Assert.True(choice.Cost.IsOptimal);
        Assert.All(choice.Rows, row => Assert.Equal(
            2 * 2 * busMetres * Conductors.OhmsPerMetre(row.Wire, Temperature.FromDegreesCelsius(20)) / 15, row.Drop.DecimalFractions, 1e-6));
        Assert.All(choice.Rows, row => Assert.Equal(row.Drop.Percent > 5, row.Verdict.Contains("drop", StringComparison.Ordinal)));
    }

    [Fact]
    public void New_runs_are_not_thinner_than_the_bus_they_hang_on()
    {
        Assert.Equal("2.5 mm2", Choose(1, 2.5).WireOf("d1", 0).ToString());
    }

    private static GaugeChoice Choose(double busMetres, double least) => new GaugeChooser(
        [new("d1", [-1], [busMetres]) { LeastSquareMillimetres = least }],
        WireStock.Usual(WireSystem.Metric),
        wireOf => Straight(busMetres, wireOf("d1", 0)),
        TestContext.Current.CancellationToken).Choose();

    private static Layout Straight(double busMetres, Wire wire)
    {
        ElectricResistance none = ElectricResistance.FromOhms(1e-9);
        Layout track = TrackBuilder.Line(1, 0.2).Build();
        return track with
        {
            Defaults = track.Defaults with { Tap = none, Rail = new(83, "nickel-silver", 1e-9), Coin = none },
            Stock = new()
            {
                Locomotives = [new("heavy", Amps(1.6), Amps(0), Amps(2), Amps(2), Length.FromMillimeters(60), 1)],
                MovingAtOnce = 1,
            },
            Wiring = new()
            {
                Boosters = [new("main", ElectricPotential.FromVolts(15), Amps(5), none)],
                Districts = [new("d1", "main", Amps(3), none)],
                Buses = [new("d1", [new("main", "P1", Length.FromMeters(busMetres), wire)])],
                Feeders = [new("f1", new(new("s0"), 0.1), "d1", "P1", new Wire.Metric(120), Length.FromMeters(1e-9))],
            },
        };
    }

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);
}
