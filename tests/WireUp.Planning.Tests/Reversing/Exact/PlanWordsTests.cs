using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Reversing;

namespace WireUp.Planning.Tests.Reversing.Exact;

public sealed class PlanWordsTests
{
    private static ReversingPlan Plan(Layout layout) =>
        ReversingPlanner.Plan(layout, cancellation: TestContext.Current.CancellationToken);

    [Fact]
    public void Every_plan_says_what_it_minimised_and_that_it_is_proved()
    {
        var plan = Plan(Classics.OvalWithCutOff());
        Assert.Equal([new Objective("reversing-sections", 1, 1), new Objective("reversing-gaps", 4, 4), new Objective("reversing-borders", 2, 2)], plan.Objectives);
    }

    [Fact]
    public void The_reason_names_the_walk_that_would_short()
    {
        var proposal = Plan(Classics.Balloon()).Proposals.First(one => one.Kind == ProposalKind.ReversingSection);
        Assert.Contains("left rail of 'loop' comes back as its right rail: loop → T1 → loop", proposal.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void The_working_puts_the_numbers_in()
    {
        var proposal = Plan(Classics.Balloon(loop: 2)).Proposals.First(one => one.Kind == ProposalKind.ReversingSection);
        Assert.Equal(
            ["needed = longest train × margin = 1.00 m × 1.10 = 1.10 m", "shortest drive between gaps of opposite polarity = 1.60 m"],
            proposal.Working);
    }

    [Fact]
    public void Each_gap_is_a_proposal_of_its_own_after_its_section()
    {
        var proposals = Plan(Classics.Balloon(loop: 2)).Proposals;
        Assert.Equal(["turn-1", "turn-1-gap-1", "turn-1-gap-2"], proposals.Select(proposal => proposal.Id));
        Assert.Equal(["loop@0.2 m", "loop@1.8 m"], proposals.Skip(1).Select(proposal => proposal.At));
    }

    [Fact]
    public void Names_of_existing_districts_are_not_used_again()
    {
        var layout = Classics.Balloon().Wired(wiring => wiring with
        {
            Districts = [new("turn-1", "b", ElectricCurrent.FromAmperes(3), ElectricResistance.Zero)],
        });
        Assert.Equal("turn-2", Assert.Single(Plan(layout).Sections).Name);
    }

    [Fact]
    public void Where_the_longest_train_fits_nowhere_the_plan_serves_a_shorter_one_and_says_which_and_what_to_lengthen()
    {
        // 1.3 m loop less 60 mm at each frog leaves 1.18 m: 1.18 / 1.1 = 1.07 m of train, to the centimetre below. The spur is
        // the other way out, with the train standing in the loop: shorter still.
        var plan = Plan(Classics.Balloon(loop: 1.3).Train(2));
        string remains = Assert.Single(plan.Remains);
        Assert.Contains("The longest train (2.00 m) fits no reversing section around 'T1'", remains, StringComparison.Ordinal);
        Assert.Contains("trains up to 1.07 m", remains, StringComparison.Ordinal);
        Assert.Contains("would have to be 2.20 m", remains, StringComparison.Ordinal);
        Assert.Single(plan.Sections);
    }

    [Fact]
    public void One_loop_that_is_too_short_does_not_spoil_the_plan_of_another()
    {
        var plan = Plan(Track.Of(
            "small 0.9; large 5; west 9; east 9; yard 9; T1 wye; T2 wye; T3 right",
            "T1.left > small > T1.right", "T2.left > large > T2.right",
            "T1.points > west > T3.points", "T3.through > east > T2.points", "T3.diverging > yard").NoGap("west", "east"));
        Assert.Contains("around 'T1';", Assert.Single(plan.Remains), StringComparison.Ordinal);
        Assert.Equal(["large", "small"], plan.Sections.Select(section => section.Stretches.Single().Section.Name));
        Assert.True(plan.Sections[0].Drivable.Meters >= 1.1);
        Assert.True(plan.Sections[1].Drivable.Meters < 0.9);
    }

    [Fact]
    public void A_train_in_the_stock_list_that_is_longer_than_the_longest_train_counts()
    {
        Train freight = new("freight", [], 0, ElectricCurrent.Zero, Length.FromMeters(3));
        var section = Assert.Single(Plan(Classics.Balloon() with { Stock = new() { Trains = [freight] } }).Sections);
        Assert.True(section.Drivable.Meters >= 3.3);
    }

    [Fact]
    public void A_cancelled_plan_stops() => Assert.ThrowsAny<OperationCanceledException>(
        () => ReversingPlanner.Plan(Classics.Wye(), cancellation: new CancellationToken(canceled: true)));

    [Fact]
    public void The_same_layout_in_another_order_gives_the_same_plan()
    {
        var layout = Classics.OvalWithTwoCutOffs();
        var turned = layout with
        {
            Track = [.. layout.Track.Reverse()],
            Joints = [.. layout.Joints.Reverse().Select(joint => new Joint(joint.Second, joint.First))],
        };
        Assert.Equal(
            Plan(layout).Proposals.Select(proposal => (proposal.At, proposal.Reason)),
            Plan(turned).Proposals.Select(proposal => (proposal.At, proposal.Reason)));
    }
}
