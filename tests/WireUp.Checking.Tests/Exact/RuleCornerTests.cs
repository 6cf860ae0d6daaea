using System.Collections.Immutable;
using WireUp.Checking.Rules;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Tests.Exact;

/// <summary>What the pages of the rules do not come to: other sentences of a rule, and what it must not say.</summary>
public sealed class RuleCornerTests
{
    private static readonly PieceId T1 = new("T1");

    [Theory]
    [InlineData("toe.b", "left@", 0.0)]
    [InlineData("toe.b", "right@1", 1.0)]
    [InlineData("left.a", "toe@1", 1.0)]
    [InlineData("right.a", "toe@2", 0.0)]
    [InlineData("left.a", "right@", null)] // no train passes from leg to leg
    [InlineData("toe.a", "left@", null)] // nothing is joined there
    public void A_walk_leads_through_a_turnout_from_either_side_and_never_from_leg_to_leg(string from, string goal, double? metres)
    {
        RailGraph graph = Turnout().Feed("d", "toe@1", "right@1").Graph();
        string[] end = from.Split('.');
        Stretch? found = new TrackWalk(graph, stretch => stretch.At.StartsWith(goal, StringComparison.Ordinal)).Outward(new(new(end[0]), end[1])).Nearest();
        Assert.Equal(metres, found?.Metres);
    }

    [Theory]
    [InlineData("toe.b", "left@", 0.2)]
    [InlineData("toe.b", "T1.through", 0.2)]
    [InlineData("left.a", "toe@1", 1.2)]
    public void The_length_of_a_turnout_is_walked_too(string from, string goal, double metres)
    {
        RailGraph graph = new PlanBuilder().Sections("toe left right").Piece(new Piece.Turnout(T1, TurnoutHand.Right, FrogKind.Insulated) { Length = UnitsNet.Length.FromMeters(0.2) })
            .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1").Graph();
        string[] end = from.Split('.');
        Stretch? found = new TrackWalk(graph, stretch => stretch.At.StartsWith(goal, StringComparison.Ordinal)).Outward(new(new(end[0]), end[1])).Nearest();
        Assert.Equal(metres, found!.Value.Metres, 1e-9);
    }

    [Theory]
    [InlineData(0, "right@", 2.0)]
    [InlineData(1, "right@", 1.5)]
    [InlineData(2, "right@", 0.0)]
    [InlineData(1, "toe@0 m", null)] // a walk tells where stretches begin, and it began here
    public void A_walk_from_within_a_section_counts_from_where_it_began(int station, string goal, double? metres)
    {
        RailGraph graph = Turnout().Gap("toe@0.5").Graph();
        Stretch? found = new TrackWalk(graph, stretch => stretch.At.StartsWith(goal, StringComparison.Ordinal)).Around(new("toe"), station).Nearest();
        Assert.Equal(metres, found?.Metres);
    }

    [Fact]
    public void A_buffer_stop_that_ends_no_track_is_to_be_joined_to_the_track_it_ends()
    {
        ImmutableArray<Finding> found = Checks.Of(new PlanBuilder().Sections("spur").Stop("end"), "WU2002");
        Assert.Equal(
            ["Join \"spur.a\" to what comes next, or put a buffer stop there.", "Join \"spur.b\" to what comes next, or put a buffer stop there.", "Join \"end.a\" to the track that it ends."],
            found.Select(finding => finding.Remedy));
    }

    [Fact]
    public void What_was_not_searched_under_trains_is_told_with_its_pieces()
    {
        CheckContext context = Context(Turnout().Feed("d", "toe@1"));
        CheckContext given = context with { Polarity = context.Polarity with { UndecidedUnderTrains = [T1, new("left")] } };
        Finding found = Assert.Single(new SearchGivenUp().Check(given));
        Assert.StartsWith("Whether a train makes a short as it rolls over \"T1\" and \"left\" was not searched to the end", found.Message, StringComparison.Ordinal);
        Assert.Equal("Put feeders on the track around \"T1\" and check again.", found.Remedy);
        Assert.Equal(["T1", "left"], found.Places);
    }

    [Fact]
    public void Track_whose_positions_were_too_many_to_solve_is_told_once_a_section()
    {
        ImmutableSortedDictionary<PieceId, string> when = ImmutableSortedDictionary<PieceId, string>.Empty.Add(T1, "through");
        CheckContext context = Context(Turnout().Feed("d", "toe@1")) with { Unsolved = [new(new("left"), 0, 1, when), new(new("left"), 1, 2, when), new(new("right"), 0, 2, when)] };
        Finding found = Assert.Single(new LimitsNotChecked().Check(context));
        Assert.Equal(
            "Volts and fault currents of \"left\" and \"right\" were not checked, because more than 64 sets of turnout positions would be needed.", found.Message);
        Assert.Equal("Put a feeder at \"left\", beyond gaps in the rails that come from the frogs.", found.Remedy);
        Assert.Equal(["left", "right"], found.Places);
    }

    [Fact]
    public void The_rail_by_which_a_path_leaves_a_frog_is_named_wherever_on_the_path_it_is()
    {
        RailPoint frog = new RailPoint.Inside(T1, "frog"), leg = At("through", RailSide.Right), points = At("points", RailSide.Left);
        Assert.Equal("T1.through/right", FrogGaps.First(Meeting(leg, frog, points))?.ToString());
        Assert.Equal("T1.through/right", FrogGaps.First(Meeting(points, frog, leg))?.ToString());
        Assert.Null(FrogGaps.First(Meeting(points, frog)));
        Assert.Null(FrogGaps.First(Meeting(points, leg)));
    }

    [Theory]
    [InlineData("cab-b", "b2@1")] // the same leg of another cab
    [InlineData("cab-a", "b2@1!")] // the other leg of the same cab
    public void A_switch_over_a_gap_is_not_defeated_by_a_feeder_that_brings_something_else(string cab, string place)
    {
        PlanBuilder plan = new PlanBuilder { Control = ControlSystem.Direct }.Booster("cab-a").Booster("cab-b").District("cab-a", booster: "cab-a").District("cab-b", booster: "cab-b")
            .Sections("b1 b2").Chain("b1 > b2").Gap("b1.b", RailSet.Both, "S.on").Switch("S", "on off").Feed("cab-a", "b1@1").Feed(cab, place);
        Assert.Empty(Checks.Of(plan, "WU5004"));
    }

    [Fact]
    public void Boosters_out_of_phase_that_a_contact_joins_are_told_with_its_position()
    {
        PlanBuilder plan = new PlanBuilder().Booster("one").Booster("two", turned: true).District("d", booster: "one").District("e", booster: "two")
            .Sections("a b").Chain("a > b").Gap("a.b", RailSet.Both, "S.on").Switch("S", "off on").Feed("d", "a@1").Feed("e", "b@1");
        ImmutableArray<Finding> found = Checks.Of(plan, "WU3021");
        Assert.Contains(found, finding => finding.Message.Contains("are out of phase and a rail joins them when \"S\" is set to on, between feeders", StringComparison.Ordinal));
        Assert.Contains(found, finding => finding.Remedy.StartsWith("Cut a gap in the rails between ", StringComparison.Ordinal));
    }

    [Fact]
    public void Reversing_section_is_measured_between_gaps_within_its_sections()
    {
        // 1.4 m of the first section beyond its gap, 0.3 m of the second up to its gap; the longest train is 1.5 m.
        PlanBuilder plan = new PlanBuilder().Turnouts("T1").Sections("spur one two").Chain("T1.points > spur").Chain("T1.through > one > two > T1.diverging")
            .Gap("one@0.8").Gap("two@0.3").District("d").District("turn", reversing: true).Feed("d", "spur@1", "one@0.4", "two@1").Feed("turn", "one@1.5");
        Finding found = Assert.Single(Checks.Of(plan, "WU3006"));
        Assert.Equal(Severity.Warning, found.Severity);
        Assert.StartsWith("In reversing district \"turn\" it is 1.5 m from gap \"one@0.8 m\" to gap \"two@0.3 m\"", found.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, "wires or a split ring")]
    [InlineData(false, "wires")]
    public void Switched_track_is_told_in_words_of_what_switches_it(bool turns, string feed)
    {
        Piece bridge = turns
            ? new Piece.Turntable(new("bridge"), 4, UnitsNet.Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads }
            : new Piece.TransferTable(new("bridge"), 4, UnitsNet.Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads };
        PlanBuilder plan = new PlanBuilder().Sections("near far").Piece(bridge).Chain(turns ? "near > bridge.t1" : "near > bridge.w1").Chain(turns ? "bridge.t3 > far" : "bridge.e1 > far").Feed("d", "near@1");

        ImmutableArray<Finding> found = Checks.Of(plan, "WU3013");

        Assert.Equal(
            [
                ("The bridge of \"bridge\" has current only from the road that it stands at, and none while it moves.", $"Feed the bridge by {feed} of its own, or leave it so where sound and lights may go out as it moves."),
                ($"\"far\" has current only while \"bridge\" is set to {(turns ? "t1" : "1")}, over its bridge.", "Put a feeder at \"far\", its legs as the bridge brings them."),
            ],
            found.Select(finding => (finding.Message, finding.Remedy)).OrderByDescending(words => words.Message.StartsWith("The bridge", StringComparison.Ordinal)));
        Assert.Equal("\"right\" has current only while \"T1\" is set to diverging, through its blades.", Assert.Single(Checks.Of(
            new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: FrogKind.Live).Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1", "left@1").Gap("T1.through"), "WU3013")).Message);
    }

    private static PlanBuilder Turnout() => new PlanBuilder().Sections("toe left right").Turnouts("T1")
        .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right");

    private static RailPoint At(string end, RailSide side) => new RailPoint.AtEnd(new(new(T1, end), side));

    private static RailMeeting Meeting(params RailPoint[] path) => new(MeetingKind.Short, new("f1", "d", Leg.A), new("f2", "d", Leg.B), [.. path]);

    private static CheckContext Context(PlanBuilder plan)
    {
        RailGraph graph = plan.Graph();
        return new(graph, Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken), TrackGraph.Of(graph.Index), new PowerReport());
    }
}
