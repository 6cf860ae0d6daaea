using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class AccessoryTests
{
    private static PlanResult Plan(double? amps, Func<Layout, Layout>? change = null)
    {
        Layout line = TrackBuilder.Line(4, 1).Build() with
        {
            Wishes = new() { Accessories = amps is { } asked ? ElectricCurrent.FromAmperes(asked) : null },
        };
        return Planner.Plan(change is null ? line : change(line), cancel: TestContext.Current.CancellationToken);
    }

    // 1.5 A ask for a breaker of 2.25 A or more, and that for a booster of 2.8 A or more.
    [Fact]
    public void Accessories_get_power_of_their_own_when_asked_and_no_rail()
    {
        PlanResult plan = Plan(1.5);
        District district = Assert.Single(plan.After.Wiring.Districts, each => each.Use == DistrictUse.Accessories);
        Booster booster = plan.After.Wiring.Boosters.Single(each => each.Name == district.Booster);
        Assert.InRange(district.Trip.Amperes, 2.25, booster.Amps.Amperes * 0.8);
        Assert.InRange(1.5, 0, booster.Amps.Amperes * 0.8);
        Assert.DoesNotContain(plan.After.Wiring.Districts, each => each.Booster == booster.Name && each != district);
        Assert.DoesNotContain(plan.After.Wiring.Feeders, feeder => feeder.District == district.Name);
        Assert.True(plan.IsFinished, string.Join('\n', plan.Remains));
    }

    [Fact]
    public void Nobody_who_does_not_ask_gets_any() =>
        Assert.DoesNotContain(Plan(null).After.Wiring.Districts, district => district.Use == DistrictUse.Accessories);

    [Fact]
    public void A_district_for_accessories_that_is_there_is_left_alone()
    {
        PlanResult first = Plan(1.5), again = Plan(1.5, line => line with { Wiring = first.After.Wiring });
        Assert.Single(again.After.Wiring.Districts, district => district.Use == DistrictUse.Accessories);
    }

    [Fact]
    public void More_than_any_usual_booster_carries_remains() =>
        Assert.Contains(Plan(500).Remains, remains => remains.Contains("no usual booster carries 500 A", StringComparison.Ordinal));
}
