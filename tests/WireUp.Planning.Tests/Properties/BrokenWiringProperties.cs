using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Properties;

/// <summary>Wiring that was planned well and then built wrong: planning goes on, touches nothing, and does not call it finished.</summary>
public sealed class BrokenWiringProperties
{
    [Theory]
    [InlineData("oval-with-cut-off")]
    [InlineData("wye")]
    [InlineData("balloon-loop")]
    public void A_missing_gap_is_asked_for_again_or_remains(string sample)
    {
        Layout layout = Plans.Of(sample).After;
        foreach (Gap gap in layout.Wiring.Gaps)
        {
            Layout broken = layout with { Wiring = layout.Wiring with { Gaps = layout.Wiring.Gaps.Remove(gap) } };
            PlanResult plan = Plan(broken);
            Assert.True(plan.Proposals.Any(proposal => proposal.Kind == ProposalKind.Gap) || !plan.Remains.IsEmpty, gap.ToString());
            Assert.Equal(broken.Wiring.Feeders, plan.After.Wiring.Feeders.Take(broken.Wiring.Feeders.Length));
        }
    }

    [Theory]
    [InlineData("oval-with-cut-off")]
    [InlineData("home-yard")]
    public void An_exchanged_feeder_is_never_called_finished(string sample)
    {
        Layout layout = Plans.Of(sample).After;
        for (int i = 0; i < layout.Wiring.Feeders.Length; i++)
        {
            Feeder feeder = layout.Wiring.Feeders[i];
            bool alone = layout.Wiring.Feeders.Count(other => other.District == feeder.District) == 1;
            ImmutableArray<Feeder> feeders = layout.Wiring.Feeders.SetItem(i, feeder with { Swap = !feeder.Swap });
            PlanResult plan = Plan(layout with { Wiring = layout.Wiring with { Feeders = feeders } });
            Assert.True(alone || !plan.IsFinished, feeder.Name);
        }
    }

    [Theory]
    [InlineData("oval-with-cut-off")]
    [InlineData("home-yard")]
    [InlineData("three-rail")]
    public void A_feeder_that_was_left_out_is_planned_again(string sample)
    {
        Layout layout = Plans.Of(sample).After;
        foreach (Feeder feeder in layout.Wiring.Feeders)
        {
            PlanResult plan = Plan(layout with { Wiring = layout.Wiring with { Feeders = layout.Wiring.Feeders.Remove(feeder) } });
            Assert.True(plan.IsFinished, $"{feeder.Name}: {string.Join(" ", plan.Remains)}");
            Assert.Contains(plan.Proposals, proposal => proposal.Kind == ProposalKind.Feeder);
        }
    }

    private static PlanResult Plan(Layout layout) => Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
}
