using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Signals;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

public sealed class ProtectionTests
{
    /// <summary>C·(2V)²/2 ÷ 58 µs is 0.776 W for 0.1 µF at 15 V; with 120 Ω the capacitor does not quite fill.</summary>
    [Fact]
    public void Heat_in_a_terminator_is_that_of_charging_its_capacitor_twice_a_bit()
    {
        Assert.Equal(0.7759, Terminator.HeatWatts(1, 0.1e-6, 15, 58e-6), 0.0001);
        Assert.Equal(0.7759 * Math.Tanh(58e-6 / (2 * 120 * 0.1e-6)), Terminator.HeatWatts(120, 0.1e-6, 15, 58e-6), 0.0001);

        // A capacitor far too large to notice a bit: all of the volts stand across the resistor.
        Assert.Equal(225.0 / 120, Terminator.HeatWatts(120, 1, 15, 58e-6), 1e-6);
    }

    [Theory]
    [InlineData(106, 1e6, 100, 33e-9)]
    [InlineData(113, 1e6, 120, 33e-9)]
    [InlineData(135, 3e6, 150, 6.8e-9)]
    [InlineData(109, 30e6, 100, 1e-9)]
    public void A_terminator_has_values_on_sale(double ohms, double ringHertz, double resistor, double farads)
    {
        Terminator terminator = Terminator.For(ohms, ringHertz, 15);

        Assert.Equal(resistor, terminator.Resistor.Ohms, 1e-9);
        Assert.Equal(farads, terminator.Capacitor.Farads, farads * 1e-9);
        Assert.True((double)terminator.Rating.Watts >= 2 * (double)terminator.Heat.Watts);
        Assert.True(terminator.Resistor.Ohms * terminator.Capacitor.Farads * ringHertz >= 3 * (1 - 1e-9));
    }

    [Fact]
    public void An_open_line_rings_at_a_quarter_wave_and_a_loaded_one_like_coil_and_capacitor()
    {
        Assert.Equal(1 / (4 * 50e-9), new Line(100, 50e-9, 0, 0, 0).RingHertz, 1);

        // A hundred times the line's own 0.5 nF: L = 5 µH and all of C, a third of the line's added.
        double coil = 1 / (2 * Math.PI * Math.Sqrt(5e-6 * (50e-9 + (0.5e-9 / 3))));
        Assert.Equal(coil, new Line(100, 50e-9, 0, 0, 0) { LoadFarads = 50e-9 }.RingHertz, coil * 1e-4);
    }

    /// <summary>Without resistance the wave comes back twice as high, is turned over, and so on: 2, 0, 2, 0 at every other delay.</summary>
    [Fact]
    public void An_open_line_doubles_a_sharp_edge_and_its_own_impedance_swallows_it()
    {
        Transient open = LineTransient.Follow(new Line(100, 50e-9, 0, 0, 0), 1e-6);
        Assert.Equal(2, open.Peak, 1e-12);
        Assert.Equal(5e6, open.RingHertz, 5e6 * 0.01);

        Transient matched = LineTransient.Follow(new Line(100, 50e-9, 0, 0, 0) { LoadOhms = 100 }, 1e-6);
        Assert.Equal(1, matched.Peak, 1e-12);
        Assert.InRange(matched.SettledSeconds, 0, 51e-9);
    }

    [Fact]
    public void A_slow_edge_does_not_ring()
    {
        Line line = new(100, 50e-9, 0.2, 0.2, 4 / new Line(100, 50e-9, 0, 0, 0).RingHertz);
        Assert.InRange(LineTransient.Follow(line, 20e-6).Peak, 1, 1.05);
    }

    [Fact]
    public void The_way_along_a_bus_adds_up_runs_connectors_and_spacing_and_ends_where_the_bus_does()
    {
        Layout layout = Shelf(spacing: null, connectors: 2);
        ImmutableArray<BusWay> ways = BusWays.Of(layout, layout.Wiring.Districts[0]);

        Assert.Equal(["main", "P1", "P2", "P3"], ways.Select(way => way.Point));
        Assert.Equal(["P2", "P3"], ways.Where(way => way.IsEnd).Select(way => way.Point));
        BusWay third = ways[^1];
        double perMetre = 1 / 58.0 / 2.0809;
        Assert.Equal(2 * ((20 * perMetre) + (2 * 0.01)), third.Ohms, 1e-5);
        Assert.Equal(20 * WirePair.Of(new Wire.Awg(14), null).HenriesPerMetre, third.Henries, 1e-15);
    }

    [Fact]
    public void A_bus_in_a_ring_has_its_end_at_the_farthest_point()
    {
        Layout layout = Shelf(null, 0);
        Wire wire = new Wire.Awg(14);
        Bus ring = new("shelf",
        [
            new("main", "P1", Length.FromMeters(3), wire), new("P1", "P2", Length.FromMeters(5), wire), new("P2", "main", Length.FromMeters(4), wire),
        ]);

        ImmutableArray<BusWay> ways = BusWays.Of(layout with { Wiring = layout.Wiring with { Buses = [ring] } }, layout.Wiring.Districts[0]);

        Assert.Equal(["P2"], ways.Where(way => way.IsEnd).Select(way => way.Point));
        Assert.Equal(4, ways.Single(way => way.Point == "P2").Metres);
    }

    [Fact]
    public void L_over_R_is_the_inductance_times_the_design_load_over_the_volts()
    {
        Layout layout = Shelf(Length.FromMillimeters(150), 0);
        PowerReport power = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);

        BusEnd end = Protection.Of(layout, power).Districts[0].Ends[0];

        double henries = 20 * 4e-7 * (Math.Log(0.15 / (1.6277e-3 / 2)) + 0.25);
        Assert.Equal("P3", end.End);
        Assert.Equal(henries, end.Inductance.Henries, henries * 1e-4);
        Assert.Equal(henries * power.Districts[0].DesignLoad.Amperes / 15, end.LoadTime.Seconds, end.LoadTime.Seconds * 1e-4);
        Assert.Equal(11 / end.LoadTime.Microseconds, end.Slew.VoltsPerMicroseconds, 1e-9);
        Assert.Equal(5.8, end.AllowedTime.Microseconds, 1e-9);
        Assert.Equal(henries * 15 / (0.15 + end.Resistance.Ohms + 0.05) / 1e-6, end.OpeningVolts.Volts, end.OpeningVolts.Volts * 1e-4);
        Assert.InRange(end.SignalResistance / end.Resistance, 1.03, 1.04);
        Assert.True(end.PeakTerminated < end.Peak);
    }

    /// <summary>No length is let off because the usual edge happens to be a whole number of its swings.</summary>
    [Fact]
    public void A_longer_bus_rings_no_less_than_a_shorter_one()
    {
        double before = 0;
        for (int metres = 1; metres <= 60; metres++)
        {
            Layout layout = Shelf(null, 0);
            Bus bus = new("shelf", [new("main", "P1", Length.FromMeters(metres), new Wire.Awg(14))]);
            layout = layout with { Wiring = layout.Wiring with { Buses = [bus] } };
            double peak = BusEnds.Of(layout, layout.Wiring.Districts[0], layout.Wiring.Boosters[0], 1).Single().Peak.Volts;
            Assert.InRange(peak, before - 0.5, 45);
            before = peak;
        }

        Assert.InRange(before, 35, 45);
    }

    [Theory]
    [InlineData(ControlSystem.Direct)]
    [InlineData(ControlSystem.ThreeRail)]
    public void Without_a_command_signal_nothing_is_said_of_it(ControlSystem control)
    {
        Layout layout = Shelf(null, 0) with { Control = control };
        DistrictProtection district = Protection.Of(layout, PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken)).Districts[0];

        Assert.Empty(district.Ends);
        Assert.Null(district.Restart);
        Assert.Equal(100, district.Clears!.Value.Milliseconds, 1e-9);
    }

    [Fact]
    public void A_breaker_with_a_curve_clears_by_it_and_wires_are_asked_at_the_current_that_is_worst_for_them()
    {
        Layout layout = Shelf(null, 0);
        District district = layout.Wiring.Districts[0] with
        {
            Curve = [new(ElectricCurrent.FromAmperes(3), Duration.FromSeconds(4)), new(ElectricCurrent.FromAmperes(300), Duration.FromSeconds(0.0004))],
        };
        layout = layout with { Wiring = layout.Wiring with { Districts = [district] } };

        DistrictProtection found = Protection.Of(layout, PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken)).Districts[0];

        // On that curve I²·t is 36 A²s everywhere.
        Assert.Equal(36, Math.Pow(found.LeastFault.Amperes, 2) * found.Clears!.Value.Seconds, 1e-6);
        Assert.All(found.Wires, wire => Assert.Equal(36, Math.Pow(wire.Current.Amperes, 2) * wire.Clears.Seconds, 1e-6));
        Assert.Equal(["main > P1", "P1 > P2", "P1 > P3", "f1"], found.Wires.Select(wire => wire.Name));
        Assert.Equal(15 / 0.2, found.MostFault.Amperes, 1e-9);
    }

    /// <summary>
    /// On a curve of I²·t = 36 A²s two capacitors too large to fill in that time draw V/(R/2 + R0) each by the other: least, and so longest, where R0
    /// is largest.
    /// </summary>
    [Fact]
    public void A_breaker_opens_again_after_the_time_that_it_takes_where_the_way_is_longest()
    {
        Layout layout = Shelf(null, 0);
        District district = layout.Wiring.Districts[0] with
        {
            Curve = [new(ElectricCurrent.FromAmperes(3), Duration.FromSeconds(4)), new(ElectricCurrent.FromAmperes(300), Duration.FromSeconds(0.0004))],
        };
        Locomotive locomotive = Rings.Engines(2, 1, 0, 1).Locomotives[0] with { StayAlive = ElectricCapacitance.FromFarads(1e6), Charging = ElectricResistance.FromOhms(1) };
        layout = layout with { Wiring = layout.Wiring with { Districts = [district] }, Stock = new() { Locomotives = [locomotive] } };
        PowerReport power = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);

        RestartVerdict restart = Protection.Of(layout, power).Districts[0].Restart!;

        double near = 0.5 + 0.15, far = near + power.Districts[0].LowestFault.Loop.Ohms;
        Assert.Equal(2, restart.Expected);
        Assert.Equal(15 / near, restart.First.Amperes, 1e-6);
        Assert.Equal(36 / Math.Pow(15 / far, 2), restart.OpensAfter!.Value.Seconds, 1e-6);
        Assert.True(far > near + 0.1);
        Assert.Equal(0, restart.Most);
    }

    [Fact]
    public void A_signal_is_fast_enough_only_if_it_turns_over_in_time_and_steeply()
    {
        Layout layout = Shelf(null, 0);
        BusEnd end = BusEnds.Of(layout, layout.Wiring.Districts[0], layout.Wiring.Boosters[0], 1).First();
        Assert.True(end.IsFastEnough);
        Assert.True((end with { LoadTime = end.AllowedTime, Slew = end.AllowedSlew }).IsFastEnough);
        Assert.False((end with { LoadTime = end.AllowedTime * 1.01 }).IsFastEnough);
        Assert.False((end with { Slew = end.AllowedSlew * 0.99 }).IsFastEnough);
        Assert.False((end with { Peak = end.Survives * 1.01 }).IsCalm);
        Assert.True((end with { Peak = end.Survives }).IsCalm);
    }

    /// <summary>Two metres of track, a bus of 14 AWG that forks at P1: 2 m on to P2, 15 m on to P3.</summary>
    private static Layout Shelf(Length? spacing, int connectors)
    {
        Wire wire = new Wire.Awg(14);
        Layout plan = new PlanBuilder()
            .Section("shelf", 2)
            .Booster("main", 15, 0.1)
            .District("shelf", "main", 0.05, 3)
            .Feeder("f1", "shelf", 1, "shelf", "P1", 0.3)
            .Build();
        return plan with
        {
            Wiring = plan.Wiring with
            {
                Buses =
                [
                    new("shelf",
                    [
                        new("main", "P1", Length.FromMeters(5), wire),
                        new("P1", "P2", Length.FromMeters(2), wire),
                        new("P1", "P3", Length.FromMeters(15), wire) { Connectors = connectors },
                    ]) { Spacing = spacing },
                ],
            },
        };
    }
}
