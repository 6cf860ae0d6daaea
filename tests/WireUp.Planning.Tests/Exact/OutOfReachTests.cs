using WireUp.Layouts;
using WireUp.Layouts.Plans;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Where no hand comes to from below nothing is soldered.</summary>
public sealed class OutOfReachTests
{
    private const string Sample = "hill-and-corridors";

    [Fact]
    public void A_plan_has_no_feeder_out_of_reach_and_would_have_one_there_if_it_could()
    {
        Layout layout = Plans.Read(Sample);
        PlanResult plan = Plans.Of(Sample);
        Assert.True(plan.IsFinished, string.Join("; ", plan.Remains));
        Assert.Equal([], Hidden(plan));

        PlanResult everywhere = Planner.Plan(layout with { Benchwork = layout.Benchwork with { OutOfReach = [] } }, cancel: TestContext.Current.CancellationToken);
        Assert.NotEmpty(Hidden(everywhere));
        Assert.True(everywhere.After.Wiring.Feeders.Length <= plan.After.Wiring.Feeders.Length);

        IEnumerable<Feeder> Hidden(PlanResult result) => result.After.Wiring.Feeders
            .Where(feeder => new Areas(layout.Benchwork.OutOfReach).At(new TrackPaths(layout).PointAt(feeder.At)!.Value) is not null);
    }

    [Fact]
    public void The_new_booster_stands_within_reach()
    {
        PlanResult plan = Plans.Of(Sample);
        Areas areas = new(plan.Before.Benchwork.OutOfReach);
        Assert.All(plan.After.Wiring.Boosters, booster => Assert.Null(areas.At(new TrackPaths(plan.Before).PointAt(booster.Beside!.Value)!.Value)));
    }

    [Fact]
    public void A_rail_that_is_out_of_reach_as_a_whole_remains_and_is_told()
    {
        Layout layout = TrackBuilder.Line(2, 1).GapAtJoint("s1.a").Build();
        PlanResult plan = Planner.Plan(layout with
        {
            Track = [.. layout.Track.OfType<Piece.Section>().Select((section, i) => section with { Path = [new(i, 0), new(i + 1, 0)] })],
            Benchwork = new() { OutOfReach = [new("hill", [new(0.99, -1), new(3, -1), new(3, 1), new(0.99, 1)])] },
        }, cancel: TestContext.Current.CancellationToken);
        Assert.Contains(plan.Remains, remains => remains.Contains("within reach from below", StringComparison.Ordinal));
        Assert.All(plan.After.Wiring.Feeders, feeder => Assert.Equal(new("s0"), feeder.At.Section));
    }

    [Fact]
    public void The_bus_lies_along_the_corridors_and_is_shorter_than_along_the_track()
    {
        Layout layout = Plans.Read(Sample);
        PlanResult plan = Plans.Of(Sample), along = Planner.Plan(layout with { Benchwork = layout.Benchwork with { Corridors = [] } }, cancel: TestContext.Current.CancellationToken);
        Objective bus = plan.Objectives.First(objective => objective.Name == "bus-metres");
        Assert.True(bus.IsOptimal);
        Assert.True(bus.Value < along.Objectives.First(objective => objective.Name == "bus-metres").Value);
        string[] reasons = [.. plan.Proposals.Where(proposal => proposal.Kind == ProposalKind.BusRun).Select(proposal => proposal.Reason)];
        Assert.Contains(reasons, reason => reason.Contains("along corridor 'back'", StringComparison.Ordinal));
        Assert.DoesNotContain(reasons, reason => reason.Contains("track", StringComparison.Ordinal));
    }
}
