using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>Plans of random layouts with every kind of trackwork, judged by the rules for sections as drawn, without the planner's map.</summary>
public sealed class TrackworkRulesTests
{
    [Fact]
    public void Sections_on_any_trackwork_cure_and_break_no_rule()
    {
        int sections = 0, bridges = 0, withTrackwork = 0;
        for (int seed = 1; seed <= 250; seed++)
        {
            Layout layout = RandomTrackwork.Of(seed, 1 + (seed % 4));
            ReversingPlan plan = ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);
            if (!plan.Remains.IsEmpty || plan.Sections.Any(section => section.Stretches.IsEmpty))
            {
                continue;
            }

            string broken = string.Join(' ', Validity.Broken(layout, PlanDrawing.Of(plan)));
            Assert.True(broken.Length == 0, $"seed {seed}: {broken} broken by {string.Join("; ", plan.Gaps.Select(gap => gap.At))} in {RandomTrackwork.Describe(layout)}");
            sections += plan.Sections.Length;
            bridges += plan.Sections.Count(section => section.IsBridge);
            withTrackwork += plan.Sections.Count(section => !section.Turnouts.IsEmpty);
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{sections} sections, {bridges} bridges, {withTrackwork} with trackwork inside");
        Assert.True(sections >= 80 && bridges >= 12 && withTrackwork >= 18, $"only {sections} sections, {bridges} bridges, {withTrackwork} with trackwork");
    }
}
