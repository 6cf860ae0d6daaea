using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

public sealed class ExistingWiringTests
{
    private static ReversingPlan Plan(Layout layout, ReversingOptions? options = null) =>
        ReversingPlanner.Plan(layout, options, TestContext.Current.CancellationToken);

    private static District District(string name, bool reversing) =>
        new(name, "b", ElectricCurrent.FromAmperes(3), ElectricResistance.Zero) { Reversing = reversing };

    private static Feeder Feeder(string name, string section, double metres, string district, bool swap = false) =>
        new(name, new(new(section), metres), district, "P", new Wire.Awg(20), Length.FromMeters(0.2)) { Swap = swap };

    private static Layout WithLoopSection(string loopDistrict) => Classics.Balloon().Wired(wiring => wiring with
    {
        Districts = [District("main", false), District("turn", true)],
        Gaps = [Track.DoubleGap("loop", 1), Track.DoubleGap("loop", 4)],
        Feeders = [Feeder("f1", "spur", 1, "main"), Feeder("f2", "loop", 2, loopDistrict)],
    });

    [Fact]
    public void A_section_that_is_wired_already_is_left_alone()
    {
        var plan = Plan(WithLoopSection("turn"));
        Assert.Empty(plan.Sections);
        Assert.Empty(plan.Remains);
    }

    [Fact]
    public void A_rail_that_was_not_cut_at_the_border_of_a_wired_section_is_cut_there_and_nowhere_else()
    {
        var layout = WithLoopSection("turn").Wired(wiring => wiring with
        {
            Gaps = [Track.DoubleGap("loop", 1) with { Rails = RailSet.Left }, Track.DoubleGap("loop", 4)],
        });
        var plan = Plan(layout);
        Assert.Equal([new Gap(new GapPlace.InSection(new(new("loop"), 1)), RailSet.Right)], plan.Gaps);
        Assert.Empty(plan.Sections);
        Assert.Empty(plan.Remains);
        Assert.Contains(new Objective("reversing-gaps", 1, 1), plan.Objectives);
        Assert.Equal("loop@1 m/right", Assert.Single(plan.Proposals).At);
    }

    [Fact]
    public void Cuts_a_little_apart_that_part_both_rails_are_not_cut_again()
    {
        var layout = WithLoopSection("turn").Wired(wiring => wiring with
        {
            Gaps =
            [
                Track.DoubleGap("loop", 1) with { Rails = RailSet.Left },
                Track.DoubleGap("loop", 1.02) with { Rails = RailSet.Right },
                Track.DoubleGap("loop", 4),
            ],
        });
        Assert.Empty(Plan(layout).Gaps);
    }

    [Fact]
    public void Gaps_between_two_ordinary_feeders_do_not_part_polarity()
    {
        // The loop's own feeder stays where it is, so the section must lie beside it.
        var plan = Plan(WithLoopSection("main"));
        Assert.False(Assert.Single(plan.Sections).Contains(new(new("loop"), 2)));
        Assert.Empty(plan.Remains);
    }

    [Fact]
    public void Gaps_that_are_there_serve_a_new_section()
    {
        var layout = Classics.Balloon().Wired(wiring => wiring with { Gaps = [Track.DoubleGap("loop", 1), Track.DoubleGap("loop", 4)] });
        var plan = Plan(layout);
        Assert.Empty(plan.Gaps);
        Assert.Equal(["loop@1 m", "loop@4 m"], Assert.Single(plan.Sections).Borders.Select(border => border.At.ToString()));
        Assert.Equal(0, plan.Objectives[1].Value);
    }

    [Fact]
    public void Gaps_of_both_rails_that_nothing_can_stand_between_count_as_one_place()
    {
        var layout = Classics.Balloon().Wired(wiring => wiring with
        {
            Gaps =
            [
                new(new GapPlace.InSection(new(new("loop"), 1)), RailSet.Left),
                new(new GapPlace.InSection(new(new("loop"), 1.02)), RailSet.Right),
                Track.DoubleGap("loop", 4),
            ],
        });
        Assert.Empty(Plan(layout).Gaps);
    }

    [Fact]
    public void A_section_goes_around_a_feeder_that_is_soldered_already()
    {
        var layout = Classics.Balloon().Wired(wiring => wiring with
        {
            Districts = [District("main", false)],
            Feeders = [Feeder("f1", "loop", 1, "main")],
        });
        var section = Assert.Single(Plan(layout).Sections);
        Assert.False(section.Contains(new(new("loop"), 1)));
        Assert.Empty(section.FeedersToMove);
    }

    [Fact]
    public void Only_rework_takes_a_soldered_feeder_into_a_section_and_then_says_so()
    {
        Feeder[] feeders = [.. Enumerable.Range(1, 9).Select(i => Feeder($"f{i}", "loop", i * 0.5, "main"))];
        var layout = Classics.Balloon().NoGap("spur").Wired(wiring => wiring with
        {
            Districts = [District("main", false)],
            Feeders = [.. feeders, Feeder("f0", "spur", 1, "main")],
        });
        Assert.NotEmpty(Plan(layout).Remains);
        var section = Assert.Single(Plan(layout, new() { Rework = true }).Sections);
        Assert.NotEmpty(section.FeedersToMove);
    }

    [Fact]
    public void A_feeder_that_contradicts_the_others_is_named()
    {
        var layout = Classics.PlainOval().Wired(wiring => wiring with
        {
            Districts = [District("main", false)],
            Feeders = [Feeder("f1", "north", 1, "main"), Feeder("f2", "north", 2, "main"), Feeder("f3", "south", 1, "main", swap: true)],
        });
        Assert.Contains("Feeder 'f3' is the wrong way round", Assert.Single(Plan(layout).Remains), StringComparison.Ordinal);
    }

    [Fact]
    public void Phases_follow_the_feeders_that_are_there()
    {
        var layout = Classics.PlainOval().Wired(wiring => wiring with
        {
            Districts = [District("main", false)],
            Feeders = [Feeder("f1", "south", 1, "main", swap: true)],
        });
        Assert.True(Plan(layout).SwapAt(new(new("north"), 3)));
    }

    [Fact]
    public void No_new_section_comes_nearer_a_section_that_is_there_than_the_buffer()
    {
        // The west turnout with two metres of main line is a section already.
        var layout = Classics.LoopToLoop().Wired(wiring => wiring with
        {
            Districts = [District("main", false), District("turn", true)],
            Gaps = [Track.DoubleGap("westloop", 0.3), Track.DoubleGap("westloop", 4.7), Track.DoubleGap("main", 2)],
            Feeders = [Feeder("f1", "main", 1, "turn")],
        });
        Assert.Single(Plan(layout).Sections);

        RunMap map = new RunMapBuilder(new(layout)).Build();
        BuiltWiring built = BuiltWiring.Of(map);
        Clearances clearances = Clearances.Of(layout, ReversingOptions.Default);
        var blocks = BlockFinder.Of(map, run => !built.Stretches.Any(stretch => stretch.Run == run));
        var candidates = new CandidateFinder(map, built, clearances, ReversingOptions.Default, blocks)
            .Find([.. blocks.Where(block => block.IsOdd)], TestContext.Current.CancellationToken);
        Assert.NotEmpty(candidates);
        double buffer = clearances.Buffer;
        RunStretch[] near = [.. built.Stretches.Select(one => new RunStretch(one.Run, one.From - buffer, one.To + buffer))];
        Assert.DoesNotContain(candidates, candidate => candidate.Stretches.Any(stretch => near.Any(stretch.Overlaps)));
    }
}
