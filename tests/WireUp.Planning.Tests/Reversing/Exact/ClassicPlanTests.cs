using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

public sealed class ClassicPlanTests
{
    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    private static string[] Borders(ReversingSection section) =>
        [.. section.Borders.Select(border => border.At.ToString()!).Order(StringComparer.Ordinal)];

    [Fact]
    public void Balloon_gets_a_section_inside_its_loop()
    {
        var plan = Plan(Classics.Balloon());
        var section = Assert.Single(plan.Sections);
        Assert.Equal(["loop"], section.Stretches.Select(stretch => stretch.Section.Name));
        Assert.Empty(section.Turnouts);
        Assert.True(section.Drivable.Meters >= 1.1);
        Assert.Empty(plan.Remains);
    }

    [Fact]
    public void Balloon_gaps_go_beyond_the_clearance_points_when_the_loop_is_short()
    {
        // Clearance point: a leg of a number 6 is three gauges of 16.5 mm off after 6 × 2 × 16.5 = 198 mm, cut at the next centimetre.
        var section = Assert.Single(Plan(Classics.Balloon(loop: 2)).Sections);
        Assert.Equal(["loop@0.2 m", "loop@1.8 m"], Borders(section));
        Assert.Equal(1.6, section.Drivable.Meters, 1e-9);
    }

    [Fact]
    public void Wye_gets_its_tail_with_the_tail_turnout_gapped_on_both_legs()
    {
        var section = Assert.Single(Plan(Classics.Wye()).Sections);
        Assert.Equal(["T3"], section.Turnouts.Select(turnout => turnout.Name));
        Assert.Equal(["left@4.8 m", "right@4.8 m"], Borders(section));
        Assert.True(section.TurnsByReversing);
        Assert.Equal(2, section.Drivable.Meters, 1e-9);
    }

    [Fact]
    public void Cut_off_across_an_oval_is_itself_the_section()
    {
        var section = Assert.Single(Plan(Classics.OvalWithCutOff()).Sections);
        Assert.Equal(["cutoff@0.2 m", "cutoff@2.8 m"], Borders(section));
    }

    [Fact]
    public void Every_plan_says_what_it_minimised_and_that_it_is_proved()
    {
        var plan = Plan(Classics.OvalWithCutOff());
        Assert.Equal(
            [new Objective("reversing-sections", 1, 1), new Objective("reversing-gaps", 4, 4)],
            plan.Objectives);
        Assert.All(plan.Objectives, objective => Assert.True(objective.IsOptimal));
    }

    [Fact]
    public void The_reason_names_the_walk_that_would_short()
    {
        var proposal = Plan(Classics.Balloon()).Proposals.First(one => one.Kind == ProposalKind.ReversingSection);
        Assert.Contains("left rail of 'loop' comes back as its right rail: loop → T1 → loop", proposal.Reason, StringComparison.Ordinal);
    }
}
