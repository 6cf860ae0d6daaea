using WireUp.Layouts;
using WireUp.Planning.Frogs;
using WireUp.Planning.Tests.Reversing;

namespace WireUp.Planning.Tests.Frogs.Exact;

public sealed class HeelGapTests
{
    private static string[] GapsOf(Layout layout, FrogOptions? options = null) =>
        [.. FrogPlanner.Plan(layout, options).Gaps.Select(gap => $"{gap.At} {gap.Rails}")];

    [Fact]
    public void Live_turnout_gets_a_gap_in_both_inner_rails() => Assert.Equal(
        ["T1.through Right", "T1.diverging Left"],
        GapsOf(Track.Of("toe 2; main 2; side 2; T1 right live", "toe > T1.points", "T1.through > main", "T1.diverging > side")));

    [Fact]
    public void The_inner_rails_of_a_left_hand_turnout_lie_the_other_way() => Assert.Equal(
        ["T1.diverging Right", "T1.through Left"],
        GapsOf(Track.Of("toe 2; main 2; side 2; T1 left live", "toe > T1.points", "T1.through > main", "T1.diverging > side")));

    [Theory]
    [InlineData("insulated")]
    [InlineData("isolated")]
    public void A_frog_that_is_no_conductor_with_its_legs_needs_no_gap(string frog) => Assert.Empty(
        GapsOf(Track.Of($"toe 2; main 2; side 2; T1 right {frog}", "toe > T1.points", "T1.through > main", "T1.diverging > side")));

    [Fact]
    public void A_leg_that_ends_at_once_needs_no_gap() => Assert.Equal(
        ["T1.through Right"],
        GapsOf(Track.Of("toe 2; main 2; end stop; T1 right live", "toe > T1.points", "T1.through > main", "T1.diverging > end.a")));

    [Fact]
    public void Crossover_joined_heel_to_heel_gets_one_gap_in_each_rail() => Assert.Equal(
        ["T1.through Right", "T1.diverging Left", "T2.through Right", "T2.diverging Left"],
        GapsOf(Track.Of(
            "u1 2; u2 2; d1 2; d2 2; T1 right live; T2 right live",
            "u1 > T1.points", "T1.through > u2", "d1 > T2.points", "T2.through > d2", "T1.diverging > T2.diverging")));

    [Fact]
    public void Two_frogs_that_face_each_other_on_the_same_rail_need_one_gap_between_them() => Assert.Equal(
        ["T1.through Right", "T1.diverging Left", "T2.diverging Right"],
        GapsOf(Track.Of(
            "west 2; east 2; siding 2; T1 right live; T2 left live",
            "west > T1.points", "east > T2.points", "T1.through > T2.through", "T1.diverging > siding > T2.diverging")));

    [Fact]
    public void Between_frogs_on_the_same_rail_a_piece_too_short_to_strand_an_engine_needs_no_feeder_and_one_gap() => Assert.Equal(
        ["T1.diverging Left", "T2.diverging Right", "T2.through Left"],
        GapsOf(Track.Of(
            "west 2; east 2; siding 2; short 0.05; T1 right live; T2 left live",
            "west > T1.points", "east > T2.points", "T1.through > short > T2.through", "T1.diverging > siding > T2.diverging")));

    [Fact]
    public void Every_turnout_of_a_ladder_is_fed_past_the_one_before_it() => Assert.Equal(
        ["L1.through Right", "L1.diverging Left", "L2.through Right", "L2.diverging Left"],
        GapsOf(Track.Of(
            "lead 2; r1 2; r2 2; r3 2; L1 right live; L2 right live",
            "lead > L1.points", "L1.through > r1", "L1.diverging > L2.points", "L2.through > r2", "L2.diverging > r3")));

    [Fact]
    public void Existing_gaps_are_counted()
    {
        var layout = Track.Of("toe 2; main 2; side 2; T1 right live", "toe > T1.points", "T1.through > main", "T1.diverging > side")
            .Wired(wiring => wiring with { Gaps = [new(new GapPlace.InJoint(Track.EndOf("main.a")), RailSet.Left)] });
        Assert.Equal(["T1.diverging Left"], GapsOf(layout));
    }

    [Fact]
    public void A_stub_that_may_have_no_feeder_is_fed_through_the_frog()
    {
        var layout = Track.Of("toe 2; main 2; side 2; T1 right live", "toe > T1.points", "T1.through > main", "T1.diverging > side");
        Assert.Equal(["T1.through Right"], GapsOf(layout with { NoFeeder = [new("side")] }));
    }

    [Fact]
    public void Dead_end_roads_may_be_asked_to_follow_the_points()
    {
        var layout = Track.Of(
            "toe 2; main 2; side 2; T1 right live; T2 left live",
            "toe > T1.points", "T1.through > main > T2.points", "T1.diverging > side");
        Assert.Equal(["T1.through Right"], GapsOf(layout, new() { DeadEndRoadsFollowPoints = true }));
    }

    [Fact]
    public void A_gap_where_none_may_be_cut_remains()
    {
        var layout = Track.Of("toe 2; main 2; T1 right live", "toe > T1.points", "T1.through > main").NoGap("T1", "main");
        var plan = FrogPlanner.Plan(layout);
        Assert.Empty(plan.Gaps);
        Assert.Contains("T1.through/right", Assert.Single(plan.Remains), StringComparison.Ordinal);
    }

    [Fact]
    public void Three_rail_frogs_need_nothing() => Assert.Empty(GapsOf(
        Track.Of("toe 2; main 2; T1 right live", "toe > T1.points", "T1.through > main") with { Control = ControlSystem.ThreeRail }));

    [Theory]
    [InlineData("same", new[] { "X.a1 Left", "X.b1 Right", "X.a2 Left", "X.b2 Right" })]
    [InlineData("opposite", new[] { "X.a1 Right", "X.b2 Left", "X.b1 Left", "X.a2 Right" })]
    public void Live_crossing_gets_four_gaps_at_the_two_frogs_that_follow_the_route(string phase, string[] gaps) => Assert.Equal(
        gaps, GapsOf(Track.Of($"p 2; q 2; r 2; s 2; X crossing live {phase}", "p > X.a1", "X.a2 > q", "r > X.b1", "X.b2 > s")));

    [Theory]
    [InlineData("slip")]
    [InlineData("single-slip")]
    public void Live_slip_gets_four_gaps(string kind) => Assert.Equal(
        ["X.a1 Left", "X.b1 Right", "X.a2 Left", "X.b2 Right"],
        GapsOf(Track.Of($"p 2; q 2; r 2; s 2; X {kind} live", "p > X.a1", "X.a2 > q", "r > X.b1", "X.b2 > s")));

    [Fact]
    public void Live_three_way_turnout_gets_four_gaps() => Assert.Equal(
        ["W.left Right", "W.through Left", "W.through Right", "W.right Left"],
        GapsOf(Track.Of("toe 2; l 2; m 2; r 2; W three-way live", "toe > W.points", "W.left > l", "W.through > m", "W.right > r")));

    [Theory]
    [InlineData("insulated")]
    [InlineData("isolated")]
    [InlineData("live")]
    public void Scissors_carry_their_cuts_inside_and_need_none_outside(string frog) => Assert.Empty(
        GapsOf(Track.Of($"p 2; q 2; r 2; s 2; S scissors {frog}", "p > S.a1", "S.a2 > q", "r > S.b1", "S.b2 > s")));

    [Fact]
    public void Isolated_frog_that_is_one_with_the_rails_beyond_it_needs_gaps_like_a_live_one()
    {
        var layout = Track.Of("toe 2; main 2; side 2; T1 right isolated", "toe > T1.points", "T1.through > main", "T1.diverging > side");
        layout = layout with { Track = [.. layout.Track.Select(piece => piece is Piece.Turnout turnout ? turnout with { HeelInFrog = true } : piece)] };
        Assert.Equal(["T1.through Right", "T1.diverging Left"], GapsOf(layout));
    }

    [Fact]
    public void A_gap_says_in_which_positions_it_is_needed()
    {
        var layout = Track.Of("toe 2; l 2; m 2; r 2; W three-way live", "toe > W.points", "W.left > l", "W.through > m", "W.right > r");
        var proposal = FrogPlanner.Plan(layout).Proposals.Single(one => one.At == "W.through/left");
        Assert.Contains("when set for 'left',", proposal.Reason, StringComparison.Ordinal);
    }
}
