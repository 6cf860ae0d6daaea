using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Properties;

public sealed class FeederProperties
{
    private static readonly FeederOptions OnGrid = new() { MarginMetres = 0.1 };

    [Fact]
    public void The_fewest_feeders_of_small_layouts_are_what_trying_everything_finds()
    {
        for (int seed = 0; seed < 400; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 2 + (seed % 4));
            FeederPlan plan = FeederPlanner.Plan(layout, OnGrid, TestContext.Current.CancellationToken);
            Assert.True(
                FeederSearch.Fewest(layout) == plan.Places.Length && plan.Objective.IsOptimal,
                $"seed {seed}: planned {plan.Places.Length}, bound {plan.Objective.Bound}, exhaustive {FeederSearch.Fewest(layout)}");
        }
    }
}
