using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

/// <summary>What a proposal of a reversing section says of the choice that comes next.</summary>
public sealed class NextBestTests
{
    private static string? NextBest(Layout layout) => Assert.Single(Plan(layout).Sections).NextBest;

    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, ReversingOptions.Default with { NextBest = true }, TestContext.Current.CancellationToken);

    [Fact]
    public void Nothing_is_searched_for_unless_asked()
    {
        ReversingPlan plan = ReversingPlanner.Plan(Classics.Wye(), cancellation: TestContext.Current.CancellationToken);
        Assert.Null(Assert.Single(plan.Sections).NextBest);
    }

    [Fact]
    public void Balloon_has_no_other_track_for_its_section_than_the_loop_with_its_turnout()
    {
        string next = NextBest(Classics.Balloon())!;
        Assert.Contains("a section that holds 'T1'", next, StringComparison.Ordinal);
        Assert.Contains("it loses by", next, StringComparison.Ordinal);
    }

    [Fact]
    public void A_section_without_rival_says_so() => Assert.Equal(
        "No other track can take its place: every other choice considered leaves a conflict or has no room for the longest train.",
        ReversingWords.OfNextBest(new([], []), null, new RunMapBuilder(new LayoutIndex(Classics.Balloon())).Build()));

    [Fact]
    public void What_comes_next_is_what_is_chosen_when_the_best_cannot_be_had()
    {
        // The best section of the wye holds T3 and parts both sides. Where the right side may not be cut, what holds T1 is left.
        Assert.Equal(["T3"], Assert.Single(Plan(Classics.Wye()).Sections).Turnouts.Select(turnout => turnout.Name));
        ReversingSection second = Assert.Single(Plan(Classics.Wye().NoGap("right")).Sections);
        string next = NextBest(Classics.Wye())!;
        Assert.Contains($"a section that holds '{Assert.Single(second.Turnouts)}' between", next, StringComparison.Ordinal);
        Assert.All(second.Borders, border => Assert.Contains(border.At.ToString()!, next, StringComparison.Ordinal));
    }
}
