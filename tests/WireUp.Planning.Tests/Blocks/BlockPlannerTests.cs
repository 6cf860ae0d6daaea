using WireUp.Layouts;
using WireUp.Planning.Blocks;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Blocks;

public sealed class BlockPlannerTests
{
    // An oval of 12 m with one turnout to a siding of 3 m. Trains are 1 m long; blocks of 4 m are asked for.
    private static Layout Oval(BlockWish wish)
    {
        TrackBuilder oval = TrackBuilder.Line(12, 1).Turnout("T").Join("s11.b", "T.points").Join("T.through", "s0.a");
        oval.Section("y0", 1).Section("y1", 1).Section("y2", 1).Join("T.diverging", "y0.a").Join("y0.b", "y1.a").Join("y1.b", "y2.a");
        return oval.Build() with { Wishes = new() { Blocks = wish } };
    }

    private static BlockPlan Plan(BlockWish wish, bool swap = false) => BlockPlanner.Plan(Oval(wish), wish, _ => swap);

    [Fact]
    public void Running_track_is_gapped_in_the_rail_of_leg_a_and_sidings_are_left_alone()
    {
        BlockPlan plan = Plan(new([]) { Length = UnitsNet.Length.FromMeters(5) });
        Assert.Equal(2, plan.Blocks);

        // Leg A goes to the left rail from a to b; looking out of end a that is the right one.
        Assert.Equal(["s11.a", "s6.a", "s1.a"], plan.Gaps.Select(gap => gap.At.ToString()));
        Assert.All(plan.Gaps, gap => Assert.Equal(RailSet.Right, gap.Rails));
        Assert.All(Plan(new([]), swap: true).Gaps, gap => Assert.Equal(RailSet.Left, gap.Rails));
        Assert.All(Plan(new([]) { BothRails = true }).Gaps, gap => Assert.Equal(RailSet.Both, gap.Rails));
    }

    [Fact]
    public void Track_asked_for_by_name_is_gapped_and_no_other()
    {
        BlockPlan plan = Plan(new([new("y1")]));
        Assert.Equal(2, plan.Blocks);
        Assert.Equal(["y0.b", "y1.b"], plan.Gaps.Select(gap => gap.At.ToString()));
    }

    [Fact]
    public void Named_track_too_short_for_a_block_remains()
    {
        BlockPlan plan = Plan(new([new("y1")]) { Length = UnitsNet.Length.FromMeters(4) });
        Assert.Empty(plan.Gaps);
        Assert.Equal(0, plan.Blocks);
        Assert.Contains("No block fits on 'y1'", Assert.Single(plan.Remains), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_block_of_a_planned_oval_has_a_feeder_on_its_cut_rail_and_the_plan_is_finished()
    {
        PlanResult plan = Planner.Plan(Oval(new([]) { Length = UnitsNet.Length.FromMeters(5) }), cancel: TestContext.Current.CancellationToken);
        Assert.Equal(3, plan.Proposals.Count(proposal => proposal.Id.StartsWith("block-gap-", StringComparison.Ordinal)));
        Assert.Contains(new Objective("block-gaps", 3, 3), plan.Objectives);
        Assert.Empty(plan.Remains);
        Assert.True(plan.IsFinished);
    }
}
