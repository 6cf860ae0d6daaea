using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Between what a breaker must carry and what must trip it.</summary>
public sealed class TripWindowTests
{
    // A coin of 5 ohm draws 15 V / 5 Ω = 3 A at most. The two usual engines ask for 1.25 A by rule, so for a trip of 2 A: 4 A of fault current.
    [Fact]
    public void Where_load_and_fault_current_leave_no_setting_the_plan_says_which_two_disagree_and_what_would_help()
    {
        Layout layout = TrackBuilder.Line(2, 1).Build();
        layout = layout with { Defaults = layout.Defaults with { Coin = ElectricResistance.FromOhms(5) } };
        PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        Assert.False(plan.IsFinished);
        string remains = Assert.Single(plan.Remains, text => text.Contains("No setting of its breaker suits both", StringComparison.Ordinal));
        Assert.Contains("asks for 2 A", remains, StringComparison.Ordinal);
        Assert.Contains("What would help", remains, StringComparison.Ordinal);
    }

    // Three engines of 1.5 A in one train: 4.5 A and the ceiling of the scale is 5 A.
    [Fact]
    public void A_train_too_heavy_for_any_breaker_of_the_scale_is_named_as_the_reason()
    {
        Layout layout = TrackBuilder.Line(2, 1).Build() with
        {
            Stock = new()
            {
                Locomotives = [new("heavy", Amps(1.5), Amps(0.1), Amps(2), Amps(2), Length.FromMillimeters(60), 3)],
                Trains = [new("ore", ["heavy", "heavy", "heavy"], 0, Amps(0), Length.FromMeters(1))],
            },
        };
        PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        Assert.False(plan.IsFinished);
        Assert.Contains(plan.Remains, text => text.Contains("heaviest train", StringComparison.Ordinal));
    }

    /// <summary>The sessions know nothing of the rule by which the breakers were sized.</summary>
    [Fact]
    public void In_operating_sessions_of_the_planned_club_no_breaker_and_no_booster_sees_more_than_it_trips_at_but_for_1_percent_of_the_time()
    {
        Wiring wiring = Plans.Of("tarrow-valley").After.Wiring;
        SessionReport report = Assert.IsType<SessionAnswer.Simulated>(SessionAnalysis.Run(
            RailGraph.Build(Plans.Of("tarrow-valley").After),
            new() { LeastSessions = 40, MostSessions = 40 },
            cancellation: TestContext.Current.CancellationToken)).Report;
        Assert.Equal(wiring.Districts.Select(district => district.Name).Order(), report.Districts.Select(each => each.Name).Order());
        Assert.All(report.Districts, each => Assert.True(
            each.Percentile99.Current <= wiring.Districts.First(district => district.Name == each.Name).Trip, each.Name));
        Assert.All(report.Boosters, each => Assert.True(
            each.Percentile99.Current <= wiring.Boosters.First(booster => booster.Name == each.Name).Amps, each.Name));
    }

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);
}
