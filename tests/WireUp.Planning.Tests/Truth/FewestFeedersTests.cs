using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Truth;

/// <summary>Small tracks on which volts ask for more feeders than the distance does: no choice of fewer places keeps the limits.</summary>
public class FewestFeedersTests
{
    private const double StepMetres = 0.2;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 12)];

    // Each choice of fewer feeders than the bound is laid and solved as a plan would be, all of them on a grid of 20 cm.
    [Theory]
    [MemberData(nameof(Seeds))]
    public void No_choice_of_fewer_feeders_than_the_bound_keeps_the_limits(int seed)
    {
        Layout layout = Track(seed);
        PlanStages stages = new(PlanOptions.Default, null, TestContext.Current.CancellationToken);
        PlanDraft fed = stages.Feed(stages.Districts(PlanStages.Frogs(stages.Reverse(new(layout, layout)))));
        PlanDraft plan = stages.Power(fed);
        Objective feeders = plan.Objectives.Single(objective => objective.Name == "feeders");
        Assert.Empty(plan.Failing);
        Assert.True(plan.Feeders.Length > fed.Feeders.Length, $"volts ask for nothing: {fed.Feeders.Length}");
        Assert.InRange(feeders.Bound, fed.Feeders.Length, plan.Feeders.Length);
        Assert.Equal(plan.Feeders.Length, plan.Buses.Sum(bus => bus.Task.Feeders.Length));
        foreach (TrackPlace[] places in Choices(Grid(layout), (int)feeders.Bound - 1))
        {
            Assert.False(Keeps(plan, places), $"{feeders.Bound} feeders are said to be needed, but these do: {string.Join(", ", places)}");
        }
    }

    [Fact]
    public void Of_half_of_the_small_tracks_and_more_the_plan_has_no_more_feeders_than_the_bound()
    {
        int proved = 0;
        for (int seed = 0; seed < 12; seed++)
        {
            PlanResult plan = Planner.Plan(Track(seed), cancel: TestContext.Current.CancellationToken);
            Assert.True(plan.IsFinished, string.Join(" ", plan.Remains));
            proved += plan.Objectives.Single(objective => objective.Name == "feeders").IsOptimal ? 1 : 0;
        }

        Assert.InRange(proved, 6, 12);
    }

    private static bool Keeps(PlanDraft plan, TrackPlace[] places)
    {
        PlannedBus bus = plan.Buses.Single();
        BusRules rules = new(PlanOptions.Default.BusSlack.DecimalFractions, PlanOptions.Default.BoosterLead.Meters, 0.05);
        PlanDraft other = plan with
        {
            Feeders = [.. places.Select(place => new FeederSite(place, bus.District, null))],
            Buses = [BusPlanner.Lay(plan.Layout, bus.Task with { Feeders = [.. places] }, rules)],
        };
        WireStock stock = WireStock.Of(PlanOptions.Default, plan.Before);
        Layout laid = PlanAssembly.Of(other, PlanOptions.Default, stock.System, (_, _) => stock.Thickest);
        PowerReport report = PowerAnalysis.Solve(laid, PowerOptions.Default, TestContext.Current.CancellationToken);
        return report.Districts is [{ } district] && GaugeChooser.Verdict(laid, district, stock.Thickest).Length == 0;
    }

    private static ImmutableArray<TrackPlace> Grid(Layout layout) => [.. layout.Track.OfType<Piece.Section>().SelectMany(section => Enumerable
        .Range(0, (int)Math.Round(section.Length.Meters / StepMetres))
        .Select(i => new TrackPlace(section.Id, Math.Round((i + 0.5) * StepMetres, 4))))];

    private static IEnumerable<TrackPlace[]> Choices(ImmutableArray<TrackPlace> grid, int count, int from = 0) => count == 0
        ? [[]]
        : Enumerable.Range(from, Math.Max(0, grid.Length - from)).SelectMany(i => Choices(grid, count - 1, i + 1).Select(rest => (TrackPlace[])[grid[i], .. rest]));

    private static ElectricCurrent Amperes(double amperes) => ElectricCurrent.FromAmperes(amperes);

    /// <summary>A line, a line with a branch, or an oval; with a heavy train and little drop allowed.</summary>
    internal static Layout Track(int seed)
    {
        Random chance = new(seed);
        TrackBuilder track = (seed % 3) switch
        {
            0 => TrackBuilder.Line(3, 0.8, JointKind.Soldered),
            1 => TrackBuilder.Line(2, 0.8, JointKind.Soldered).Turnout("T").Section("branch", 0.6).Join("s1.b", "T.points", JointKind.Soldered).Join("T.diverging", "branch.a", JointKind.Soldered)
                .Section("on", 0.4).Join("T.through", "on.a", JointKind.Soldered),
            _ => TrackBuilder.Line(3, 0.8, JointKind.Soldered).Join("s2.b", "s0.a", JointKind.Soldered),
        };
        return track.Build(feederDistanceMetres: 3) with
        {
            MaxDrop = Ratio.FromPercent(2.5 + (0.3 * chance.NextDouble())),
            Stock = Stock.None with { Locomotives = [new("heavy", Amperes(1.5), Amperes(0.2), Amperes(2), Amperes(2.5), Length.FromMillimeters(60), 1)], MovingAtOnce = 1 },
        };
    }
}
