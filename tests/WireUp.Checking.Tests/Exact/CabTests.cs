using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Tests.Exact;

/// <summary>Direct current with several cabs: common rail, block selectors, borders between cabs.</summary>
public sealed class CabTests
{
    [Theory]
    [InlineData(RailSet.Left)]
    [InlineData(RailSet.Right)]
    [InlineData(RailSet.Both)]
    public void Blocks_with_selectors_are_in_order_whichever_rails_are_cut(RailSet cut) =>
        Assert.DoesNotContain(Checks.Of(Blocks(cut)), finding => finding.Severity != Severity.Advice && IsOfCabs(finding));

    [Fact]
    public void Common_rail_with_one_cab_that_is_not_isolated_is_in_order() =>
        Assert.Empty(Checks.Of(Blocks(RailSet.Left, isolatedA: false), "WU3018"));

    [Fact]
    public void Common_rail_with_two_cabs_that_are_not_isolated_is_an_error_told_once()
    {
        Finding found = Assert.Single(Checks.Of(Blocks(RailSet.Left, isolatedA: false, isolatedB: false), "WU3018"));
        Assert.Equal(Severity.Error, found.Severity);
        Assert.Equal(["cab-a", "cab-b"], found.Places);
    }

    [Fact]
    public void Cabs_that_are_not_isolated_are_in_order_when_both_rails_are_cut() =>
        Assert.Empty(Checks.Of(Blocks(RailSet.Both, isolatedA: false, isolatedB: false), "WU3018"));

    [Theory]
    [InlineData(RailSet.Left)]
    [InlineData(RailSet.Both)]
    public void Border_without_a_gap_joins_the_cabs_and_is_told_once_with_its_positions(RailSet cut)
    {
        Finding found = Assert.Single(Checks.Of(Blocks(cut, missing: "b2.b"), "WU3019"));
        Assert.Equal(["B2", "B3"], found.Turnouts.Keys.Select(owner => owner.Name));
        Assert.Equal(["cab-a", "cab-b"], found.Turnouts.Values.Order(StringComparer.Ordinal));
        Assert.Empty(Checks.Of(Blocks(cut, missing: "b2.b"), "WU3004"));
    }

    [Fact]
    public void One_rail_left_uncut_where_both_should_be_only_makes_a_common_rail_there() =>
        Assert.DoesNotContain(
            Checks.Of(Blocks(RailSet.Both, missing: "b2.b").Gap("b2.b", RailSet.Left)), finding => IsOfCabs(finding) && finding.Severity == Severity.Error);

    [Fact]
    public void Two_cabs_soldered_to_one_block_are_joined_always()
    {
        Finding found = Assert.Single(Checks.Of(Cabs().Sections("s").Feed("cab-a", "s@0.5").Feed("cab-b", "s@1.5"), "WU3019"));
        Assert.Empty(found.Turnouts);
    }

    [Fact]
    public void Cab_whose_wires_are_exchanged_against_the_other_on_the_common_rail_is_told()
    {
        PlanBuilder plan = Cabs().Sections("b1 b2").Chain("b1 > b2").Gap("b1.b", RailSet.Left).Switch("B1", "on off").Switch("B2", "on off")
            .Feed("cab-a", "b1@1?B1.on").Feed("cab-b", "b2@1!?B2.on");
        Finding found = Assert.Single(Checks.Of(plan, "WU3018"));
        Assert.Equal(Severity.Warning, found.Severity);
    }

    [Theory]
    [InlineData("b1@1", "b2@1", 1)]
    [InlineData("b1@1", "b2@1?B2.cab-b", 1)]
    public void Gap_without_a_common_cab_is_told(string nearA, string farB, int told)
    {
        PlanBuilder plan = Cabs().Sections("b1 b2").Chain("b1 > b2").Gap("b1.b").Switch("B2", "cab-a cab-b").Feed("cab-a", nearA).Feed("cab-b", farB);
        Assert.Equal(told, Checks.Of(plan, "WU3020").Length);
        Assert.Empty(Checks.Of(plan.Feed("cab-a", "b2@1.5?B2.cab-a"), "WU3020").Where(_ => farB.Contains('?', StringComparison.Ordinal)));
    }

    [Fact]
    public void Every_border_names_the_pairs_of_cabs_and_the_positions()
    {
        CabReport cabs = Borders(Blocks(RailSet.Left));
        Assert.Equal(["b1.b", "b2.b", "b3.b", "b4.b"], cabs.Borders.Select(border => border.At.ToString()));
        CabBorder border = cabs.Borders[1];
        Assert.True(border.HasCommonCab);
        Assert.Equal(
            [("cab-a", "cab-b", "B2.cab-a B3.cab-b"), ("cab-b", "cab-a", "B2.cab-b B3.cab-a")],
            border.Meetings.Select(pair => (pair.Near, pair.Far, string.Join(' ', pair.When.Select(setting => $"{setting.Key}.{setting.Value}")))));
    }

    [Fact]
    public void Isolating_siding_meets_no_other_cab_than_its_block()
    {
        // The siding gets what block b1 has, through S: no pair of different cabs can be at its gap.
        CabReport cabs = Borders(Cabs().Sections("b1 siding").Chain("b1 > siding").Gap("b1.b", RailSet.Left, "S.on")
            .Switch("B1", "cab-a cab-b").Switch("S", "on off").Feed("cab-a", "b1@1?B1.cab-a").Feed("cab-b", "b1@1?B1.cab-b"));
        Assert.Empty(Assert.Single(cabs.Borders).Meetings);
    }

    [Fact]
    public void Reversing_switch_of_a_loop_draws_no_complaint_about_cabs_or_feeders()
    {
        PlanBuilder plan = Cabs().Turnouts("T1").Sections("spur loop").Chain("T1.through > loop > T1.diverging").Chain("T1.points > spur")
            .Gap("T1.through").Gap("T1.diverging").Switch("R", "normal reversed")
            .Feed("cab-a", "spur@1", "loop@1?R.normal", "loop@1!?R.reversed");
        Assert.DoesNotContain(Checks.Of(plan), finding => finding.Severity == Severity.Error && finding.Code.StartsWith("WU3", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(1.4, Severity.Error, 1)] // the longest train is 1.5 m
    [InlineData(1.6, Severity.Warning, 1)] // it fits, the margin of a tenth does not
    [InlineData(1.7, Severity.Warning, 0)]
    public void Loop_behind_a_reversing_switch_must_hold_the_longest_train(double metres, Severity severity, int told)
    {
        PlanBuilder plan = Cabs().Turnouts("T1").Sections("spur").Sections("loop", metres).Chain("T1.through > loop > T1.diverging").Chain("T1.points > spur")
            .Gap("T1.through").Gap("T1.diverging").Switch("R", "normal reversed").Feed("cab-a", "spur@1", "loop@1?R.normal", "loop@1!?R.reversed");
        ImmutableArray<Finding> found = Checks.Of(plan, "WU3006");
        Assert.Equal(told, found.Length);
        Assert.All(found, finding => Assert.Equal((severity, "R"), (finding.Severity, finding.Places[0])));
    }

    [Fact]
    public void Common_rail_that_hundreds_of_contacts_touch_is_searched_to_the_end()
    {
        PlanBuilder plan = Cabs();
        string[] names = [.. Enumerable.Range(0, 300).Select(i => $"s{i.ToString(System.Globalization.CultureInfo.InvariantCulture)}")];
        plan.Sections(string.Join(' ', names)).Chain(string.Join(" > ", names));
        foreach (string name in names)
        {
            plan.Switch($"B{name}", "a b").Feed("cab-a", $"{name}@1?B{name}.a").Feed("cab-b", $"{name}@1?B{name}.b").Gap($"{name}.b", RailSet.Left);
        }

        Assert.DoesNotContain(Checks.Of(plan), IsOfCabs);
    }

    private static bool IsOfCabs(Finding finding) => finding.Code.StartsWith("WU3", StringComparison.Ordinal);

    private static CabReport Borders(PlanBuilder plan)
    {
        RailGraph graph = plan.Graph();
        return WireUp.Rails.Cabs.Analyse(graph, Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken), FeedWays.Of(graph));
    }

    private static PlanBuilder Cabs(bool isolatedA = true, bool isolatedB = true) => new PlanBuilder { Control = ControlSystem.Direct }
        .Booster("cab-a", isolatedA).Booster("cab-b", isolatedB).District("cab-a", booster: "cab-a").District("cab-b", booster: "cab-b");

    /// <summary>A ring of four blocks, each with a selector for two cabs; cut between the blocks but where told not to.</summary>
    private static PlanBuilder Blocks(RailSet cut, bool isolatedA = true, bool isolatedB = true, string missing = "")
    {
        PlanBuilder plan = Cabs(isolatedA, isolatedB).Sections("b1 b2 b3 b4").Chain("b1 > b2 > b3 > b4 > b1.a");
        foreach (string block in ImmutableArray.Create("1", "2", "3", "4"))
        {
            plan.Switch($"B{block}", "cab-a cab-b off").Feed("cab-a", $"b{block}@1?B{block}.cab-a").Feed("cab-b", $"b{block}@1?B{block}.cab-b");
            _ = missing == $"b{block}.b" ? plan : plan.Gap($"b{block}.b", cut);
        }

        return plan;
    }
}
