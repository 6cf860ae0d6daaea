using WireUp.Layouts;
using WireUp.Planning.Tests.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Properties;

public sealed class AnyTrackworkProperties
{
    [Fact]
    public void Any_small_layout_of_any_trackwork_is_planned_so_that_nothing_shorts_or_it_says_what_remains()
    {
        int finished = 0;
        for (int seed = 1; seed <= 100; seed++)
        {
            Layout layout = RandomTrackwork.Of(seed, 1 + (seed % 3));
            PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
            Assert.True(plan.IsFinished || plan.Remains.Length > 0, $"seed {seed}: unfinished and silent");
            PolarityReport polarity = Polarity.Analyse(RailGraph.Build(plan.After), cancellationToken: TestContext.Current.CancellationToken);
            bool impossible = plan.Remains.Any(remains => remains.Contains("still one conductor", StringComparison.Ordinal));
            Assert.True(impossible || (polarity.Standing.IsEmpty && polarity.ByPosition.IsEmpty), $"seed {seed}: wires meet in {RandomTrackwork.Describe(layout)}: {string.Join(" ", plan.Remains)}");
            string? trouble = FinishedPlan.Trouble(plan, seed);
            Assert.True(trouble is null, $"seed {seed}: {trouble}");
            finished += plan.IsFinished ? 1 : 0;
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{finished} of 100 finished");
        Assert.InRange(finished, 45, 100);
    }
}
