using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

public sealed class PolarityTests
{
    private static PolarityReport Look(PlanBuilder plan) => Polarity.Analyse(plan.Graph());

    private static string Text(RailMeeting meeting) => $"{meeting.From} > {string.Join(" > ", meeting.Path)} > {meeting.To}";

    [Fact]
    public void Balloon_loop_without_gaps_is_reported_once_whether_fed_or_not()
    {
        OddLoop unfed = Assert.Single(Look(Plans.Balloon()).OddLoops);
        PolarityReport fed = Look(Plans.Balloon().Feed("d", "spur@1"));
        OddLoop loop = Assert.Single(fed.OddLoops);
        Assert.Equal(unfed.Walk!.ToString(), loop.Walk!.ToString());
        Assert.NotEmpty(loop.Path);
        Assert.Empty(fed.Standing);
        Assert.Empty(fed.ByPosition);
        Assert.Empty(fed.Exchanged);
    }

    [Fact]
    public void Witness_of_a_balloon_loop_runs_from_one_rail_to_the_other_rail_of_the_same_end()
    {
        OddLoop loop = Assert.Single(Look(Plans.Balloon()).OddLoops);
        var (first, last) = ((RailPoint.AtEnd)loop.Path[0], (RailPoint.AtEnd)loop.Path[^1]);
        Assert.Equal(first.Rail.End, last.Rail.End);
        Assert.Equal(first.Rail.Side.Other(), last.Rail.Side);
    }

    [Theory]
    [InlineData(FrogKind.Insulated)]
    [InlineData(FrogKind.Live)]
    public void Balloon_loop_is_an_odd_loop_whatever_its_frog(FrogKind frog) => Assert.Single(Look(Plans.Balloon(frog)).OddLoops);

    [Fact]
    public void Wye_of_live_frogs_is_an_odd_loop_although_no_rail_of_it_meets_its_own_other_rail()
    {
        OddLoop loop = Assert.Single(Look(Plans.Wye(FrogKind.Live)).OddLoops);
        Assert.Empty(loop.Path);
        Assert.NotNull(loop.Walk);
    }

    [Fact]
    public void Reversing_section_between_double_gaps_is_free_of_conflict()
    {
        PolarityReport report = Look(Plans.Balloon().Gap("loop@0.2").Gap("loop@1.8")
            .District("main").District("turn", reversing: true).Feed("main", "spur@1").Feed("turn", "loop@1"));
        Assert.Empty(report.OddLoops);
        Assert.Empty(report.Standing);
        Assert.Empty(report.Unfed);
    }

    [Fact]
    public void Reversing_section_with_a_gap_missing_meets_the_main_district_on_that_rail()
    {
        PolarityReport report = Look(Plans.Balloon().Gap("loop@0.2").Gap("loop@1.8", RailSet.Left)
            .District("main").District("turn", reversing: true).Feed("main", "spur@1").Feed("turn", "loop@1"));
        RailMeeting meeting = Assert.Single(report.Standing);
        Assert.Equal(MeetingKind.Reversing, meeting.Kind);
        Assert.Equal(
            "f1/B > spur@1 m/right > spur.a/left > T1.points/right > T1.diverging/left > loop.b/right > loop@1.8 m/right > loop@1 m/right > f2/B",
            Text(meeting));
    }

    [Fact]
    public void Live_frog_between_two_fed_legs_shorts_over_the_way_from_wire_to_wire()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: FrogKind.Live)
            .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1", "left@1", "right@1"));
        Assert.Equal(
            "f2/B > left@1 m/right > left.a/left > T1.through/right > T1/frog > T1.diverging/left > right.a/right > right@1 m/left > f3/A",
            Text(Assert.Single(report.Standing)));
    }

    [Fact]
    public void Feeder_with_its_wires_exchanged_is_named_with_the_short_it_makes()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("a b c").Chain("a > b > c").Feed("d", "a@1", "b@1!", "c@1"));
        ExchangedFeeders exchanged = Assert.Single(report.Exchanged);
        Assert.Equal(["f2"], exchanged.Feeders);
        Assert.Equal(["f1", "f3"], exchanged.Against);
        Assert.False(exchanged.IsTie);
        Assert.Equal("f1/A > a@1 m/left > a.b/left > b.a/right > b@1 m/left > f2/B", Text(exchanged.Short!));
        Assert.Empty(report.Standing);
    }

    [Fact]
    public void Of_two_feeders_that_contradict_each_other_it_is_said_that_either_may_be_the_mistake()
    {
        ExchangedFeeders exchanged = Assert.Single(Look(
            new PlanBuilder().Sections("a b").Chain("a > b").Feed("d", "a@1", "b@1!")).Exchanged);
        Assert.True(exchanged.IsTie);
    }

    [Fact]
    public void Feeders_agree_round_a_turnout_although_their_sections_run_in_different_directions()
    {
        PolarityReport report = Look(Plans.OvalWithSiding().Feed("d", "ring@1", "main@1", "siding@1"));
        Assert.Empty(report.Exchanged);
        Assert.Empty(report.Standing);
    }

    [Fact]
    public void Two_districts_joined_by_ungapped_rail_are_named_leg_by_leg()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("a b").Chain("a > b").Feed("east", "a@1").Feed("west", "b@1"));
        Assert.Equal([Leg.A, Leg.B], report.Standing.Select(meeting => meeting.From.Leg));
        Assert.All(report.Standing, meeting => Assert.Equal(MeetingKind.Joined, meeting.Kind));
    }

    [Fact]
    public void Two_districts_kept_apart_by_gaps_do_not_meet() =>
        Assert.Empty(Look(new PlanBuilder().Sections("a b").Chain("a > b").Gap("a.b").Feed("east", "a@1").Feed("west", "b@1")).Standing);

    [Fact]
    public void Running_rails_of_three_rail_districts_may_be_common_and_centre_rails_may_not()
    {
        PlanBuilder Plan() => new PlanBuilder { Control = ControlSystem.ThreeRail }
            .Sections("a b").Chain("a > b").Feed("east", "a@1").Feed("west", "b@1");
        Assert.Empty(Look(Plan().Gap("a.b", RailSet.Left)).Standing);
        Assert.Equal(Leg.A, Assert.Single(Look(Plan()).Standing).From.Leg);
    }

    [Fact]
    public void Three_rail_feeder_with_its_wires_exchanged_shorts_the_centre_to_the_running_rails()
    {
        PolarityReport report = Look(new PlanBuilder { Control = ControlSystem.ThreeRail }
            .Sections("a b c").Chain("a > b > c").Feed("d", "a@1", "b@1", "c@1!"));
        Assert.Equal(["f3"], Assert.Single(report.Exchanged).Feeders);
    }

    [Fact]
    public void Live_passing_loop_without_gaps_shorts_over_both_frogs_when_its_turnouts_disagree()
    {
        // Both roads are fed through the turnouts only; the inner rails of both frogs are one conductor.
        PolarityReport report = Look(Plans.OvalWithSiding(FrogKind.Live).Feed("d", "ring@1"));
        Assert.Equal(
            ["T1=diverging T2=through", "T1=through T2=diverging"],
            report.ByPosition.Select(meeting => string.Join(' ', meeting.Turnouts.Select(pair => $"{pair.Key}={pair.Value}"))).Order());
        Assert.All(report.ByPosition, meeting => Assert.Equal(2, meeting.Frogs.Length));
        Assert.Empty(report.Standing);
    }

    [Fact]
    public void One_gap_between_two_frogs_that_face_each_other_on_the_same_rail_is_enough()
    {
        // T1.through/right is the frog's rail; one gap in each road.
        PolarityReport report = Look(Plans.OvalWithSiding(FrogKind.Live)
            .Gap("T1.through", RailSet.Right).Gap("T1.diverging", RailSet.Left).Feed("d", "ring@1"));
        Assert.Empty(report.ByPosition);
    }

    [Fact]
    public void Crossover_of_live_turnouts_needs_a_gap_in_each_rail()
    {
        PlanBuilder Plan() => new PlanBuilder().Turnouts("T1 T2", frog: FrogKind.Live).Sections("w1 e1 w2 e2")
            .Chain("T1.points > w1").Chain("T1.through > e1").Chain("T2.points > e2").Chain("T2.through > w2")
            .Chain("T1.diverging > T2.diverging")
            .Gap("T1.through", RailSet.Right).Gap("T2.through", RailSet.Right)
            .Feed("d", "w1@1!", "e1@1", "w2@1!", "e2@1");
        Assert.Empty(Look(Plan().Gap("T1.diverging", RailSet.Left).Gap("T2.diverging", RailSet.Left)).ByPosition);
        Assert.NotEmpty(Look(Plan().Gap("T1.diverging", RailSet.Left)).ByPosition);
        Assert.NotEmpty(Look(Plan().Gap("T2.diverging", RailSet.Left)).ByPosition);
    }

    [Fact]
    public void Frog_whose_rails_are_joined_beyond_it_is_named_even_when_nothing_is_fed()
    {
        // A live turnout facing an insulated one round a passing loop: the insulated one bonds both inner rails to its stock rails.
        PolarityReport report = Look(new PlanBuilder()
            .Turnouts("T1", TurnoutHand.Right, FrogKind.Live).Turnouts("T2", TurnoutHand.Left).Sections("ring main siding")
            .Chain("T1.through > main > T2.through").Chain("T1.diverging > siding > T2.diverging").Chain("T2.points > ring > T1.points"));
        FrogFault fault = Assert.Single(report.FrogFaults);
        Assert.Equal("T1", fault.Turnout.Name);
        Assert.Contains(fault.Path, point => point.ToString() == "T1/frog");
        Assert.Empty(report.OddLoops);
    }

    [Fact]
    public void Ladder_of_a_hundred_live_turnouts_without_gaps_fed_at_its_toe_is_searched_to_the_end()
    {
        PolarityReport report = Look(Ladder(100).Feed("d", "lead@1!"));
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.Undecided);
        Assert.Empty(report.Unfed);
    }

    [Fact]
    public void Ladder_of_a_hundred_live_turnouts_without_gaps_and_every_road_fed_shorts_at_every_frog()
    {
        // The frog of each turnout is a stock rail of the next: road i brings B to it, road i + 1 brings A. The last one meets A when thrown.
        PlanBuilder plan = Ladder(100).Feed("d", "lead@1!");
        PolarityReport report = Look(plan.Feed("d", [.. Enumerable.Range(1, 100).Select(i => $"road-{i}@1")]));
        Assert.Empty(report.Undecided);
        Assert.Equal(Enumerable.Range(1, 99).Select(i => $"T{i}"), report.Standing.Select(meeting => meeting.Frogs.Single().Name));
        Assert.Equal((new PieceId("T100"), "diverging"), Assert.Single(Assert.Single(report.ByPosition).Turnouts.Select(pair => (pair.Key, pair.Value))));
    }

    [Fact]
    public void Rails_beyond_a_gap_have_no_feed()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("a b").Chain("a > b").Gap("a@1.5", RailSet.Left).Feed("d", "a@1"));
        Assert.Equal(
            [new UnfedRail(new("a"), RailSide.Left, 1.5, 2), new UnfedRail(new("b"), RailSide.Left, 0, 2)],
            report.Unfed);
    }

    private static PlanBuilder Ladder(int roads)
    {
        PlanBuilder plan = new PlanBuilder().Sections("lead").Chain("T1.points > lead");
        for (int i = 1; i <= roads; i++)
        {
            plan.Turnouts($"T{i}", frog: FrogKind.Live).Sections($"road-{i}").Chain($"T{i}.through > road-{i}");
            if (i > 1)
            {
                plan.Chain($"T{i - 1}.diverging > T{i}.points");
            }
        }

        return plan;
    }
}
