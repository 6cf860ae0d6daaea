using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>
/// Layouts so small that the answer can be written down. Each rail has r = 0.05 Ω/m; feeders and taps of no length and no
/// resistance leave only rails, booster and breaker.
/// </summary>
public sealed class ClosedFormTests
{
    private const double RailOhmsPerMetre = 0.05;

    private static PlanBuilder Line(double metres) => new PlanBuilder().BareFeeds()
        .Section("line", metres).Booster("main").District("east", "main");

    [Fact]
    public void A_line_fed_at_one_end_sees_both_rails_to_the_far_end()
    {
        // Loop at distance D from the feed: 2·D·r.
        PowerReport report = Solve(Line(4).Feeder("f1", "line", 0, "east", "main", metres: 0));
        PlacePower worst = Assert.Single(report.Sections).LargestLoop;
        Close(2 * 4 * RailOhmsPerMetre, worst.Loop.Ohms);
        Close(4, worst.At.MetresFromA);
        Close(15 / (0.1 + 0.05 + 0.4 + 0.05), worst.FaultCurrent.Amperes);
    }

    [Fact]
    public void A_line_fed_at_both_ends_is_worst_in_the_middle()
    {
        // Both rails from both ends: at x of D the loop is 2·r·x·(D − x)/D, at most D·r/2 in the middle.
        PowerReport report = Solve(Line(4)
            .Feeder("f1", "line", 0, "east", "main", metres: 0)
            .Feeder("f2", "line", 4, "east", "main", metres: 0));
        PlacePower worst = Assert.Single(report.Sections).LargestLoop;
        Close(4 * RailOhmsPerMetre / 2, worst.Loop.Ohms);
        Close(2, worst.At.MetresFromA);
    }

    [Fact]
    public void Bus_feeder_and_joint_add_up_along_the_way()
    {
        Layout layout = new PlanBuilder()
            .Section("near", 1).Section("far", 2).Join("near.b", "far.a")
            .Booster("main").District("east", "main").Run("east", "main", "P1", 10)
            .Feeder("f1", "near", 0, "east", "P1")
            .Build();
        PlacePower worst = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken).Sections[1].LargestLoop;

        Temperature room = Temperature.FromDegreesCelsius(20);
        double eachWay = (10 * Conductors.OhmsPerMetre(new Wire.Awg(14), room)) + 0.002
            + (0.3 * Conductors.OhmsPerMetre(new Wire.Awg(20), room)) + (3 * RailOhmsPerMetre) + 0.010;
        Close(2 * eachWay, worst.Loop.Ohms);
        Close(15 / (0.15 + (2 * eachWay) + 0.05), worst.FaultCurrent.Amperes);
    }

    [Fact]
    public void Running_rails_of_three_rail_track_carry_side_by_side()
    {
        // Centre rail r, both running rails together r/2: 1.5·r there and back.
        PowerReport report = Solve(Line(4).ThreeRail().Feeder("f1", "line", 0, "east", "main", metres: 0));
        Close(1.5 * 4 * RailOhmsPerMetre, Assert.Single(report.Sections).LargestLoop.Loop.Ohms);
    }

    [Fact]
    public void A_load_spread_evenly_over_a_line_drops_half_of_what_it_would_at_the_end()
    {
        // Only stopped locomotives spread, the heaviest "train" none: drop at the far end is I·R/2 (published-value form: I R/2).
        Stock stock = new()
        {
            Locomotives = [Standing(count: 10, amps: 0.1)],
            MovingAtOnce = 0,
        };
        PowerReport report = Solve(Line(4).Runs(stock).Feeder("f1", "line", 0, "east", "main", metres: 0));
        DistrictPower east = Assert.Single(report.Districts);
        double amps = 10 * 0.1 * 1.25, source = 0.1 + 0.05, rails = 2 * 4 * RailOhmsPerMetre;
        Close(amps, east.DesignLoad.Amperes);
        Close(15 - (amps * source) - (amps * rails / 2), east.LowestVolts.Volts.Volts);
        Close(4, east.LowestVolts.At.MetresFromA);
    }

    [Fact]
    public void A_load_spread_over_a_line_fed_at_both_ends_drops_an_eighth_in_the_middle()
    {
        Stock stock = new() { Locomotives = [Standing(count: 10, amps: 0.1)], MovingAtOnce = 0 };
        PowerReport report = Solve(Line(4).Runs(stock)
            .Feeder("f1", "line", 0, "east", "main", metres: 0)
            .Feeder("f2", "line", 4, "east", "main", metres: 0));
        DistrictPower east = Assert.Single(report.Districts);
        double amps = 10 * 0.1 * 1.25, rails = 2 * 4 * RailOhmsPerMetre;
        Close(15 - (amps * 0.15) - (amps * rails / 8), east.LowestVolts.Volts.Volts);
        Close(2, east.LowestVolts.At.MetresFromA);
    }

    [Fact]
    public void The_heaviest_train_stands_at_the_worst_place_and_the_rest_is_spread()
    {
        // One engine of 1 A moves: working 1 A, with growth 1.25 A; 1 A stands at the far end, 0.25 A is spread.
        Stock stock = new() { Locomotives = [Standing(count: 1, amps: 0) with { Running = ElectricCurrent.FromAmperes(1) }] };
        PowerReport report = Solve(Line(4).Runs(stock).Feeder("f1", "line", 0, "east", "main", metres: 0));
        DistrictPower east = Assert.Single(report.Districts);
        double rails = 2 * 4 * RailOhmsPerMetre;
        Close(1.25, east.DesignLoad.Amperes);
        Close(15 - (1.25 * 0.15) - (1 * rails) - (0.25 * rails / 2), east.LowestVolts.Volts.Volts);
    }

    [Fact]
    public void A_point_load_on_a_line_fed_at_both_ends_shares_by_distance()
    {
        // A load I at the part x of a line of loop resistance R, fed at both ends, drops I·R·x·(1 − x).
        TrackPlace place = new(new("line"), 1);
        PowerReport report = PowerAnalysis.Solve(
            Line(4).Feeder("f1", "line", 0, "east", "main", metres: 0).Feeder("f2", "line", 4, "east", "main", metres: 0).Build(),
            PowerOptions.Default with { Loads = [new(place, ElectricCurrent.FromAmperes(2))] },
            TestContext.Current.CancellationToken);
        Close(15 - (2 * 0.15) - (2 * 2 * 4 * RailOhmsPerMetre * 0.25 * 0.75), Assert.Single(report.Places).Volts.Volts);
    }

    [Fact]
    public void Districts_of_one_booster_share_its_resistance()
    {
        Layout layout = new PlanBuilder().BareFeeds()
            .Section("one", 1).Section("two", 1)
            .Booster("main", volts: 15, ohms: 0.2).District("left", "main", ohms: 0.05).District("right", "main", ohms: 0.07)
            .Feeder("f1", "one", 0, "left", "main", metres: 0).Feeder("f2", "two", 0, "right", "main", metres: 0)
            .Build();
        PowerReport report = PowerAnalysis.Solve(
            layout,
            PowerOptions.Default with { Loads = [new(new(new("one"), 0), ElectricCurrent.FromAmperes(1)), new(new(new("two"), 0), ElectricCurrent.FromAmperes(2))] },
            TestContext.Current.CancellationToken);
        Close(15 - (3 * 0.2) - (1 * 0.05), report.Places[0].Volts.Volts);
        Close(15 - (3 * 0.2) - (2 * 0.07), report.Places[1].Volts.Volts);
        Close(0.1, report.Districts[0].LowestFault.Loop.Ohms);
        Close(15 / (0.2 + 0.07 + 0.1 + 0.05), report.Districts[1].LowestFault.FaultCurrent.Amperes);
    }

    private static Locomotive Standing(int count, double amps) => new(
        "engine",
        ElectricCurrent.Zero,
        ElectricCurrent.FromAmperes(amps),
        ElectricCurrent.Zero,
        ElectricCurrent.Zero,
        Length.FromMillimeters(60),
        count);

    private static PowerReport Solve(PlanBuilder plan) =>
        PowerAnalysis.Solve(plan.Build(), PowerOptions.Default, TestContext.Current.CancellationToken);

    private static void Close(double expected, double actual) => Assert.Equal(expected, actual, Math.Abs(expected) * 1e-9);
}
