using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Truth;

/// <summary>
/// Handbook examples of wire drop and of two supplies, set up as layouts: a section whose two rails are the two wires of the
/// example, a booster without resistance of its own, a coin of no resistance for a dead short.
/// </summary>
public sealed class HandbookLayoutTests
{
    [Fact]
    public void A_dead_short_at_the_far_end_of_2300_feet_of_14_AWG_draws_the_printed_current()
    {
        // Lessons in Electric Circuits, volume I: 10.09 Ω·cmil/ft, 4107 cmil, 230 V: 5.651 Ω each, 20.352 A.
        const double metres = 2300 * 0.3048, ohmsEach = 10.09 * 2300 / 4107;
        Close(5.651, ohmsEach, 1e-4);
        DistrictPower line = Assert.Single(Solve(Line(metres, ohmsEach, 230), 0).Districts);
        Close(20.352, line.LowestFault.FaultCurrent.Amperes, 1e-4);
        Close(11.301, line.LowestFault.Loop.Ohms, 1e-4);
    }

    [Fact]
    public void A_circuit_of_that_resistance_can_never_trip_a_breaker_of_25_amps()
    {
        DistrictPower line = Assert.Single(Solve(Line(701.04, 5.651, 230, trip: 25), 0).Districts);
        Assert.False(line.CoinTestPasses);
        Assert.True(Assert.Single(Solve(Line(701.04, 5.651, 230, trip: 20), 0).Districts).CoinTestPasses);
    }

    [Fact]
    public void Two_wires_of_15_ohms_drop_three_quarters_of_a_volt_each()
    {
        // 14 V, 250 Ω at the far end take 50 mA and get 12.5 V.
        PowerReport report = Solve(Line(10, 15, 14), 0.050);
        Close(12.5, Assert.Single(report.Places).Volts.Volts, 1e-9);
    }

    [Fact]
    public void A_hundred_feet_of_16_AWG_drop_four_volts_at_four_amps()
    {
        // electrician2.com/weltrain05/lpage135.html: 4.99 Ω per 1000 ft, 24 V, 4 A: prints 4.0 V and 16.7 %.
        PowerReport report = Solve(Line(100 * 0.3048, 0.499, 24), 4);
        double drop = 24 - Assert.Single(report.Places).Volts.Volts;
        Close(3.992, drop, 1e-9);
        Assert.Equal(16.7, 100 * drop / 24, 0.1);
    }

    [Fact]
    public void Two_supplies_on_one_load_share_it_as_printed()
    {
        // Lessons in Electric Circuits, volume I: 28 V behind 4 Ω and 7 V behind 1 Ω on 2 Ω: 8 V, 4 A; Thévenin 11.2 V and 0.8 Ω,
        // Norton 14 A. All resistance is the sources': none is left for the loop.
        Layout layout = new PlanBuilder().BareFeeds().Defaults(d => d with { Coin = ElectricResistance.Zero })
            .Section("bar", 1, 1e-12)
            .Booster("strong", 28, 4).Booster("weak", 7, 1).District("s", "strong", 0).District("w", "weak", 0)
            .Feeder("fs", "bar", 0, "s", "strong", 0).Feeder("fw", "bar", 0, "w", "weak", 0)
            .Build();
        PowerReport open = PowerAnalysis.Solve(layout, new() { Probes = [new(new("bar"), 0)] }, TestContext.Current.CancellationToken);
        Close(11.2, Assert.Single(open.Places).Volts.Volts, 1e-9);
        PlacePower worst = Assert.Single(open.Sections).LargestLoop;
        Close(14, worst.FaultCurrent.Amperes, 1e-9);
        Assert.Equal(0, worst.Loop.Ohms, 1e-9);

        PowerReport loaded = PowerAnalysis.Solve(
            layout, new() { Loads = [new(new(new("bar"), 0), ElectricCurrent.FromAmperes(4))] }, TestContext.Current.CancellationToken);
        Close(8, Assert.Single(loaded.Places).Volts.Volts, 1e-9);
    }

    private static Layout Line(double metres, double ohmsEach, double volts, double trip = 4) => new PlanBuilder().BareFeeds()
        .Defaults(d => d with { Coin = ElectricResistance.Zero })
        .Section("line", metres, ohmsEach / metres)
        .Booster("source", volts, 0).District("d", "source", 0, trip)
        .Feeder("f", "line", 0, "d", "source", 0)
        .Build();

    private static PowerReport Solve(Layout layout, double ampsAtFarEnd)
    {
        TrackPlace far = new(new("line"), ((Piece.Section)layout.Track[0]).Length.Meters);
        return PowerAnalysis.Solve(
            layout, new() { Loads = [new(far, ElectricCurrent.FromAmperes(ampsAtFarEnd))] }, TestContext.Current.CancellationToken);
    }

    private static void Close(double expected, double actual, double relative) =>
        Assert.Equal(expected, actual, Math.Abs(expected) * relative);
}
