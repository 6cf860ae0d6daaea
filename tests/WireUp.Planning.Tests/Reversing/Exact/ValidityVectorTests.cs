using WireUp.Layouts;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>
/// Sets of reversing sections that cure a plan and sets that do not, and which rule they break. Facts of the trade, common practice
/// without a published source; that the cures cure was found independently by colouring the signed graph.
/// </summary>
public sealed class ValidityVectorTests
{
    private static string Broken(Layout layout, params string[] sections) =>
        string.Join(' ', Validity.Broken(layout, sections.Select(DrawnSection.Of)));

    [Fact]
    public void Plain_oval_is_free_of_conflict() => Assert.Equal("", Broken(Classics.PlainOval()));

    [Fact]
    public void Balloon_conflicts() => Assert.Equal("V1", Broken(Classics.Balloon()));

    [Theory]
    [InlineData("", "loop@1 loop@4 : loop@2")]
    [InlineData("V4", "loop@1 loop@1.5 : loop@1.2")]
    [InlineData("V1", "spur@1 spur@1.5 : spur@1.2")]
    [InlineData("V6", "loop@1 : loop@2")]
    public void Balloon(string broken, string section) => Assert.Equal(broken, Broken(Classics.Balloon(), section));

    [Fact]
    public void Wye_conflicts() => Assert.Equal("V1", Broken(Classics.Wye()));

    [Theory]
    [InlineData("", "left@4.8 right@4.8 : tail@1")]
    [InlineData("V1", "tail@0.5 tail@1.9 : tail@1")]
    [InlineData("", "main@1 main@4 : main@2")]
    [InlineData("", "left@1 left@4 : left@2")]
    [InlineData("V4", "left@1 left@1.6 : left@1.2")]
    public void Wye(string broken, string section) => Assert.Equal(broken, Broken(Classics.Wye(), section));

    [Fact]
    public void Oval_with_a_parallel_siding_is_free_of_conflict() => Assert.Equal("", Broken(Classics.OvalWithSiding()));

    [Fact]
    public void Oval_with_a_cut_off_conflicts() => Assert.Equal("V1", Broken(Classics.OvalWithCutOff()));

    [Theory]
    [InlineData("", "cutoff@0.2 cutoff@2.8 : cutoff@1")]
    [InlineData("", "cutoff@2.8 north@1 south@2 : T1.points")]
    [InlineData("V4", "cutoff@0.3 cutoff@1.1 : cutoff@1")]
    public void Oval_with_a_cut_off(string broken, string section) => Assert.Equal(broken, Broken(Classics.OvalWithCutOff(), section));

    [Fact]
    public void Folded_oval_is_free_of_conflict() => Assert.Equal("", Broken(Classics.FoldedOval()));

    [Fact]
    public void Folded_oval_with_a_crossover_conflicts() => Assert.Equal("V1", Broken(Classics.FoldedOvalWithCrossover()));

    [Theory]
    [InlineData("", "cross@0.2 upwest@3.5 upeast@0.5 : T1.points")]
    [InlineData("", "cross@0.2 downeast@3.5 downwest@0.5 : T2.points")]
    [InlineData("V4", "cross@0.1 cross@0.3 : cross@0.2")]
    [InlineData("V4", "cross@0.2 upwest@4.5 upeast@0.5 : T1.points")]
    [InlineData("V6", "cross@0.2 upeast@1 : T1.points")]
    public void Folded_oval_with_a_crossover(string broken, string section) =>
        Assert.Equal(broken, Broken(Classics.FoldedOvalWithCrossover(), section));

    [Fact]
    public void Folded_oval_with_a_crossover_is_cured_by_both_loops() => Assert.Equal(
        "", Broken(Classics.FoldedOvalWithCrossover(), "east@1 east@4 : east@2", "west@1 west@4 : west@2"));

    [Fact]
    public void Folded_oval_with_a_crossover_is_not_cured_by_one_loop() => Assert.Equal(
        "V1", Broken(Classics.FoldedOvalWithCrossover(), "east@1 east@4 : east@2"));

    [Theory]
    [InlineData("", "upmid@3.5 downmid@3.5 c1@0.2 c2@0.2 : east@2")]
    [InlineData("V1", "east@1 east@4 : east@2")]
    [InlineData("V1", "west@1 west@4 : west@2")]
    [InlineData("V1", "upmid@1 upmid@4 : upmid@2")]
    [InlineData("V1", "downmid@1 downmid@4 : downmid@2")]
    [InlineData("V1 V4", "c1@0.1 c1@0.3 : c1@0.2")]
    public void Folded_oval_with_two_crossovers(string broken, string section) =>
        Assert.Equal(broken, Broken(Classics.FoldedOvalWithTwoCrossovers(), section));

    [Fact]
    public void Folded_oval_with_two_crossovers_is_cured_by_both_loops() => Assert.Equal(
        "", Broken(Classics.FoldedOvalWithTwoCrossovers(), "east@1 east@4 : east@2", "west@1 west@4 : west@2"));

    [Theory]
    [InlineData("V1", "east@1 east@7 : east@2")]
    [InlineData("V1", "west@1 west@7 : west@2")]
    [InlineData("", "east@1.2 east@6.8 west@0.2 west@7.8 : S.a1")]
    [InlineData("V4", "east@0.2 east@7.8 west@0.2 west@7.8 : S.a1")]
    public void Folded_oval_with_scissors(string broken, string section) =>
        Assert.Equal(broken, Broken(Classics.FoldedOvalWithScissors(), section));

    [Fact]
    public void Folded_oval_with_scissors_is_cured_by_both_loops() => Assert.Equal(
        "", Broken(Classics.FoldedOvalWithScissors(), "east@1 east@7 : east@2", "west@1 west@7 : west@2"));

    [Fact]
    public void Concentric_ovals_with_a_crossover_are_free_of_conflict() => Assert.Equal("", Broken(Classics.ConcentricOvals()));

    [Fact]
    public void Figure_eight_over_an_insulated_crossing_is_free_of_conflict() => Assert.Equal("", Broken(Classics.FigureEight()));

    [Theory]
    [InlineData(true, "")]
    [InlineData(false, "V1")]
    public void Figure_eight_over_live_frogs_asks_for_a_crossing_of_opposite_phase(bool opposite, string broken) =>
        Assert.Equal(broken, Broken(Classics.FigureEightOverLiveFrogs(opposite)));

    [Fact]
    public void Figure_eight_with_a_slip_conflicts() => Assert.Equal("V1", Broken(Classics.FigureEightWithSlip()));

    [Theory]
    [InlineData("V1", "east@1 east@4 : east@2")]
    [InlineData("V1", "west@1 west@4 : west@2")]
    [InlineData("", "east@1.1 east@3.9 west@0.2 west@4.8 : X.a1")]
    public void Figure_eight_with_a_slip(string broken, string section) => Assert.Equal(broken, Broken(Classics.FigureEightWithSlip(), section));

    [Fact]
    public void Figure_eight_with_a_slip_is_cured_by_both_lobes() => Assert.Equal(
        "", Broken(Classics.FigureEightWithSlip(), "east@1 east@4 : east@2", "west@1 west@4 : west@2"));

    [Theory]
    [InlineData(true, "")]
    [InlineData(false, "V1")]
    public void Twice_round_conflicts_only_where_the_link_turns_back(bool forward, string broken) =>
        Assert.Equal(broken, Broken(Classics.TwiceRound(forward)));

    [Theory]
    [InlineData("", "link@0.5 link@2.5 : link@1")]
    [InlineData("V1", "first@0.5 first@4.5 : first@1")]
    public void Twice_round_with_a_link_that_turns_back(string broken, string section) =>
        Assert.Equal(broken, Broken(Classics.TwiceRound(forward: false), section));

    [Theory]
    [InlineData("", "westloop@0.5 westloop@4.5 eastloop@0.5 eastloop@4.5 : main@1")]
    [InlineData("V1", "main@1 main@4 : main@2")]
    [InlineData("V1", "westloop@1 westloop@4 : westloop@2")]
    public void Loop_to_loop(string broken, string section) => Assert.Equal(broken, Broken(Classics.LoopToLoop(), section));

    [Fact]
    public void Loop_to_loop_is_cured_by_both_loops() => Assert.Equal(
        "", Broken(Classics.LoopToLoop(), "westloop@1 westloop@4 : westloop@2", "eastloop@1 eastloop@4 : eastloop@2"));

    [Fact]
    public void Loop_with_storage_is_cured_by_its_ladders_with_all_roads() => Assert.Equal(
        "", Broken(Classics.LoopWithStorage(), "in@0.5 out@0.5 : r1@1"));

    [Fact]
    public void Loop_with_storage_is_cured_by_each_road() => Assert.Equal(
        "", Broken(Classics.LoopWithStorage(), "r1@0.5 r1@2.5 : r1@1", "r2@0.5 r2@2.5 : r2@1", "r3@0.5 r3@2.5 : r3@1"));

    [Fact]
    public void Loop_with_storage_is_not_cured_by_all_roads_but_one() => Assert.Equal(
        "V1", Broken(Classics.LoopWithStorage(), "r1@0.5 r1@2.5 : r1@1", "r2@0.5 r2@2.5 : r2@1"));

    [Theory]
    [InlineData("c1")]
    [InlineData("c2")]
    [InlineData("n")]
    [InlineData("e")]
    [InlineData("s")]
    [InlineData("w")]
    public void Oval_with_two_cut_offs_is_cured_by_no_single_piece(string piece) => Assert.Equal(
        "V1", Broken(Classics.OvalWithTwoCutOffs(), $"{piece}@0.5 {piece}@2.5 : {piece}@1"));

    [Theory]
    [InlineData("c1@0.5 c1@2.5 : c1@1", "c2@0.5 c2@2.5 : c2@1")]
    [InlineData("n@0.5 n@4.5 : n@1", "s@0.5 s@4.5 : s@1")]
    [InlineData("e@0.5 e@4.5 : e@1", "w@0.5 w@4.5 : w@1")]
    public void Oval_with_two_cut_offs_is_cured_by_both_or_by_opposite_arcs(string one, string other) =>
        Assert.Equal("", Broken(Classics.OvalWithTwoCutOffs(), one, other));

    [Fact]
    public void Oval_with_two_cut_offs_is_cured_by_one_arc_with_both_its_turnouts() => Assert.Equal(
        "", Broken(Classics.OvalWithTwoCutOffs(), "w@4.5 c1@0.5 e@0.5 c2@0.5 : n@1"));

    [Fact]
    public void Wye_with_a_balloon_on_its_tail_is_not_cured_by_a_section_that_holds_the_balloon() => Assert.Equal(
        "V2", Broken(Classics.WyeWithBalloonTail(), "left@4.8 right@4.8 : tail@1"));

    [Fact]
    public void Wye_with_a_balloon_on_its_tail_is_cured_by_two_sections_with_fixed_track_between() => Assert.Equal(
        "", Broken(Classics.WyeWithBalloonTail(), "left@1 left@4 : left@2", "loop@1 loop@4 : loop@2"));

    [Fact]
    public void Sections_that_share_a_gap_break_the_rule_although_they_cure() => Assert.Equal(
        "V3", Broken(Classics.OvalWithTwoCutOffs(), "n@0.5 T3.points : n@1", "T3.points e@1.5 c2@1.5 : T3.through", "s@0.5 s@4.5 : s@1"));

    [Fact]
    public void The_bridge_of_a_turntable_and_the_road_before_it_are_not_both_sections() => Assert.Equal(
        "V3", Broken(Classics.WyeWithTurntableTail(), "left@4.8 right@4.8 : tail@1", " : TT@0.15"));

    [Fact]
    public void Fixed_track_between_keeps_the_bridge_of_a_turntable_and_the_tail_of_a_wye_apart() => Assert.Equal(
        "", Broken(Classics.WyeWithTurntableTail(), "left@4.8 right@4.8 tail@2.5 : tail@1", " : TT@0.15"));
}
