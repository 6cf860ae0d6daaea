using UnitsNet;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class PlanFiguresTests
{
    [Fact]
    public void Figures_are_counted_from_what_the_plan_adds()
    {
        PlanResult plan = Plans.Of("balloon-loop");
        PlanFigures figures = PlanFigures.Of(plan);
        Assert.True(figures.IsFinished);
        Assert.Equal(1, figures.ReversingSections);
        Assert.Equal((2 * 2) + (2 * 1), figures.RailsToCut); // The section is parted twice in both rails, the live frog of T1 in one rail beyond each leg.
        Assert.Equal(plan.After.Wiring.Districts.Length, figures.Districts);
        Assert.Equal(1, figures.Boosters);
        Assert.Equal(plan.Proposals.Count(proposal => proposal.Kind == ProposalKind.Feeder), figures.Feeders);
        Assert.Equal(plan.Proposals.Where(proposal => proposal.Kind == ProposalKind.BusRun).Sum(run => run.Cost), figures.Bus.Meters, 6);
        Assert.Equal(plan.Power.Districts.Max(district => district.LowestVolts.Drop.Percent), figures.LargestDrop.Percent, 9);
        Assert.Equal(plan.Power.Districts.Min(district => district.FaultOverTrip), figures.LeastFaultOverTrip, 9);
        Assert.Equal(0, figures.Remains);
    }

    [Fact]
    public void What_is_built_is_not_counted_as_added()
    {
        PlanFigures figures = PlanFigures.Of(Planner.Plan(Plans.Of("home-yard").After, cancel: TestContext.Current.CancellationToken));
        Assert.Equal((0, 0, 0), (figures.RailsToCut, figures.Feeders, figures.ReversingSections));
        Assert.Equal(0, figures.Bus.Meters);
        Assert.True(figures.Districts > 0);
    }

    [Theory]
    [InlineData(1.0, 0, 2)] // 1.5 × 1 A = 1.5 A, and the next setting on hand is 2 A.
    [InlineData(1.0, 3.0, 5)] // Trains that meet draw 3 A: the next is 5 A.
    [InlineData(9.0, 0, 5)] // Nothing on hand is enough: the largest.
    public void Breakers_on_hand_are_the_only_ones_taken(double load, double meeting, double trip) =>
        Assert.Equal(trip, new BreakerSizes([2, 5]).For(load, meeting));

    [Fact]
    public void A_plan_uses_the_breakers_on_hand()
    {
        PlanResult plan = Planner.Plan(
            Plans.Read("wye"), new() { Breakers = [ElectricCurrent.FromAmperes(2.2), ElectricCurrent.FromAmperes(1.7)] }, cancel: TestContext.Current.CancellationToken);
        Assert.All(plan.After.Wiring.Districts, district => Assert.Equal(1.7, district.Trip.Amperes));
        Assert.NotEmpty(plan.After.Wiring.Districts);
    }
}
