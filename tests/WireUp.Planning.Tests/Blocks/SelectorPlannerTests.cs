using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.Blocks;

/// <summary>Selectors for the cabs of a direct-current railway in blocks.</summary>
public sealed class SelectorPlannerTests
{
    [Theory]
    [InlineData("one", 2)]
    [InlineData("both", 2)]
    [InlineData("one", 3)]
    public void Every_block_can_be_given_to_every_cab_and_the_check_has_nothing_to_say(string rails, int cabs)
    {
        Layout layout = Oval(rails, cabs);
        PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        Assert.True(plan.IsFinished, string.Join("; ", plan.Remains));
        Assert.DoesNotContain(plan.Findings, finding => finding.Severity <= Severity.Warning);

        Wiring wiring = plan.After.Wiring;
        string[] names = [.. layout.Wiring.Boosters.Select(booster => booster.Name)];
        Assert.True(wiring.Switches.Length > 1);
        Assert.All(wiring.Switches, selector => Assert.Equal([.. names, "off"], selector.Positions));
        Assert.Equal(names, wiring.Districts.Select(district => district.Booster));
        foreach (IGrouping<TrackPlace, Feeder> place in wiring.Feeders.GroupBy(feeder => feeder.At))
        {
            Assert.Equal(names, place.Select(feeder => feeder.When!.Value.Position));
            Assert.Single(place.Select(feeder => feeder.When!.Value.Owner).Distinct());
            Assert.Single(place.Select(feeder => feeder.Swap).Distinct());
            Assert.Equal(names, place.Select(feeder => wiring.Districts.First(district => district.Name == feeder.District).Booster));
        }

        // With every selector on one cab that cab alone feeds all of the track; with all of them off nothing does.
        foreach (string position in names)
        {
            PowerReport power = Solve(plan.After, position);
            Assert.Empty(power.Unfed);
            Assert.Equal(position, Assert.Single(power.Districts).Booster);
        }

        Assert.Empty(Solve(plan.After, "off").Districts);
    }

    [Theory]
    [InlineData("one", 2)]
    [InlineData("one", 3)]
    public void Feeders_and_bus_count_once_for_every_cab(string rails, int cabs)
    {
        PlanResult one = Planner.Plan(Oval(rails, 1), cancel: TestContext.Current.CancellationToken), all = Planner.Plan(Oval(rails, cabs), cancel: TestContext.Current.CancellationToken);
        foreach (string name in new[] { "feeders", "bus-metres", "bus-copper" })
        {
            Objective single = one.Objectives.Single(objective => objective.Name == name), every = all.Objectives.Single(objective => objective.Name == name);
            Assert.True(single.Bound > 0);
            Assert.Equal(cabs * single.Bound, every.Bound, 1e-6);
            Assert.Equal(cabs * single.Value, every.Value, 1e-6);
        }
    }

    [Fact]
    public void What_is_planned_can_be_written_and_read_again()
    {
        string text = Text("one", 2);
        PlanResult plan = Planner.Plan(LayoutFile.Read(text, "cabs").Layout!, cancel: TestContext.Current.CancellationToken);
        Layout read = LayoutDocument.Open(text, "cabs").WithAdded(plan.After).Reading.Layout!;
        Assert.Equal(plan.After.Wiring.Feeders.AsEnumerable(), read.Wiring.Feeders);
        Assert.Equal(plan.Findings.Length, Checker.Check(read, TestContext.Current.CancellationToken).Findings.Length);
    }

    [Fact]
    public void A_plan_that_was_stopped_has_all_cabs_of_the_file()
    {
        Layout layout = Oval("one", 2);
        PlanResult plan = Planner.Plan(layout, cancel: new CancellationToken(canceled: true));
        Assert.Equal(["cab-1", "cab-2"], plan.After.Wiring.Boosters.Select(booster => booster.Name));
        Assert.Same(layout, plan.Before);
    }

    [Fact]
    public void Without_blocks_or_with_feeders_that_are_built_nothing_is_selected()
    {
        Layout layout = Oval("one", 2);
        Assert.Empty(Planner.Plan(layout with { Wishes = Wishes.None }, cancel: TestContext.Current.CancellationToken).After.Wiring.Switches);
        PlanResult plan = Planner.Plan(layout, cancel: TestContext.Current.CancellationToken);
        PlanResult again = Planner.Plan(plan.After, cancel: TestContext.Current.CancellationToken);
        Assert.Equal(plan.After.Wiring.Switches.AsEnumerable(), again.After.Wiring.Switches);
        Assert.Equal(plan.After.Wiring.Feeders.AsEnumerable(), again.After.Wiring.Feeders);
    }

    [Fact]
    public void A_reversing_section_is_left_to_the_person()
    {
        PlanResult plan = Planner.Plan(Read(Text("one", 2).Replace("> c > T1.points", "> T3.points\n  - T3.through > c > T3.diverging", StringComparison.Ordinal)
            .Replace("track:", "track:\n  T3: { turnout: left, number: 6 }", StringComparison.Ordinal)), cancel: TestContext.Current.CancellationToken);
        Assert.Contains(plan.Remains, remains => remains.StartsWith("No selectors for cabs 'cab-1', 'cab-2' are planned", StringComparison.Ordinal));
        Assert.Equal(["cab-1", "cab-2"], plan.After.Wiring.Boosters.Take(2).Select(booster => booster.Name));
    }

    private static PowerReport Solve(Layout layout, string position) => PowerAnalysis.Solve(
        layout,
        PowerOptions.Default with { Turnouts = layout.Wiring.Switches.ToImmutableSortedDictionary(selector => selector.Name, _ => position) },
        TestContext.Current.CancellationToken);

    private static Layout Oval(string rails, int cabs) => Read(Text(rails, cabs));

    private static Layout Read(string text) => ExampleLayouts.Read(text, "cabs");

    private static string Text(string rails, int cabs) =>
        $$"""
        wireup: 1
        name: Cabs
        scale: OO
        control: direct
        longest-train: 900 mm
        track:
          a: { length: 3 m }
          b: { length: 3 m }
          c: { length: 3 m }
          T1: { turnout: left, number: 6 }
          T2: { turnout: right, number: 6 }
          main: { length: 2.4 m }
          loop: { length: 2.4 m }
        joined:
          - T1.through > main > T2.through
          - T1.diverging > loop > T2.diverging
          - T2.points > a > b > c > T1.points
        stock: { locomotives: { tank: { running: 0.3 A, stopped: 0 A, count: 3 } } }
        wiring: { boosters: { {{string.Join(", ", Enumerable.Range(1, cabs).Select(cab => $"cab-{cab}: {{ volts: 12 V, amps: 1.5 A }}"))}} } }
        wishes: { blocks: { rails: {{rails}} } }
        """;
}
