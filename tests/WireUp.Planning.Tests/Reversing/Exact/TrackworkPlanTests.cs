using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>Reversing on slips, scissors, live crossings, lift-out sections, turntables and transfer tables.</summary>
public sealed class TrackworkPlanTests
{
    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    private static void AssertCures(Layout layout, ReversingPlan plan)
    {
        Assert.Empty(plan.Remains);
        Assert.Empty(Validity.Broken(layout, PlanDrawing.Of(plan)));
    }

    [Fact]
    public void Figure_eight_with_a_slip_takes_the_slip_and_a_stretch_of_each_road()
    {
        var layout = Classics.FigureEightWithSlip();
        var plan = Plan(layout);
        var section = Assert.Single(plan.Sections);
        Assert.Equal(["X"], section.Turnouts.Select(piece => piece.Name));
        Assert.Equal(4, section.Borders.Length);
        AssertCures(layout, plan);
    }

    [Fact]
    public void Figure_eight_with_a_slip_takes_both_lobes_where_the_roads_beside_it_are_shorter_than_the_train()
    {
        // With one section the slip needs 1.1 m over two stretches, each less than half of a lobe of 1.2 m.
        var layout = Classics.FigureEightWithSlip(lobe: 1.3);
        var plan = Plan(layout);
        Assert.Equal(2, plan.Sections.Length);
        Assert.All(plan.Sections, section => Assert.Empty(section.Turnouts));
        AssertCures(layout, plan);
    }

    [Fact]
    public void Folded_oval_with_scissors_is_cured()
    {
        var layout = Classics.FoldedOvalWithScissors();
        var plan = Plan(layout);
        Assert.Equal(["S"], Assert.Single(plan.Sections).Turnouts.Select(piece => piece.Name));
        AssertCures(layout, plan);
    }

    [Fact]
    public void Live_crossing_of_the_right_kind_needs_nothing_and_of_the_wrong_kind_a_section()
    {
        Assert.Empty(Plan(Classics.FigureEightOverLiveFrogs(opposite: true)).Sections);
        var layout = Classics.FigureEightOverLiveFrogs(opposite: false);
        var plan = Plan(layout);
        Assert.NotEmpty(plan.Sections);
        AssertCures(layout, plan);
    }

    [Fact]
    public void Scissors_between_two_tracks_of_one_sense_need_nothing() => Assert.Empty(Plan(Track.Of(
        "outer 10; inner 8; S scissors", "S.a2 > outer > S.a1", "S.b2 > inner > S.b1")).Sections);

    [Fact]
    public void Three_way_turnout_with_its_outer_legs_joined_is_a_balloon()
    {
        var layout = Track.Of("lead 3; loop 5; spur 2; W three-way", "W.points > lead", "W.left > loop > W.right", "W.through > spur");
        var plan = Plan(layout);
        Assert.Equal(["loop"], plan.Sections.SelectMany(section => section.Stretches).Select(stretch => stretch.Section.Name));
        AssertCures(layout, plan);
    }

    [Fact]
    public void Lift_out_section_in_a_balloon_is_not_cut()
    {
        var layout = Track.Of("spur 2; l1 0.7; lift lift-out 0.4; l2 0.7; T1 right", "T1.points > spur", "T1.through > l1 > lift > l2 > T1.diverging");
        var plan = Plan(layout);
        Assert.All(plan.Gaps, gap => Assert.False(gap.At is GapPlace.InSection { Place.Section.Name: "lift" }));
        AssertCures(layout, plan);
    }

    [Fact]
    public void Bridge_of_a_turntable_on_wires_is_a_section_without_gaps()
    {
        var plan = Plan(Track.Of("lead 2; stall 1; TT turntable 6", "lead > TT.t1", "TT.t3 > stall"));
        var section = Assert.Single(plan.Sections);
        Assert.True(section.IsBridge);
        Assert.Empty(plan.Gaps);
        Assert.Equal("TT@0.15 m", Assert.Single(plan.Proposals).At);
        Assert.Equal(section, plan.SectionAt(new(new("TT"), 0.1)));
        Assert.All(plan.Objectives, objective => Assert.True(objective.IsOptimal));
    }

    [Fact]
    public void Bridge_that_a_reversing_district_feeds_already_needs_nothing()
    {
        var layout = Track.Of("lead 2; TT turntable 6", "lead > TT.t1").Wired(wiring => wiring with
        {
            Districts = [new("table", "b", UnitsNet.ElectricCurrent.FromAmperes(2), UnitsNet.ElectricResistance.Zero) { Reversing = true }],
            Feeders = [new("f1", new(new("TT"), 0.15), "table", "P1", new Wire.Awg(20), UnitsNet.Length.FromMeters(0.2))],
        });
        Assert.Empty(Plan(layout).Proposals);
    }

    [Theory]
    [InlineData("roads")]
    [InlineData("split")]
    public void Bridge_fed_by_its_roads_or_by_a_split_ring_is_no_section(string feed) => Assert.Empty(Plan(Track.Of(
        $"lead 2; stall 1; TT turntable 6 {feed}", "lead > TT.t1", "TT.t3 > stall")).Proposals);

    [Fact]
    public void Two_roads_of_the_same_half_of_a_split_ring_that_meet_outside_conflict_and_of_opposite_halves_do_not()
    {
        // Halves t1–t3 and t4–t6: a road from t1 round to t3 comes back on the same side, a road to t4 on the other.
        Layout Joined(string road) => Track.Of("loop 5; TT turntable 6 split", "TT.t1 > loop > TT." + road);
        Assert.Empty(Plan(Joined("t4")).Sections);
        var plan = Plan(Joined("t3"));
        Assert.Equal(["loop"], plan.Sections.SelectMany(section => section.Stretches).Select(stretch => stretch.Section.Name));
        AssertCures(Joined("t3"), plan);
    }

    [Fact]
    public void Moving_the_dead_axis_of_a_split_ring_changes_which_roads_agree()
    {
        Layout After(int road)
        {
            var layout = Track.Of("loop 5; TT turntable 6 split", "TT.t1 > loop > TT.t3");
            return layout with { Track = [.. layout.Track.Select(piece => piece is Piece.Turntable table ? table with { SplitAfter = road } : piece)] };
        }

        Assert.NotEmpty(Plan(After(3)).Sections);
        Assert.Empty(Plan(After(1)).Sections);
    }

    [Theory]
    [InlineData("")]
    [InlineData("roads")]
    public void Transfer_table_with_through_roads_needs_nothing(string feed) => Assert.Empty(Plan(Track.Of(
        $"r1 3; r2 3; s1 2; s2 2; TT transfer 2 {feed}", "r1 > TT.w1", "r2 > TT.w2", "TT.e1 > s1", "TT.e2 > s2")).Proposals);

    [Fact]
    public void Two_roads_on_one_side_of_a_transfer_table_that_meet_outside_conflict()
    {
        var layout = Track.Of("loop 5; s1 2; TT transfer 2", "TT.w1 > loop > TT.w2", "TT.e1 > s1");
        var plan = Plan(layout);
        Assert.Equal(["loop"], plan.Sections.SelectMany(section => section.Stretches).Select(stretch => stretch.Section.Name));
        AssertCures(layout, plan);
    }

    [Fact]
    public void Track_of_fixed_phase_stays_between_a_wye_s_tail_and_the_bridge_it_leads_to()
    {
        var layout = Classics.WyeWithTurntableTail();
        var plan = Plan(layout);
        Assert.Equal(2, plan.Sections.Length);
        AssertCures(layout, plan);
        var tail = plan.Sections.Where(section => !section.IsBridge).SelectMany(section => section.Stretches).Where(stretch => stretch.Section.Name == "tail");
        Assert.All(tail, stretch => Assert.True(stretch.ToMetres <= 3 - 0.12 + 1e-9));
    }

    [Fact]
    public void Figure_eight_over_a_crossing_takes_no_gap_within_a_wheel_base_of_it()
    {
        var layout = Track.Of("n1 5; s1 5; X crossing; T1 right; T2 right; cutoff 2", "X.a2 > n1 > X.b1", "X.b2 > s1 > T1.points", "T1.through > T2.points", "T2.through > X.a1", "T1.diverging > cutoff > T2.diverging");
        AssertCures(layout, Plan(layout));
    }
}
