using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Hand switches and contacts: feeders and gaps that conduct in one position only.</summary>
public sealed class SwitchTests
{
    [Fact]
    public void Feeders_that_exclude_each_other_are_not_exchanged()
    {
        // Two blocks on a common rail (right); each cab may be set to each block, and one switch feeds block two the other way round.
        PlanBuilder plan = Ring().Switch("S", "one two").Feed("main", "west@1?S.one", "east@1!?S.two");
        Assert.Empty(Look(plan.Graph()).Exchanged);
        Assert.Empty(Look(plan.Graph()).ByPosition);
    }

    [Fact]
    public void Feeders_of_two_switches_contradict_each_other_when_both_may_conduct()
    {
        PlanBuilder plan = Ring().Switch("S", "one two").Switch("R", "on off").Feed("main", "west@1?S.one", "east@1!?R.on");
        ExchangedFeeders found = Assert.Single(Look(plan.Graph()).Exchanged);
        Assert.Equal(["f2"], found.Feeders);
        Assert.Equal(["f1"], found.Against);
    }

    [Theory]
    [InlineData(ControlSystem.Command)]
    [InlineData(ControlSystem.Direct)]
    public void Loop_behind_a_reversing_switch_and_between_double_gaps_is_in_order(ControlSystem control)
    {
        PolarityReport report = Look(ReversedLoop(control, RailSet.Both).Graph());
        Assert.Empty(report.OddLoops);
        Assert.Empty(report.Exchanged);
        Assert.Empty(report.Standing);
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.Unfed);
    }

    [Fact]
    public void Rail_left_uncut_at_a_reversing_switch_shorts_in_one_of_its_positions()
    {
        RailMeeting found = Assert.Single(
            Look(ReversedLoop(ControlSystem.Direct, RailSet.Left).Graph()).ByPosition, meeting => meeting.Kind == MeetingKind.Short);
        Assert.Single(found.Turnouts);
        Assert.Equal("R", found.Turnouts.Keys.First().Name);
    }

    [Fact]
    public void Track_behind_a_switch_is_switched_and_track_that_no_position_feeds_is_unfed()
    {
        PlanBuilder plan = new PlanBuilder().Sections("main siding spur").Chain("main > siding > spur")
            .Gap("main.b", RailSet.Left).Gap("siding.b").Switch("S", "on off").Feed("main", "main@1", "siding@1?S.on");
        PolarityReport report = Look(plan.Graph());
        Assert.Equal("siding", Assert.Single(report.Switched).Section.Name);
        Assert.Equal("on", Assert.Single(Assert.Single(report.Switched).LiveWhen).Value);
        Assert.Equal(["spur", "spur"], report.Unfed.Select(rail => rail.Section.Name));
    }

    [Fact]
    public void Frog_hangs_on_a_wire_at_its_contact_and_on_metal_at_its_blades()
    {
        foreach ((FrogKind frog, FrogFeed feed, bool[] wires) in new[]
        {
            (FrogKind.Live, FrogFeed.None, new[] { false, false }),
            (FrogKind.Live, FrogFeed.Contact, [false, false, true, true]),
            (FrogKind.Isolated, FrogFeed.Contact, [true, true]),
        })
        {
            RailGraph graph = new PlanBuilder().Turnouts("T1", frog: frog, feed: feed).Graph();
            Assert.Equal(wires, graph.Links.OfType<RailLink.Contact>().Select(contact => contact.HasWire).Order());
        }
    }

    [Fact]
    public void Districts_that_meet_over_fewer_contacts_are_told_first()
    {
        PlanBuilder plan = new PlanBuilder().Sections("far near").Switch("R", "off on").Switch("S", "off on").Switch("T", "off on")
            .Gap("far@0.5", when: "R.on").Gap("far@1.5", when: "S.on").Gap("near@1", when: "T.on")
            .Feed("main", "far@0.2", "near@0.5").Feed("yard", "far@1.8", "near@1.5");
        Assert.Equal(
            ["T.on", "T.on", "R.on S.on", "R.on S.on"],
            Look(plan.Graph()).ByPosition.Select(meeting => string.Join(' ', meeting.Turnouts.Select(pair => $"{pair.Key.Name}.{pair.Value}"))));
    }

    [Fact]
    public void Gap_with_a_contact_over_it_switches_the_track_beyond()
    {
        PlanBuilder plan = new PlanBuilder().Sections("main siding").Chain("main > siding")
            .Gap("main.b", RailSet.Left, "S.on").Switch("S", "on off").Feed("main", "main@1");
        SwitchedTrack found = Assert.Single(Look(plan.Graph()).Switched);
        Assert.Equal(("siding", "on"), (found.Section.Name, found.LiveWhen[new("S")]));
    }

    private static PolarityReport Look(RailGraph graph) => Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken);

    private static PlanBuilder Ring() => new PlanBuilder().Sections("west east").Chain("west > east > west.a")
        .Gap("west.b", RailSet.Left).Gap("east.b", RailSet.Left);

    /// <summary>A balloon loop with a reversing switch; the gap at its far end is a double one.</summary>
    private static PlanBuilder ReversedLoop(ControlSystem control, RailSet nearGap) => new PlanBuilder { Control = control }
        .Turnouts("T1").Sections("spur loop").Chain("T1.through > loop > T1.diverging").Chain("T1.points > spur")
        .Gap("T1.through", nearGap).Gap("T1.diverging").Switch("R", "normal reversed")
        .Feed("main", "spur@1", "loop@1?R.normal", "loop@1!?R.reversed");
}
