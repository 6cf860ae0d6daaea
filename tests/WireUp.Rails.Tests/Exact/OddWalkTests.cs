using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

public sealed class OddWalkTests
{
    [Fact]
    public void Walk_round_a_balloon_loop_starts_and_ends_at_its_turnout()
    {
        OddWalk walk = Assert.Single(Plans.Balloon().Parity().OddWalks());
        Assert.Equal("T1.through > loop.a > loop.b > T1.diverging", walk.ToString());
        Assert.Equal(2, walk.Joints.Length);
    }

    [Fact]
    public void Balanced_plans_have_no_odd_walk()
    {
        Assert.Empty(Plans.OvalWithSiding().Parity().OddWalks());
        Assert.Empty(Plans.FigureEight().Parity().OddWalks());
    }

    [Fact]
    public void Storage_fan_in_a_loop_is_one_walk_because_every_road_shares_the_entry()
    {
        OddWalk walk = Assert.Single(Plans.LoopWithFan().Parity().OddWalks());
        Assert.Contains("road-1.a", walk.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Loop_at_each_end_is_two_walks() => Assert.Equal(2, Plans.LoopToLoop().Parity().OddWalks().Length);

    [Fact]
    public void Two_crossovers_in_a_folded_oval_are_one_walk_because_any_two_odd_walks_share_a_joint() =>
        Assert.Single(Plans.FoldedOvalWithTwoCrossovers().Parity().OddWalks());

    [Fact]
    public void Turnout_whose_legs_are_joined_to_each_other_is_the_shortest_odd_walk()
    {
        ParityGraph graph = new PlanBuilder().Turnouts("T1").Sections("spur")
            .Chain("T1.points > spur").Chain("T1.through > T1.diverging").Parity();
        Assert.Equal("T1.through > T1.diverging", Assert.Single(graph.OddWalks()).ToString());
    }

    [Fact]
    public void Gaps_in_both_rails_take_the_walk_apart_and_a_gap_in_one_rail_does_not()
    {
        Assert.True(Plans.Balloon().Gap("loop@0.5").Parity().IsBalanced());
        Assert.True(Plans.Balloon().Gap("T1.through").Parity().IsBalanced());
        Assert.False(Plans.Balloon().Gap("loop@0.5", RailSet.Left).Parity().IsBalanced());
    }

    [Fact]
    public void Staggered_gaps_are_a_pair_up_to_the_shortest_pickup_apart()
    {
        Assert.True(Plans.Balloon().Gap("loop@0.5", RailSet.Left).Gap("loop@0.55", RailSet.Right).Parity().IsBalanced());
        Assert.False(Plans.Balloon().Gap("loop@0.5", RailSet.Left).Gap("loop@0.7", RailSet.Right).Parity().IsBalanced());
    }

    [Fact]
    public void Gap_in_a_joint_and_one_in_the_other_rail_close_by_are_a_pair()
    {
        // T1.through meets loop.a: out of T1.through the left rail is the loop's left rail seen from a to b.
        Assert.True(Plans.Balloon().Gap("T1.through", RailSet.Left).Gap("loop@0.03", RailSet.Right).Parity().IsBalanced());
        Assert.False(Plans.Balloon().Gap("T1.through", RailSet.Left).Gap("loop@0.03", RailSet.Left).Parity().IsBalanced());
        Assert.True(Plans.Balloon().Gap("T1.diverging", RailSet.Left).Gap("loop@1.97", RailSet.Left).Parity().IsBalanced());
    }

    [Fact]
    public void Three_rail_track_has_no_polarity_to_lose()
    {
        ParityGraph graph = new PlanBuilder { Control = ControlSystem.ThreeRail }
            .Turnouts("T1").Sections("loop").Chain("T1.through > loop > T1.diverging").Parity();
        Assert.True(graph.IsBalanced());
    }

    [Fact]
    public void Two_loops_on_a_line_are_two_odd_blocks_and_the_line_is_in_neither()
    {
        ParityGraph graph = Plans.LoopToLoop().Parity();
        var blocks = graph.Blocks();
        Assert.Equal(2, blocks.Length);
        Assert.All(blocks, block => Assert.True(block.IsOdd));
        Assert.DoesNotContain(blocks, block => block.Parts.Any(part => graph.Parts[part].Piece.Name == "main"));
    }

    [Fact]
    public void Siding_beside_a_ring_is_one_even_block()
    {
        ParityBlock block = Assert.Single(Plans.OvalWithSiding().Parity().Blocks());
        Assert.False(block.IsOdd);
        Assert.Equal(5, block.Parts.Length);
        Assert.Equal(6, block.Links.Length);
    }

    [Fact]
    public void Sections_are_parts_between_their_pairs_of_gaps()
    {
        ParityGraph graph = Plans.Balloon().Gap("loop@0.5").Gap("loop@1.5").Parity();
        int middle = graph.PartAt(new TrackPlace(new("loop"), 1));
        Assert.Equal((0.5, 1.5), (graph.Parts[middle].FromMetres, graph.Parts[middle].ToMetres));
        Assert.Equal(middle - 1, graph.PartAt(new TrackPlace(new("loop"), 0.2)));
        Assert.Equal(middle + 1, graph.PartAt(new TrackPlace(new("loop"), 1.9)));
        Assert.Equal(2, graph.Components.Distinct().Count());
        Assert.Equal([["loop.a"], [], []], graph.Parts.Skip(middle - 1).Take(3).Select(part => part.PlusEnds.Select(end => end.ToString())));
        Assert.Equal([[], [], ["loop.b"]], graph.Parts.Skip(middle - 1).Take(3).Select(part => part.MinusEnds.Select(end => end.ToString())));
    }
}
