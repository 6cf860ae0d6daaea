using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Properties;

/// <summary>Books and drawings of what the planner really plans.</summary>
public sealed class PlannedBookTests
{
    public static TheoryData<string> SmallSamples =>
    [
        .. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path).Replace(".layout.yaml", string.Empty, StringComparison.Ordinal))
            .Where(name => !name.StartsWith("tarrow-valley", StringComparison.Ordinal)), // its plan takes longer than all of these tests
    ];

    [Theory]
    [MemberData(nameof(SmallSamples))]
    public void Every_wire_and_gap_of_a_plan_is_in_its_book(string sample)
    {
        PlanResult plan = Plan(sample);
        string text = string.Concat(TestBook.Read(TestBook.Compose(plan)));

        Assert.All(Schedule.Of(plan.After, before: plan.Before).Wires, wire => Assert.Contains(wire.Id, text, StringComparison.Ordinal));
        Assert.All(GapNames.Of(plan.After, plan.Proposals), gap => Assert.Contains(gap.Label, text, StringComparison.Ordinal));
        Assert.All(plan.Power.Districts, district => Assert.Contains(district.District, text, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(SmallSamples))]
    public void No_words_cover_words_or_rails_or_leave_the_paper(string sample)
    {
        PlanResult plan = Plan(sample);
        foreach ((int index, Scene page) in TestBook.Pages(plan).Index())
        {
            Assert.Empty(SceneMeasures.TextsOutside(page, page.Bounds.Grow(-8)).Select(fault => $"page {index + 1}: {fault}"));
            Assert.Empty(SceneMeasures.TextsOnTexts(page).Select(fault => $"page {index + 1}: {fault}"));
            Assert.False(SceneMeasures.EndsWithHeading(page), $"page {index + 1} ends with a heading");
        }

        foreach (DrawingView view in new[] { DrawingView.Above, DrawingView.Below })
        {
            Scene drawing = TestDrawing.Draw(plan.After, new() { View = view, Proposals = plan.Proposals });
            Assert.Empty(SceneMeasures.TextsOnTexts(drawing));
            Assert.Empty(SceneMeasures.TextsOnRails(drawing));
        }
    }

    [Theory]
    [MemberData(nameof(SmallSamples))]
    public void Every_gap_the_planner_proposes_is_recognised_on_the_plan(string sample)
    {
        PlanResult plan = Plan(sample);
        string[] proposed = [.. plan.Proposals.Where(proposal => proposal.Kind == ProposalKind.Gap).Select(proposal => proposal.Id)];
        Assert.Equal(
            proposed.Order(StringComparer.Ordinal),
            GapNames.Of(plan.After, plan.Proposals).Select(gap => gap.Proposal?.Id).OfType<string>().Order(StringComparer.Ordinal));
    }

    private static PlanResult Plan(string sample) =>
        Planner.Plan(TestLayouts.Sample(sample), cancel: TestContext.Current.CancellationToken);
}
