using WireUp.Layouts;
using WireUp.Planning.Reversing;
using WireUp.Planning.Tests.Reversing.Truth;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>Plans of reversing sections against the fewest borders that any can have.</summary>
public sealed class FewestBordersTests
{
    [Fact]
    public void The_index_of_small_random_track_is_the_fewest_joints_whose_opening_balances_it()
    {
        int frustrated = 0;
        for (int seed = 1; seed <= 60; seed++)
        {
            LayoutIndex index = new(RandomTrack.Of(seed, 1 + (seed % 5)));
            ParityGraph parity = ParityGraph.Of(index);
            FrustrationIndex found = FrustrationIndex.Of(SignedGraph.Of(parity), 5);
            Assert.Equal(NamedGraphs.IndexByTrial(SignedGraph.Of(parity)), found.Value);
            Assert.True(found.IsProved, $"seed {seed}");
            Assert.True(parity.IsBalanced(link => !found.Cut.Contains(parity.Links.IndexOf(link))), $"seed {seed}");
            frustrated += found.Value > 0 ? 1 : 0;
        }

        Assert.InRange(frustrated, 20, 59);
    }

    [Fact]
    public void No_plan_has_fewer_borders_than_the_bound_and_most_have_just_as_many()
    {
        (int plans, int tight) = (0, 0);
        for (int seed = 1; seed <= 40; seed++)
        {
            ReversingPlan plan = ReversingPlanner.Plan(RandomTrack.Of(seed, 2 + (seed % 6)), cancellation: TestContext.Current.CancellationToken);
            if (plan.Objectives.FirstOrDefault(objective => objective.Name == "reversing-borders") is { } borders)
            {
                plans++;
                Assert.True(borders.Value >= borders.Bound && borders.Bound >= 2, $"seed {seed}: {borders}");
                tight += borders.Value == borders.Bound ? 1 : 0;
            }
        }

        Assert.True(plans >= 15 && tight >= plans / 2, $"{plans} {tight}");
    }

    [Fact]
    public void A_balloon_loop_needs_two_borders_and_two_loops_need_four()
    {
        Assert.Equal(2, FrustrationIndex.FewestBorders(new(Classics.Balloon()), 1));
        Assert.Equal(0, FrustrationIndex.FewestBorders(new(Classics.FoldedOval()), 1));
        Assert.Equal(2, FrustrationIndex.FewestBorders(new(Classics.Wye()), 1));
    }
}
