using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

public sealed class ClassicPlanTests
{
    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    private static string[] Borders(ReversingSection section) =>
        [.. section.Borders.Select(border => border.At.ToString()!).Order(StringComparer.Ordinal)];

    private static string[] Turnouts(ReversingSection section) => [.. section.Turnouts.Select(turnout => turnout.Name)];

    private static string[] Sections(ReversingPlan plan) =>
        [.. plan.Sections.Select(section => string.Join('+', section.Stretches.Select(stretch => stretch.Section.Name).Distinct()))];

    [Fact]
    public void Balloon_gets_a_section_inside_its_loop()
    {
        var plan = Plan(Classics.Balloon());
        var section = Assert.Single(plan.Sections);
        Assert.Equal(["loop"], Sections(plan));
        Assert.Empty(section.Turnouts);
        Assert.True(section.Drivable.Meters >= 1.1);
        Assert.Empty(plan.Remains);
    }

    [Fact]
    public void Balloon_gaps_go_just_beyond_the_clearance_points()
    {
        // Clearance point: a leg of a number 6 is three gauges of 16.5 mm off after 6 × 2 × 16.5 = 198 mm, cut at the next centimetre.
        var section = Assert.Single(Plan(Classics.Balloon(loop: 2)).Sections);
        Assert.Equal(["loop@0.2 m", "loop@1.8 m"], Borders(section));
        Assert.Equal(1.6, section.Drivable.Meters, 1e-9);
    }

    [Fact]
    public void Gaps_come_nearer_the_frogs_when_the_train_would_not_fit_otherwise()
    {
        // 1.3 m − 2 × 60 mm wheel base = 1.18 m ≥ 1.1 m, but 1.3 m − 2 × 198 mm = 0.9 m is not.
        var section = Assert.Single(Plan(Classics.Balloon(loop: 1.3)).Sections);
        Assert.InRange(section.Drivable.Meters, 1.1, 1.18 + 1e-9);
    }

    [Fact]
    public void Wye_gets_its_tail_with_the_tail_turnout_gapped_on_both_legs()
    {
        var section = Assert.Single(Plan(Classics.Wye()).Sections);
        Assert.Equal(["T3"], Turnouts(section));
        Assert.Equal(["left@4.8 m", "right@4.8 m"], Borders(section));
        Assert.True(section.TurnsByReversing);
        Assert.Equal(2, section.Drivable.Meters, 1e-9);
    }

    [Fact]
    public void Wye_is_cured_by_one_side_alone_when_the_legs_may_not_be_cut() =>
        Assert.Equal(["main"], Sections(Plan(Classics.Wye().NoGap("left", "right"))));

    [Fact]
    public void Wye_is_not_cured_by_its_tail_track_alone()
    {
        var plan = Plan(Classics.Wye().NoGap("left", "right", "main"));
        Assert.Empty(plan.Sections);
        Assert.Contains(plan.Remains, text => text.StartsWith("No reversing section fits", StringComparison.Ordinal));
    }

    [Fact]
    public void Cut_off_across_an_oval_is_itself_the_section()
    {
        var section = Assert.Single(Plan(Classics.OvalWithCutOff()).Sections);
        Assert.Equal(["cutoff@0.2 m", "cutoff@2.8 m"], Borders(section));
    }

    [Fact]
    public void Cut_off_too_short_for_the_train_is_extended_through_one_turnout_into_the_main()
    {
        var plan = Plan(Classics.OvalWithCutOff(cutoff: 0.8));
        var section = Assert.Single(plan.Sections);
        Assert.Single(section.Turnouts);
        Assert.Equal(3, section.Borders.Length);
        Assert.True(section.Drivable.Meters >= 1.1);
        Assert.Empty(plan.Remains);
    }

    [Fact]
    public void Crossover_in_a_folded_oval_needs_one_of_its_turnouts_with_a_stretch_of_main_and_three_pairs_of_gaps()
    {
        var section = Assert.Single(Plan(Classics.FoldedOvalWithCrossover()).Sections);
        Assert.Single(section.Turnouts);
        Assert.Equal(3, section.Borders.Length);
        Assert.True(section.Drivable.Meters >= 1.1);
    }

    [Fact]
    public void Two_crossovers_in_a_folded_oval_need_one_section_with_two_turnouts_and_four_pairs_of_gaps()
    {
        var section = Assert.Single(Plan(Classics.FoldedOvalWithTwoCrossovers()).Sections);
        Assert.Equal(2, section.Turnouts.Length);
        Assert.Equal(4, section.Borders.Length);
    }

    [Fact]
    public void Loop_to_loop_takes_the_main_line_with_both_its_turnouts()
    {
        var section = Assert.Single(Plan(Classics.LoopToLoop()).Sections);
        Assert.Equal(["T1", "T2"], Turnouts(section));
        Assert.Equal(4, section.Borders.Length);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Loop_to_loop_takes_the_main_line_with_a_few_spurs_along_it(int spurs)
    {
        var layout = Classics.LoopToLoopWithSpurs(spurs);
        var plan = Plan(layout);
        var section = Assert.Single(plan.Sections);
        Assert.Equal(2 + spurs, section.Turnouts.Length);
        Assert.Empty(Validity.Broken(layout, PlanDrawing.Of(plan)));
    }

    [Fact]
    public void Loop_to_loop_keeps_two_sections_where_many_spurs_lie_between_and_says_that_one_would_do()
    {
        var plan = Plan(Classics.LoopToLoopWithSpurs(5));
        Assert.Equal(2, plan.Sections.Length);
        Assert.All(plan.Sections, section => Assert.Contains("in place of these 2, with one device", section.Instead, StringComparison.Ordinal));
        Assert.Contains(plan.Proposals, proposal => proposal.Reason.Contains("trains stand on its dead-end roads", StringComparison.Ordinal));
    }

    [Fact]
    public void Loop_to_loop_keeps_two_sections_where_trains_pass_between_and_says_that_one_would_do()
    {
        var plan = Plan(Classics.LoopToLoopWithSiding());
        Assert.Equal(2, plan.Sections.Length);
        Assert.Contains("trains pass and wait in it", plan.Sections[0].Instead, StringComparison.Ordinal);
    }

    [Fact]
    public void The_main_line_of_a_folded_oval_does_not_swap_for_trains_that_go_round()
    {
        // The crossover's turnout with a stretch of its main is the section: the ring keeps its polarity on both sides of it.
        var plan = Plan(Classics.FoldedOvalWithCrossover());
        bool west = plan.SwapAt(new(new("upwest"), 0.1)), east = plan.SwapAt(new(new("upeast"), 4.9));
        bool downEast = plan.SwapAt(new(new("downeast"), 0.1)), downWest = plan.SwapAt(new(new("downwest"), 4.9));
        Assert.Equal(west, east);
        Assert.Equal(downEast, downWest);
    }

    [Fact]
    public void Loop_to_loop_takes_both_loops_when_the_main_line_is_shorter_than_the_train()
    {
        var plan = Plan(Classics.LoopToLoop(loop: 1.6, main: 0.3));
        Assert.Equal(["eastloop", "westloop"], Sections(plan).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Loop_to_loop_is_not_cured_by_the_main_track_alone() =>
        Assert.NotEmpty(Plan(Classics.LoopToLoop().NoGap("westloop", "eastloop")).Remains);

    [Fact]
    public void Loop_with_storage_roads_takes_the_roads_and_ladders_whole_when_only_the_approaches_may_be_cut()
    {
        var plan = Plan(Classics.LoopWithStorage(spur: 40).NoGap("spur", "r1", "r2", "r3"));
        Assert.Equal(["A1", "A2", "B1", "B2"], Turnouts(Assert.Single(plan.Sections)));
    }

    [Fact]
    public void Two_cut_offs_need_one_arc_with_both_its_turnouts()
    {
        var section = Assert.Single(Plan(Classics.OvalWithTwoCutOffs()).Sections);
        Assert.Equal(2, section.Turnouts.Length);
        Assert.Equal(4, section.Borders.Length);
    }

    [Fact]
    public void Two_cut_offs_are_not_cured_by_any_single_piece()
    {
        foreach (string only in new[] { "n", "e", "s", "w", "c1", "c2" })
        {
            string[] others = [.. new[] { "n", "e", "s", "w", "c1", "c2" }.Where(name => name != only)];
            Assert.NotEmpty(Plan(Classics.OvalWithTwoCutOffs().NoGap(others)).Remains);
        }
    }

    [Fact]
    public void Figure_eight_over_an_insulated_crossing_needs_nothing() => Assert.Empty(Plan(Classics.FigureEight()).Sections);

    [Fact]
    public void Twice_round_with_a_link_that_turns_back_needs_the_link() =>
        Assert.Equal(["link"], Sections(Plan(Classics.TwiceRound(forward: false))));

    [Fact]
    public void Wye_with_a_balloon_on_its_tail_gets_no_section_that_holds_a_loop_of_its_own()
    {
        var plan = Plan(Classics.WyeWithBalloonTail());
        Assert.Empty(plan.Remains);
        TrackStretch wholeLoop = new(new("loop"), 0, 5);
        Assert.All(plan.Sections, section => Assert.False(Turnouts(section).Contains("T4") && section.Stretches.Contains(wholeLoop)));
    }

    [Fact]
    public void One_section_serves_two_conflicts_that_share_a_run() =>
        Assert.Equal(["stem"], Sections(Plan(Classics.ForkedCutOff())));

    public static TheoryData<string> Balanced => ["PlainOval", "OvalWithSiding", "FoldedOval", "ConcentricOvals", "FigureEight"];

    [Theory]
    [MemberData(nameof(Balanced))]
    public void What_only_looks_like_a_loop_needs_nothing(string plan)
    {
        var result = Plan((Layout)typeof(Classics).GetMethod(plan)!.Invoke(null, null)!);
        Assert.Empty(result.Sections);
        Assert.Empty(result.Proposals);
        Assert.Empty(result.Remains);
    }

    [Fact]
    public void A_link_in_running_sense_needs_nothing() => Assert.Empty(Plan(Classics.TwiceRound(forward: true)).Sections);

    [Fact]
    public void Three_rail_track_needs_nothing() =>
        Assert.Empty(Plan(Classics.Balloon() with { Control = ControlSystem.ThreeRail }).Sections);
}
