using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>Three-rail phases, programming tracks, accessories, isolating switches and lift-out sections.</summary>
public sealed class ControlSystemTests
{
    [Theory]
    [InlineData(false, "t1@1", "t2@1", 0)]
    [InlineData(true, "t1@1", "t2@1", 1)]
    [InlineData(true, "t1@1?S.one", "t2@1?S.two", 0)]
    [InlineData(true, "t1@1?S.one", "t2@1?R.on", 1)]
    public void Controllers_out_of_phase_are_told_at_their_gap_when_both_can_be_on(bool turned, string one, string other, int told)
    {
        PlanBuilder plan = ThreeRail(turned).Sections("t1 t2").Chain("t1 > t2").Gap("t1.b", RailSet.Left)
            .Switch("S", "one two").Switch("R", "on off").Feed("a", one).Feed("b", other);
        Assert.Equal(told, Checks.Of(plan, "WU3021").Length);
        Assert.Empty(Checks.Of(plan, "WU3008"));
    }

    [Fact]
    public void Centre_rails_out_of_phase_and_joined_are_told_as_such_and_not_as_a_short_of_rail_a_and_b()
    {
        PlanBuilder plan = ThreeRail(turned: true).Sections("t1 t2").Chain("t1 > t2").Feed("a", "t1@1").Feed("b", "t2@1");
        Assert.Single(Checks.Of(plan, "WU3021"));
        Assert.Empty(Checks.Of(plan, "WU3001"));
        Assert.Empty(Checks.Of(plan, "WU3004"));
    }

    [Theory]
    [InlineData(false, false, 0)]
    [InlineData(true, false, 1)]
    [InlineData(true, true, 0)] // its feeders exchanged make up for it
    public void Boosters_out_of_phase_under_command_control_are_told_at_their_gap(bool turned, bool exchanged, int told)
    {
        PlanBuilder plan = new PlanBuilder().Booster("west").Booster("east", turned: turned).District("a", booster: "west").District("b", booster: "east")
            .Sections("t1 t2").Chain("t1 > t2").Gap("t1.b").Feed("a", "t1@1").Feed("b", exchanged ? "t2@1!" : "t2@1");
        Assert.Equal(told, Checks.Of(plan, "WU3021").Length);
        Assert.Empty(Checks.Of(plan, "WU3008"));
        Assert.Empty(Checks.Of(plan, "WU3005"));
    }

    [Fact]
    public void Dead_centre_rail_between_two_gaps_keeps_supplies_out_of_phase_apart()
    {
        PlanBuilder plan = ThreeRail(turned: true).Sections("t1 dead t2").Chain("t1 > dead > t2")
            .Gap("t1.b", RailSet.Left).Gap("dead.b", RailSet.Left).Feed("a", "t1@1").Feed("b", "t2@1");
        Assert.Empty(Checks.Of(plan, "WU3021"));
    }

    [Theory]
    [InlineData(RailSet.Left)]
    [InlineData(RailSet.Right)]
    public void Programming_track_cut_in_one_rail_only_is_joined(RailSet cut)
    {
        Finding found = Assert.Single(Checks.Of(Spur().Gap("main.b", cut).Feed("main", "main@1").Feed("prog", "spur@1"), "WU3022"));
        Assert.Equal(Severity.Error, found.Severity);
        Assert.Empty(Checks.Of(Spur().Gap("main.b", cut).Feed("main", "main@1").Feed("prog", "spur@1"), "WU3004"));
    }

    [Fact]
    public void Programming_track_joined_in_one_position_is_told_with_it()
    {
        PlanBuilder plan = Spur().Gap("main.b", RailSet.Both, "K.closed").Switch("K", "open closed").Feed("main", "main@1").Feed("prog", "spur@1");
        Finding found = Assert.Single(Checks.Of(plan, "WU3022"));
        Assert.Equal("closed", found.Turnouts[new("K")]);
    }

    [Theory]
    [InlineData(0.05, Severity.Warning, 1)] // 60 mm of pick-up base and 50 mm are needed
    [InlineData(0.109, Severity.Warning, 1)]
    [InlineData(0.11, Severity.Warning, 0)]
    public void Buffer_beside_a_programming_track_must_hold_the_longest_pickup_base_and_a_margin(double metres, Severity severity, int told)
    {
        PlanBuilder plan = Programming().Sections("main").Sections("buffer", metres).Sections("spur").Chain("main > buffer > spur")
            .Gap("main.b").Gap("buffer.b").Feed("main", "main@1").Feed("prog", "spur@1");
        Finding[] found = [.. Checks.Of(plan, "WU3023")];
        Assert.Equal(told, found.Length);
        Assert.All(found, finding => Assert.Equal(severity, finding.Severity));
    }

    [Fact]
    public void Programming_track_always_on_beside_running_track_is_an_error()
    {
        PlanBuilder plan = Spur().Gap("main.b").Feed("main", "main@1").Feed("prog", "spur@1");
        Assert.Equal(Severity.Error, Assert.Single(Checks.Of(plan, "WU3023")).Severity);
    }

    [Fact]
    public void Buffer_that_is_live_only_while_the_switch_runs_trains_counts_as_dead()
    {
        PlanBuilder plan = Programming().Sections("main").Sections("buffer", 0.3).Sections("spur").Chain("main > buffer > spur")
            .Gap("main.b").Gap("buffer.b").Switch("P", "run program")
            .Feed("main", "main@1", "buffer@0.1?P.run", "spur@1?P.run").Feed("prog", "spur@1?P.program");
        Assert.Empty(Checks.Of(plan, "WU3023"));
        Assert.Empty(Checks.Of(plan, "WU3022"));
    }

    [Fact]
    public void Programming_track_beside_a_reversing_section_is_told()
    {
        PlanBuilder plan = Programming().District("turn", reversing: true).Sections("loop").Sections("buffer", 0.3).Sections("spur")
            .Chain("loop > buffer > spur").Gap("loop.b").Gap("buffer.b").Feed("turn", "loop@1").Feed("prog", "spur@1");
        Assert.Contains("reversing district", Assert.Single(Checks.Of(plan, "WU3023")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Accessory_feeder_on_the_rails_is_an_error_and_a_booster_for_both_is_not_under_command_control()
    {
        PlanBuilder plan = new PlanBuilder().District("main").District("points", use: DistrictUse.Accessories).Sections("s").Feed("main", "s@1");
        Assert.Empty(Checks.Of(plan, "WU5003"));
        Assert.Equal(Severity.Error, Assert.Single(Checks.Of(plan.Feed("points", "s@1.5"), "WU5003")).Severity);
    }

    [Theory]
    [InlineData("cab", true, 1)] // the cab itself
    [InlineData("aux", true, 0)] // one of its own, isolated
    [InlineData("aux", false, 1)] // one of its own that shares a side with the cab
    public void Accessories_share_nothing_with_a_cab(string booster, bool isolated, int told)
    {
        PlanBuilder plan = new PlanBuilder { Control = ControlSystem.Direct }.Booster("cab", isolated).Booster("aux", isolated)
            .District("main", booster: "cab").District("points", booster: booster, use: DistrictUse.Accessories).Sections("s").Feed("main", "s@1");
        Assert.Equal(told, Checks.Of(plan, "WU5003").Length);
    }

    [Theory]
    [InlineData("siding@1?S.on", 0)]
    [InlineData("siding@1", 1)] // an unswitched feeder inside
    public void Isolating_section_has_one_switched_way_for_its_current(string second, int told)
    {
        PlanBuilder plan = new PlanBuilder().Sections("main siding").Chain("main > siding").Gap("main.b", RailSet.Left, "S.on")
            .Switch("S", "on off").Feed("main", "main@1", second);
        Assert.Equal(told, Checks.Of(plan, "WU5004").Length);
    }

    [Fact]
    public void A_switch_that_still_turns_off_one_rail_is_not_defeated()
    {
        // The right rail leads on to fed track, the left one is cut at both ends.
        PlanBuilder plan = new PlanBuilder().Sections("main siding far").Chain("main > siding > far").Gap("main.b", RailSet.Both, "S.on").Gap("siding.b", RailSet.Left)
            .Switch("S", "on off").Feed("main", "main@1", "far@1");
        Assert.Empty(Checks.Of(plan, "WU5004"));
    }

    [Fact]
    public void Two_switches_to_one_section_defeat_each_other()
    {
        PlanBuilder plan = new PlanBuilder().Sections("siding").Switch("S", "on off").Switch("R", "on off")
            .Feed("main", "siding@0.5?S.on", "siding@1.5?R.on");
        Assert.Equal(["S", "R"], Checks.Of(plan, "WU5004").Select(finding => finding.Places[0]));
    }

    [Theory]
    [InlineData(0.5, 2)]
    [InlineData(1.49, 2)]
    [InlineData(1.51, 0)]
    public void Track_before_a_lift_out_section_is_dead_for_as_long_as_a_train_needs(double approach, int told)
    {
        // 1.5 m in HO; the approach sections get current through the bridge's own contact.
        PlanBuilder plan = new PlanBuilder().Sections("west").Sections("near", approach).LiftOut("bridge").Sections("far", approach).Sections("east")
            .Chain("west > near > bridge > far > east").Gap("west.b").Gap("far.b")
            .Feed("main", "west@1", "near@0.1?bridge.in", "far@0.1?bridge.in", "east@1");
        Finding[] found = [.. Checks.Of(plan, "WU5005")];
        Assert.Equal(told, found.Length);
        Assert.All(found, finding => Assert.Equal("out", finding.Turnouts[new("bridge")]));
    }

    [Fact]
    public void Approach_with_a_feeder_of_its_own_is_told_at_the_edge()
    {
        PlanBuilder plan = new PlanBuilder().Sections("west").LiftOut("bridge").Chain("west > bridge").Feed("main", "west@1");
        Assert.Contains("0 mm", Assert.Single(Checks.Of(plan, "WU5005")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Approach_that_has_current_in_either_position_of_a_switch_is_told()
    {
        PlanBuilder plan = new PlanBuilder().Sections("west").LiftOut("bridge").Chain("west > bridge").Switch("K", "one two").Feed("main", "west@0.5?K.one", "west@1.5?K.two");
        Assert.Single(Checks.Of(plan, "WU5005"));
    }

    [Fact]
    public void Dead_end_before_a_lift_out_section_needs_no_length()
    {
        PlanBuilder plan = new PlanBuilder().Sections("stub", 0.4).LiftOut("bridge").Sections("east").Chain("stub > bridge > east").Feed("main", "bridge@0.5");
        Assert.Empty(Checks.Of(plan, "WU5005"));
    }

    [Fact]
    public void Switch_that_nothing_names_is_told() =>
        Assert.Equal(["S"], Assert.Single(Checks.Of(new PlanBuilder().Sections("s").Switch("S", "on off").Feed("main", "s@1"), "WU5006")).Places);

    private static PlanBuilder ThreeRail(bool turned) => new PlanBuilder { Control = ControlSystem.ThreeRail }
        .Booster("left-hand").Booster("right-hand", turned: turned).District("a", booster: "left-hand").District("b", booster: "right-hand");

    private static PlanBuilder Programming() => new PlanBuilder().District("main").District("prog", booster: "programmer", use: DistrictUse.Programming);

    private static PlanBuilder Spur() => Programming().Sections("main spur").Chain("main > spur");
}
