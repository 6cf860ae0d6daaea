using System.Net;
using System.Text.RegularExpressions;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Properties;

/// <summary>The papers of a railway whose lengths are told in feet and inches.</summary>
public sealed partial class FeetBookTests
{
    [Theory]
    [InlineData("cinder-wharf")]
    [InlineData("oval-with-cut-off")]
    [InlineData("hill-and-corridors")]
    [InlineData("home-yard")]
    public void No_paper_of_a_railway_told_in_feet_has_a_metric_length(string sample)
    {
        PlanResult plan = Plan(sample, LengthStyle.Feet);
        ComposedBook book = WiringBook.Make(plan, new(), TestContext.Current.CancellationToken);
        foreach ((int index, Scene page) in book.Pages.Index())
        {
            Assert.Empty(Metric().Matches(Words(page)).Select(found => $"page {index + 1}: {found}"));
        }

        Assert.Contains(" ft", string.Concat(book.Pages.Select(Words)), StringComparison.Ordinal);
        Assert.Empty(Metric().Matches(WebUtility.HtmlDecode(book.ToHtml()).Replace("mm\"", "", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_same_railway_told_in_metres_has_no_feet()
    {
        ComposedBook book = WiringBook.Make(Plan("cinder-wharf", LengthStyle.Metric), new(), TestContext.Current.CancellationToken);
        Assert.DoesNotContain(book.Pages.SelectMany(page => page.Texts), text => Feet().IsMatch(text.Content));
    }

    [Fact]
    public void The_plan_is_the_same_in_both_units()
    {
        PlanResult feet = Plan("cinder-wharf", LengthStyle.Feet), metric = Plan("cinder-wharf", LengthStyle.Metric);
        Assert.Equal(metric.Proposals.Select(proposal => (proposal.Id, proposal.Kind, proposal.At, proposal.Cost)), feet.Proposals.Select(proposal => (proposal.Id, proposal.Kind, proposal.At, proposal.Cost)));
        Assert.Equal(metric.Proposals.Select(proposal => LengthStyle.Feet.Retell(proposal.Reason)), feet.Proposals.Select(proposal => proposal.Reason));
    }

    [Fact]
    public void Wires_are_cut_to_whole_inches_and_bought_by_the_foot()
    {
        PlanResult plan = Plan("cinder-wharf", LengthStyle.Feet);
        Schedule schedule = Schedule.Of(plan.After, before: plan.Before);
        Assert.All(schedule.Wires, wire =>
        {
            Assert.Equal(Math.Round(wire.CutLength.Inches), wire.CutLength.Inches, 1e-6);
            Assert.InRange(wire.CutLength.Inches, (wire.Length.Inches * 1.05) + 2.5 - 1e-6, (wire.Length.Inches * 1.05) + 3.5);
        });
        ShoppingItem[] bought = [.. ShoppingList.Of(plan.After, plan.Before, schedule).Items.Where(item => item.Unit == "ft")];
        Assert.NotEmpty(bought);
        double feet = schedule.Wires.Sum(wire => wire.CutLength.Feet);
        Assert.InRange(bought.Sum(item => item.Quantity), 1.1 * feet, (1.1 * feet) + bought.Length);
        Assert.StartsWith("id,kind,district,leg,from,to,wire,length-in,cut-in,", schedule.ToCsv(), StringComparison.Ordinal);
    }

    /// <summary>How lengths are told never changes the plan; what the file says of its units does: a railway in inches is wired in gauges.</summary>
    [Theory]
    [InlineData("cinder-wharf", LengthStyle.Feet, true)]
    [InlineData("cinder-wharf", LengthStyle.Metric, true)]
    [InlineData("balloon-loop", LengthStyle.Feet, false)]
    public void Wire_has_the_sizes_of_the_file_whatever_lengths_are_told_in(string sample, LengthStyle told, bool gauges)
    {
        PlanResult plan = Plan(sample, told);
        Assert.Empty(plan.Before.Wiring.Feeders);
        Wire[] wires = [.. plan.After.Wiring.Feeders.Select(feeder => feeder.Wire).Concat(plan.After.Wiring.Buses.SelectMany(bus => bus.Runs).Select(run => run.Wire))];
        Assert.NotEmpty(wires);
        Assert.All(wires, wire => Assert.Equal(gauges, wire is Wire.Awg));
        Assert.DoesNotContain(ShoppingList.Of(plan.After, plan.Before, Schedule.Of(plan.After, before: plan.Before)).Items, item => gauges && item.Item.Contains("mm²", StringComparison.Ordinal));
    }

    private static string Words(Scene page) => string.Join(' ', page.Texts.Select(text => text.Content));

    private static PlanResult Plan(string sample, LengthStyle lengths) =>
        Planner.Plan(TestLayouts.Sample(sample) with { Lengths = lengths }, cancel: TestContext.Current.CancellationToken);

    [GeneratedRegex(@"\b[0-9.]+ ?(?:m|mm|metres?|millimetres?)\b(?!²|2)", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Metric();

    [GeneratedRegex(@"[0-9] (?:ft|in)\b(?! )|[0-9] ft ", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Feet();
}
