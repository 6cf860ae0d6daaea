namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Which plans hold a polarity conflict, and which pieces, lifted out as reversing sections, cure it. The answers are common
/// practice, no published source; each was found by colouring the rails by hand.
/// </summary>
public sealed class ReversingTests
{
    [Fact]
    public void Plain_oval_has_no_conflict() => Assert.True(Plans.Oval().Parity().IsBalanced());

    [Fact]
    public void Balloon_loop_is_a_conflict_cured_by_its_loop()
    {
        ParityGraph graph = Plans.Balloon().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "loop"));
        Assert.False(Cures(graph, "spur"));
    }

    [Fact]
    public void Wye_is_cured_by_its_tail_only_together_with_the_tail_turnout()
    {
        ParityGraph graph = Plans.Wye().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "T3 tail"));
        Assert.False(Cures(graph, "tail"));
        Assert.True(Cures(graph, "base"));
        Assert.True(Cures(graph, "left"));
        Assert.True(Cures(graph, "right"));
    }

    [Fact]
    public void Oval_with_a_parallel_siding_has_no_conflict() => Assert.True(Plans.OvalWithSiding().Parity().IsBalanced());

    [Fact]
    public void Oval_with_a_reversing_cut_off_is_a_conflict_cured_by_the_cut_off()
    {
        ParityGraph graph = Plans.OvalWithCutOff().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "cut"));
    }

    [Fact]
    public void Folded_oval_without_a_cross_connection_has_no_conflict() => Assert.True(Plans.FoldedOval().Parity().IsBalanced());

    [Fact]
    public void Folded_oval_with_a_crossover_is_cured_by_either_turnout_or_the_crossover_or_both_loops()
    {
        ParityGraph graph = Plans.FoldedOvalWithCrossover().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "N"));
        Assert.True(Cures(graph, "S"));
        Assert.True(Cures(graph, "cross"));
        Assert.True(Cures(graph, "east west"));
    }

    [Fact]
    public void Folded_oval_with_a_crossover_is_not_cured_by_the_far_loop_alone()
    {
        ParityGraph graph = Plans.FoldedOvalWithCrossover().Parity();
        Assert.False(Cures(graph, "east"));
        Assert.False(Cures(graph, "west"));
    }

    [Fact]
    public void Folded_oval_with_two_crossovers_is_not_cured_by_any_single_piece()
    {
        ParityGraph graph = Plans.FoldedOvalWithTwoCrossovers().Parity();
        Assert.False(graph.IsBalanced());
        Assert.All(graph.Parts, part => Assert.False(Cures(graph, part.Piece.Name), part.Piece.Name));
    }

    [Fact]
    public void Folded_oval_with_two_crossovers_is_cured_by_both_loops_or_by_one_whole_end()
    {
        ParityGraph graph = Plans.FoldedOvalWithTwoCrossovers().Parity();
        Assert.True(Cures(graph, "east west"));
        Assert.True(Cures(graph, "N2 east S1"));
        Assert.False(Cures(graph, "east"));
    }

    [Fact]
    public void Oval_with_two_opposite_cut_offs_is_cured_by_both_or_by_opposite_arcs_or_by_one_arc_with_its_turnouts()
    {
        // The same graph as the folded oval with two crossovers: the arcs are its four runs.
        ParityGraph graph = Plans.FoldedOvalWithTwoCrossovers().Parity();
        Assert.True(Cures(graph, "cross-1 cross-2"));
        Assert.True(Cures(graph, "north south"));
        Assert.True(Cures(graph, "N1 north N2"));
    }

    [Fact]
    public void Concentric_ovals_with_crossovers_have_no_conflict() => Assert.True(Plans.ConcentricOvals().Parity().IsBalanced());

    [Fact]
    public void Figure_eight_over_an_insulated_crossing_has_no_conflict() => Assert.True(Plans.FigureEight().Parity().IsBalanced());

    [Fact]
    public void Twice_round_oval_has_no_conflict_with_a_forward_link_and_one_with_a_link_that_turns_back()
    {
        PlanBuilder forward = new PlanBuilder().Turnouts("T1 T2").Sections("first second link")
            .Chain("T1.through > first > T2.through").Chain("T2.points > second > T1.points").Chain("T1.diverging > link > T2.diverging");
        PlanBuilder back = new PlanBuilder().Turnouts("T1 T2").Sections("first second link")
            .Chain("T1.through > first > T2.points").Chain("T2.through > second > T1.points").Chain("T1.diverging > link > T2.diverging");
        Assert.True(forward.Parity().IsBalanced());
        Assert.False(back.Parity().IsBalanced());
    }

    [Fact]
    public void Loop_to_loop_is_cured_by_both_loops_or_by_the_main_line_with_both_turnouts()
    {
        ParityGraph graph = Plans.LoopToLoop().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "west east"));
        Assert.True(Cures(graph, "T1 main T2"));
        Assert.False(Cures(graph, "main"));
        Assert.False(Cures(graph, "west"));
    }

    [Fact]
    public void Loop_with_a_storage_fan_is_cured_by_the_whole_fan_or_by_every_road()
    {
        ParityGraph graph = Plans.LoopWithFan().Parity();
        Assert.False(graph.IsBalanced());
        Assert.True(Cures(graph, "E1 E2 W1 W2 road-1 road-2 road-3"));
        Assert.True(Cures(graph, "road-1 road-2 road-3"));
        Assert.False(Cures(graph, "road-1 road-2"));
    }

    [Fact]
    public void Tail_of_a_wye_with_a_balloon_is_no_reversing_section_because_it_is_odd_in_itself()
    {
        ParityGraph graph = Plans.WyeWithBalloon().Parity();
        Assert.True(graph.IsBalancedWithout(PlanBuilder.Set("T3 tail T4 loop")));
        Assert.False(graph.IsBalancedWithin(PlanBuilder.Set("T3 tail T4 loop")));
        Assert.False(Cures(graph, "T3 tail"));
        Assert.True(Cures(graph, "T3 loop"));
    }

    private static bool Cures(ParityGraph graph, string pieces) =>
        graph.IsBalancedWithout(PlanBuilder.Set(pieces)) && graph.IsBalancedWithin(PlanBuilder.Set(pieces));
}
