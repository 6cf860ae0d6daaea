using WireUp.Layouts;
using WireUp.Planning.Frogs;
using WireUp.Planning.Reversing;
using WireUp.Planning.Tests.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Frogs.Properties;

public sealed class FrogGapProperties
{
    private static (Layout Layout, ReversingPlan Reversing, FrogPlan Frogs) Planned(int seed)
    {
        var layout = RandomTrack.Of(seed, 2 + (seed % 5), FrogKind.Live);
        var reversing = ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);
        var frogs = FrogPlanner.Plan(layout.Wired(wiring => wiring with { Gaps = reversing.Gaps }));
        return (layout, reversing, frogs);
    }

    private static int Faults(Layout layout)
    {
        var report = Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);
        Assert.Empty(report.Undecided);
        return report.Standing.Length + report.ByPosition.Length + report.FrogFaults.Length + report.Exchanged.Length;
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 60)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void With_all_gaps_nothing_shorts_in_any_position_and_without_any_one_of_them_something_does(int seed)
    {
        (Layout layout, ReversingPlan reversing, FrogPlan frogs) = Planned(seed);
        Assert.SkipUnless(reversing.Remains.IsEmpty, "this random layout has no room for its reversing sections");
        Assert.Equal(0, Faults(Fed.With(layout, reversing, frogs)));
        foreach (Gap gap in frogs.Gaps)
        {
            FrogPlan without = frogs with { Gaps = frogs.Gaps.Remove(gap) };
            Assert.True(Faults(Fed.With(layout, reversing, without)) > 0, $"{gap} is not needed");
        }
    }
}
