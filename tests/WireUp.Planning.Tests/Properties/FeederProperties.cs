using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Planning.Tests.TestLayouts;
using WireUp.Rails;

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

    // Both the place and the distance lie on the grid, so that the best places do. What no feeder can serve asks for none.
    [Fact]
    public void The_fewest_feeders_of_which_one_is_near_a_place_are_what_trying_everything_finds()
    {
        int more = 0;
        for (int seed = 0; seed < 400; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 2 + (seed % 4));
            Random chance = new(seed);
            FeedableTrack track = new(RailGraph.Build(layout), OnGrid.MarginMetres);
            FeedSpan[] spans = [.. track.Spans.Where(span => span.ToMetres - span.FromMetres > 0.1)];
            if (spans.Length == 0)
            {
                continue;
            }

            FeedSpan span = spans[chance.Next(spans.Length)];
            FeederWish wish = new(new(span.Section, Math.Round(span.FromMetres + 0.1, 6)), 0.1 * chance.Next(1, 5));
            TrackPlace[] before = [.. FeederPlanner.Plan(layout, OnGrid, TestContext.Current.CancellationToken).Places];
            ImmutableArray<(TrackPlace At, int? For, string? Why)> after = FeederPlanner.Replan(layout, before, [wish], OnGrid, TestContext.Current.CancellationToken);
            Assert.True(
                FeederSearch.Fewest(layout, wish) == after.Length,
                $"seed {seed}: planned {after.Length}, exhaustive {FeederSearch.Fewest(layout, wish)}, wish {wish}");
            Assert.True(NearestFeeder.Metres(track, wish.At, after.Select(feeder => feeder.At), 100) <= wish.WithinMetres + 1e-3, $"seed {seed}");
            more += after.Length > before.Length ? 1 : 0;
        }

        Assert.InRange(more, 10, 400);
    }

    [Fact]
    public void The_fewest_feeders_that_bear_a_failure_are_what_trying_everything_finds()
    {
        int more = 0;
        for (int seed = 0; seed < 200; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 2 + (seed % 3));
            FeederPlan plan = FeederPlanner.Plan(layout, OnGrid with { Robust = true }, TestContext.Current.CancellationToken);
            int fewest = FeederSearch.FewestRobust(layout);
            Assert.True(
                fewest == plan.Places.Length && plan.Objective.IsOptimal,
                $"seed {seed}: planned {plan.Places.Length}, bound {plan.Objective.Bound}, exhaustive {fewest}");
            more += fewest > FeederSearch.Fewest(layout) ? 1 : 0;
        }

        Assert.InRange(more, 50, 200);
    }

    [Fact]
    public void No_failed_joiner_and_no_failed_feeder_leaves_a_rail_without_current()
    {
        int fragile = 0;
        for (int seed = 0; seed < 150; seed++)
        {
            Layout layout = RandomTrack.Make(seed, 4 + (seed % 9));
            FeederPlan plan = FeederPlanner.Plan(layout, new() { Robust = true }, TestContext.Current.CancellationToken);
            fragile += Unfed(layout, FeederPlanner.Plan(layout, cancel: TestContext.Current.CancellationToken).Places).Any() ? 1 : 0;
            string[] unfed = [.. Unfed(layout, plan.Places)];
            Assert.True(unfed.Length <= plan.Remains.Count(remains => remains.Contains("nothing else to feed it", StringComparison.Ordinal)), $"seed {seed}: {string.Join("; ", unfed)}");
        }

        Assert.InRange(fragile, 75, 150);
    }

    [Theory]
    [InlineData("balloon-loop")]
    [InlineData("home-yard")]
    [InlineData("three-rail")]
    public void A_robust_plan_bears_every_failure_and_says_what_each_feeder_is_for(string sample)
    {
        PlanResult plan = Planner.Plan(Plans.Read(sample), PlanOptions.Default with { Robust = true }, cancel: TestContext.Current.CancellationToken);
        TrackPlace[] feeders = [.. plan.After.Wiring.Feeders.Select(feeder => feeder.At)];
        FeedableTrack track = new(RailGraph.Build(plan.After), OnGrid.MarginMetres);
        FailureOracle oracle = new(plan.After, [.. track.Spans.Select(span => new TrackPlace(span.Section, span.MiddleMetres)).Concat(feeders).Distinct()]);
        Assert.NotEmpty(oracle.Groups);
        Assert.All(oracle.Groups, group => Assert.True(
            group.Sites.Count(feeders.Contains) >= Math.Min(group.Feeders, group.Sites.Count), string.Join(", ", group.Sites)));
        Assert.Contains(plan.Proposals, proposal => proposal.Kind == ProposalKind.Feeder && proposal.Reason.Contains("fail,", StringComparison.Ordinal));
        Assert.True(plan.Objectives.Single(objective => objective.Name == "feeders").Bound >= Plans.Of(sample).Objectives.Single(objective => objective.Name == "feeders").Bound);
    }

    // With as few boosters as can carry the districts, the thickest bus leaves many places of the club out of their volts with the fewest feeders.
    [Fact]
    public void Volts_cost_the_club_fewer_feeders_than_a_booster_is_worth_and_hardly_more_than_they_must()
    {
        PlanResult plan = Plans.Of("tarrow-valley");
        Objective feeders = plan.Objectives.Single(objective => objective.Name == "feeders");
        Assert.True(plan.IsFinished);
        Assert.True(plan.Objectives.Single(objective => objective.Name == "boosters").IsOptimal);
        Assert.InRange(feeders.Value - feeders.Bound, 0, 0.02 * feeders.Value);
        FeederPlan byDistance = FeederPlanner.Plan(plan.After with { Wiring = plan.After.Wiring with { Feeders = [] } }, cancel: TestContext.Current.CancellationToken);
        Assert.InRange(feeders.Value - byDistance.Places.Length, 1, (Prices.Booster + Prices.Supply) / Prices.Feeder);
        Assert.True(feeders.Bound > byDistance.Objective.Bound);
    }

    /// <summary>Groups of places that a failure leaves without a feeder, or with the one that may fail next.</summary>
    private static IEnumerable<string> Unfed(Layout layout, ImmutableArray<TrackPlace> feeders)
    {
        FailureOracle oracle = new(layout, [.. FeederSearch.FeedableSites(layout).Concat(feeders).Distinct()]);
        return oracle.Groups
            .Where(group => group.Sites.Count(feeders.Contains) < group.Feeders)
            .Select(group => $"{group.Feeders} wanted of {string.Join(", ", group.Sites)}");
    }
}
