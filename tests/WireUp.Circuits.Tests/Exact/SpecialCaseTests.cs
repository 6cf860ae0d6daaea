using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Track that gets nothing, gets it the wrong way round, or shorts what feeds it.</summary>
public sealed class SpecialCaseTests
{
    [Fact]
    public void Track_behind_a_double_gap_is_unfed_and_only_that_part()
    {
        PowerReport report = Solve(Fed().Section("s", 4).Cut("s", 3).Feeder("f", "s", 0, "d", "b", 0));
        Assert.Equal(new TrackPlace(new("s"), 3.5), Assert.Single(report.Unfed));
        Assert.Equal(3, Assert.Single(report.Sections).LargestLoop.At.MetresFromA, 1e-12);
    }

    [Fact]
    public void Track_fed_through_one_rail_only_is_unfed()
    {
        PowerReport report = Solve(Fed().Section("s", 4).Cut("s", 3, RailSet.Left).Feeder("f", "s", 0, "d", "b", 0));
        Assert.Equal(3.5, Assert.Single(report.Unfed).MetresFromA);
    }

    [Fact]
    public void A_layout_without_wiring_is_all_unfed()
    {
        PowerReport report = Solve(new PlanBuilder().Section("s", 4).Section("t", 2).Join("s.b", "t.a"));
        Assert.Empty(report.Districts);
        Assert.Equal(2, report.Unfed.Length);
    }

    [Fact]
    public void An_exchanged_feeder_turns_the_sign_of_the_volts_and_nothing_else()
    {
        TrackPlace place = new(new("s"), 4);
        PowerOptions options = new() { Loads = [new(place, ElectricCurrent.FromAmperes(1))] };
        Layout Line(bool swap) => Fed().Section("s", 4).Feeder("f", "s", 0, "d", "b", 0, swap).Build();
        PowerReport right = Solve(Line(false), options), wrong = Solve(Line(true), options);
        Assert.Equal(right.Places[0].Volts.Volts, -wrong.Places[0].Volts.Volts, 1e-12);
        Assert.True(right.Places[0].Volts.Volts > 14);
        Assert.Equal(right.Districts[0].LowestFault.FaultCurrent.Amperes, wrong.Districts[0].LowestFault.FaultCurrent.Amperes, 1e-12);
    }

    [Fact]
    public void A_lift_out_section_feeds_what_is_beyond_it_only_while_it_is_in()
    {
        PlanBuilder plan = Fed().Section("s", 1).Section("far", 2).Add(new Piece.Section(new("bridge"), Length.FromMeters(0.5)) { LiftOut = true })
            .Join("s.b", "bridge.a").Join("bridge.b", "far.a").Feeder("f", "s", 0, "d", "b", 0);
        PlanBuilder fixedTrack = Fed().Section("s", 1).Section("far", 2).Section("bridge", 0.5)
            .Join("s.b", "bridge.a").Join("bridge.b", "far.a").Feeder("f", "s", 0, "d", "b", 0);
        PowerOptions end = new() { Loads = [new(new(new("far"), 2), ElectricCurrent.FromAmperes(1))] };
        PowerReport inPlace = Solve(plan.Build(), end);
        Assert.Equal(Solve(fixedTrack.Build(), end).Places[0].Volts.Volts, inPlace.Places[0].Volts.Volts, 1e-12);

        PowerReport lifted = Solve(plan.Build(), new() { Turnouts = Standing("bridge", "out") });
        Assert.Equal(["far", "bridge"], lifted.Unfed.Select(place => place.Section.Name));
    }

    [Theory]
    [InlineData("on", 1)]
    [InlineData("off", 0)]
    public void A_switched_feeder_feeds_only_in_its_position(string position, int fed)
    {
        Layout layout = Fed().Switch("K1", "on", "off").Section("s", 1).Feeder("f", "s", 0.5, "d", "b", 0).OnlyWhen("K1", "on").Build();
        PowerReport report = Solve(layout, new() { Turnouts = Standing("K1", position) });
        Assert.Equal((fed, 1 - fed), (report.Sections.Length, report.Unfed.Length));
    }

    [Theory]
    [InlineData(BridgeFeed.Wires, "t1", 1)]
    [InlineData(BridgeFeed.SplitRing, "t1", 1)]
    [InlineData(BridgeFeed.SplitRing, "t3", -1)]
    public void A_split_ring_turns_the_volts_of_the_bridge_with_it_and_plain_wires_do_not(BridgeFeed feed, string position, int sign)
    {
        Layout layout = Fed().Add(new Piece.Turntable(new("TT"), 4, Length.FromMeters(0.3)) { Feed = feed }).Feeder("f", "TT", 0, "d", "b", 0).Build();
        TrackPlace place = new(new("TT"), 0.1);
        PowerReport report = Solve(layout, new() { Turnouts = Standing("TT", position), Probes = [place] });
        Assert.Equal(sign, Math.Sign(report.Places.Single().Volts.Volts) * Math.Sign(Solve(layout, new() { Turnouts = Standing("TT", "t1"), Probes = [place] }).Places.Single().Volts.Volts));
    }

    private static ImmutableSortedDictionary<PieceId, string> Standing(string owner, string position) =>
        ImmutableSortedDictionary<PieceId, string>.Empty.Add(new(owner), position);

    [Fact]
    public void A_block_has_the_volts_of_the_cab_its_selector_is_set_to()
    {
        Layout layout = TwoCabs.Block();
        TrackPlace end = new(new("s"), 4);
        PowerReport Set(string position) => Solve(layout, new() { Probes = [end], Turnouts = Standing("B1", position) });
        Assert.Equal(15, Set("cab-a").Places[0].Volts.Volts, 1e-9);
        Assert.Equal(9, Set("cab-b").Places[0].Volts.Volts, 1e-9);
        Assert.Equal(15, Solve(layout, new() { Probes = [end] }).Places[0].Volts.Volts, 1e-9);
        Assert.Equal("a", Assert.Single(Set("cab-a").Districts).District);
        Assert.Equal("b", Assert.Single(Set("cab-b").Districts).District);
        Assert.Empty(Set("neither").Districts);
    }

    [Theory]
    [InlineData("through", "siding")]
    [InlineData("diverging", "main")]
    public void The_leg_of_a_live_frog_that_is_not_set_gets_nothing(string position, string dead)
    {
        Layout layout = Fed().Section("s", 1).Turnout("T", FrogKind.Live).Section("main", 2).Section("siding", 2)
            .Join("s.b", "T.points").Join("T.through", "main.a").Join("T.diverging", "siding.a")
            .Feeder("f", "s", 0, "d", "b", 0).Build();
        PowerReport report = Solve(layout, new()
        {
            Turnouts = Standing("T", position),
        });
        Assert.Equal(dead, Assert.Single(report.Unfed).Section.Name);
        Assert.Equal(2, report.Sections.Length);
    }

    [Fact]
    public void A_turnout_that_is_not_named_stands_in_its_first_position()
    {
        PlanBuilder plan = Fed().Section("s", 1).Turnout("T", FrogKind.Live).Section("main", 2).Section("siding", 2)
            .Join("s.b", "T.points").Join("T.through", "main.a").Join("T.diverging", "siding.a")
            .Feeder("f", "s", 0, "d", "b", 0);
        Assert.Equal("siding", Assert.Single(Solve(plan).Unfed).Section.Name);
    }

    [Fact]
    public void A_shorted_source_without_any_resistance_is_a_problem_and_has_no_figures()
    {
        // Leg A to both rails and leg B to the left one, nothing of any resistance in between.
        PowerReport report = Solve(new PlanBuilder().BareFeeds().Section("s", 4)
            .Booster("b", ohms: 0).District("d", "b", 0)
            .Feeder("f1", "s", 0, "d", "b", 0).Feeder("f2", "s", 0, "d", "b", 0, swap: true));
        CircuitProblem.IdealShort problem = Assert.IsType<CircuitProblem.IdealShort>(Assert.Single(report.Problems));
        Assert.Equal("b", problem.Booster);
        Assert.Empty(report.Districts);
        Assert.Empty(report.Sections);
        Assert.Empty(report.Unfed);
    }

    [Fact]
    public void Rails_shorted_where_they_are_fed_count_as_unfed()
    {
        PowerReport report = Solve(Fed().Section("s", 4)
            .Feeder("f1", "s", 0, "d", "b", 0).Feeder("f2", "s", 0, "d", "b", 0, swap: true));
        Assert.Empty(report.Problems);
        Assert.Empty(report.Districts);
        Assert.Equal("s", Assert.Single(report.Unfed).Section.Name);
    }

    [Fact]
    public void Half_way_from_a_feeder_to_an_exchanged_one_there_is_nothing_to_draw_and_beyond_it_the_volts_are_turned()
    {
        // Both rails lie between leg A and leg B: beside each other half of r·D, and along them the volts fall from V to -V.
        foreach (double metres in (double[])[4, 4.2, 3.3, 2.6, 1.1])
        {
            PlanBuilder plan = Fed().Section("s", metres).Feeder("f1", "s", 0, "d", "b", 0).Feeder("f2", "s", metres, "d", "b", 0, swap: true);
            double rails = metres * 0.05 / 2, volts = 15 * rails / (rails + 0.15);
            PowerReport report = Solve(plan.Build(), new()
            {
                Loads = [new(new(new("s"), metres / 2), ElectricCurrent.FromAmperes(0.1))],
                Probes = [new(new("s"), 0), new(new("s"), metres / 4), new(new("s"), metres)],
            });
            Assert.Empty(report.Problems);
            Assert.Equal(0, report.Places[0].Drawn?.Amperes ?? 0);
            Assert.Equal([0, volts, volts / 2, -volts], report.Places.Select(place => place.Volts.Volts), (one, other) => Math.Abs(one - other) < 1e-9);
        }
    }

    [Fact]
    public void Two_separate_boosters_are_solved_each_with_its_own()
    {
        PowerReport report = Solve(new PlanBuilder().BareFeeds().Section("one", 2).Section("two", 4)
            .Booster("b1", 15, 0.1).Booster("b2", 18, 0.2).District("d1", "b1", 0).District("d2", "b2", 0)
            .Feeder("f1", "one", 0, "d1", "b1", 0).Feeder("f2", "two", 0, "d2", "b2", 0));
        Assert.Equal(15 / (0.1 + 0.2 + 0.05), report.Districts[0].LowestFault.FaultCurrent.Amperes, 1e-9);
        Assert.Equal(18 / (0.2 + 0.4 + 0.05), report.Districts[1].LowestFault.FaultCurrent.Amperes, 1e-9);
    }

    [Fact]
    public void Boosters_with_a_common_return_rail_keep_their_own_loops()
    {
        // Left rail gapped between the districts, right rail through: the return has two ways, to the one terminal that the
        // current must come back to; the other booster's is a dead end.
        PowerReport report = Solve(new PlanBuilder().BareFeeds().Section("s", 4).Cut("s", 2, RailSet.Left)
            .Booster("b1", 15, 0.1).Booster("b2", 18, 0.2).District("d1", "b1", 0).District("d2", "b2", 0)
            .Feeder("f1", "s", 0, "d1", "b1", 0).Feeder("f2", "s", 4, "d2", "b2", 0));
        Assert.Equal(15 / (0.1 + 0.2 + 0.05), report.Districts[0].LowestFault.FaultCurrent.Amperes, 1e-9);
        Assert.Equal(18 / (0.2 + 0.2 + 0.05), report.Districts[1].LowestFault.FaultCurrent.Amperes, 1e-9);
        Assert.Equal(0.2, report.Districts[1].LowestFault.Loop.Ohms, 1e-9);
    }

    [Fact]
    public void Two_districts_that_touch_share_a_short_between_their_breakers()
    {
        // Both breakers (0.1 Ω each) meet at the feed: half the current each, so the sources count 0.05 + 0.2 Ω and the rails 0.4 Ω.
        PowerReport report = Solve(new PlanBuilder().BareFeeds().Section("s", 4)
            .Booster("b", 15, 0.2).District("d1", "b", 0.1).District("d2", "b", 0.1)
            .Feeder("f1", "s", 0, "d1", "b", 0).Feeder("f2", "s", 0, "d2", "b", 0));
        PlacePower worst = Assert.Single(report.Sections).LargestLoop;
        Assert.Equal(0.4, worst.Loop.Ohms, 1e-9);
        Assert.Equal(15 / (0.05 + 0.2 + 0.4 + 0.05), worst.FaultCurrent.Amperes, 1e-9);
    }

    [Fact]
    public void Asked_places_come_back_in_order_and_unfed_ones_with_nothing()
    {
        PowerOptions options = new() { Probes = [new(new("t"), 1), new(new("s"), 4), new(new("s"), 0)] };
        PowerReport report = Solve(Fed().Section("s", 4).Section("t", 2).Feeder("f", "s", 0, "d", "b", 0).Build(), options);
        Assert.Equal(options.Probes, report.Places.Select(place => place.At));
        Assert.Equal([0, 15, 15], report.Places.Select(place => Math.Round(place.Volts.Volts, 9)));
    }

    [Fact]
    public void Cancelling_stops_the_analysis() =>
        Assert.Throws<OperationCanceledException>(() => PowerAnalysis.Solve(
            Fed().Section("s", 4).Build(), PowerOptions.Default, new CancellationToken(canceled: true)));

    [Fact]
    public void Names_that_a_simulator_would_confuse_become_different_nodes()
    {
        Layout layout = Fed().Section("Gnd", 1).Section("gnd", 1).Section("G nd", 1).Join("Gnd.b", "gnd.a").Join("gnd.b", "G nd.a")
            .Feeder("f", "gnd", 0.5, "d", "b").Build();
        string netlist = SpiceNetlist.Write(RailGraph.Build(layout), PowerOptions.Default);
        string[] nodes = [.. netlist.Split('\n').Where(line => line.StartsWith("* place ", StringComparison.Ordinal)).Select(line => line.Split(' ')[^1])];
        Assert.Contains("gnd_b_left", nodes);
        Assert.Contains("gnd_b_left_2", nodes);
        Assert.Equal(15, Ngspice.OperatingPoint(netlist)["gnd_0_5_m_left"], 1e-6);
    }

    private static PlanBuilder Fed() => new PlanBuilder().BareFeeds().Booster("b").District("d", "b");

    private static PowerReport Solve(PlanBuilder plan) => Solve(plan.Build(), PowerOptions.Default);

    private static PowerReport Solve(Layout layout, PowerOptions options) =>
        PowerAnalysis.Solve(layout, options, TestContext.Current.CancellationToken);
}
