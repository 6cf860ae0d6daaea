using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class ReworkTests
{
    // In the sample the wires of feeder f125 were mixed up underneath.
    [Fact]
    public void A_feeder_that_is_the_wrong_way_round_is_exchanged_only_when_asked()
    {
        Layout layout = Plans.Read("tarrow-valley-as-built");
        PlanResult kept = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        Assert.Contains(kept.Remains, remains => remains.StartsWith("Feeder 'f125' is the wrong way round", StringComparison.Ordinal));
        Assert.Equal(layout.Wiring.Feeders, kept.After.Wiring.Feeders.Take(layout.Wiring.Feeders.Length));

        PlanResult changed = Planner.Plan(layout, PlanOptions.Default with { Rework = true }, cancel: TestContext.Current.CancellationToken);
        Proposal rework = Assert.Single(changed.Proposals, proposal => proposal.Kind == ProposalKind.Rework);
        Assert.Equal(("rework-f125", 2.0), (rework.Id, rework.Cost));
        Assert.DoesNotContain(changed.Remains, remains => remains.Contains("f125", StringComparison.Ordinal));
        Feeder Of(Layout of) => of.Wiring.Feeders.Single(feeder => feeder.Name == "f125");
        Assert.Equal(Of(layout) with { Swap = !Of(layout).Swap }, Of(changed.After));
    }

    // Eight sections fed as one district by two feeders; the last two are asked for as a district of their own.
    private static Layout Wired()
    {
        Feeder At(string name, string section) => new(name, new(new(section), 0.5), "old", "P1", new Wire.Metric(0.5), Length.FromMillimeters(250));
        Layout line = TrackBuilder.Line(8, 1).Build();
        return line with
        {
            DistrictsWanted = [new("yard", [new("s6"), new("s7")])],
            Wiring = line.Wiring with
            {
                Boosters = [new("main", ElectricPotential.FromVolts(15), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1))],
                Districts = [new("old", "main", ElectricCurrent.FromAmperes(4), ElectricResistance.FromOhms(0.05))],
                Feeders = [At("f1", "s1"), At("f2", "s7")],
            },
        };
    }

    private static DistrictPlan Plan(bool rework) =>
        DistrictPlanner.Plan(Wired(), [], new(new LoadAmps(1, 1, 0.5), BoosterAmps: 5, MostTripAmps: 3.5, BreakerSizes.Usual), rework);

    [Fact]
    public void A_district_that_the_wiring_makes_impossible_remains_with_what_would_have_to_be_undone()
    {
        DistrictPlan plan = Plan(rework: false);
        Assert.Empty(plan.FeedersToMove);
        string remains = Assert.Single(plan.Remains);
        Assert.Contains("'yard'", remains, StringComparison.Ordinal);
        Assert.EndsWith("It would take gaps around it and the feeders 'f2' moved to it.", remains, StringComparison.Ordinal);
    }

    [Fact]
    public void With_rework_the_feeders_of_a_district_that_was_asked_for_are_moved_to_it()
    {
        DistrictPlan plan = Plan(rework: true);
        Assert.Equal([("f2", "yard")], plan.FeedersToMove);
        Assert.Equal("s5.b", Assert.Single(plan.Borders).At.ToString());
        Assert.Empty(plan.Remains);
    }
}
