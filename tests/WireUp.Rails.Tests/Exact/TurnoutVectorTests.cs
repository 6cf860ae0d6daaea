using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// What each kind of turnout asks for in gaps, and what its legs carry. Legs are P (left) and Q (right) seen from the points;
/// each end has a section: t, p, q. The answers are common practice, no published source, found by tracing rails by hand.
/// </summary>
public sealed class TurnoutVectorTests
{
    private const RailSet Inner = RailSet.Right; // of the left leg; the right leg's inner rail is its left one

    public static TheoryData<TurnoutHand> Hands => [TurnoutHand.Left, TurnoutHand.Right, TurnoutHand.Wye];

    private static (string P, string Q) Legs(TurnoutHand hand)
    {
        Piece.Turnout turnout = new(new("T"), hand, FrogKind.Live);
        return (turnout.LeftLeg, turnout.RightLeg);
    }

    private static PlanBuilder Plan(TurnoutHand hand, FrogKind frog, FrogFeed feed = FrogFeed.None) => new PlanBuilder()
        .Turnouts("T", hand, frog, feed).Sections("t p q")
        .Chain("T.points > t").Chain($"T.{Legs(hand).P} > p").Chain($"T.{Legs(hand).Q} > q");

    /// <summary>Leg A on the left stock rail everywhere: section t is passed from the points outward, so its feeder is exchanged.</summary>
    private static PlanBuilder AllFed(PlanBuilder plan) => plan.Feed("d", "t@1!", "p@1", "q@1");

    private static PolarityReport Look(PlanBuilder plan) => Polarity.Analyse(plan.Graph());

    private static string Carries(PlanBuilder plan, string section, params (string Turnout, string Position)[] positions)
    {
        RailGraph graph = plan.Feed("d").Graph();
        var legs = Polarity.LegsIn(graph, positions.ToDictionary(pair => new PieceId(pair.Turnout), pair => pair.Position));
        Station middle = graph.Stations(new(section))[^1];
        return $"{Text(legs[middle.FirstTowardsA])} {Text(legs[middle.SecondTowardsA])}";
    }

    private static string Text(ImmutableSortedSet<string> legs) => legs.IsEmpty ? "-" : string.Join('+', legs.Select(leg => leg[^1]));

    [Theory]
    [MemberData(nameof(Hands))]
    public void Insulated_frog_needs_no_gaps(TurnoutHand hand)
    {
        PolarityReport report = Look(AllFed(Plan(hand, FrogKind.Insulated)));
        Assert.Empty(report.Standing);
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.Exchanged);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Isolated_frog_fed_by_a_contact_needs_no_gaps(TurnoutHand hand)
    {
        PolarityReport report = Look(AllFed(Plan(hand, FrogKind.Isolated, FrogFeed.Contact)));
        Assert.Empty(report.Standing);
        Assert.Empty(report.ByPosition);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_frog_with_both_heel_gaps_is_free_of_shorts(TurnoutHand hand)
    {
        (string p, string q) = Legs(hand);
        PolarityReport report = Look(AllFed(Plan(hand, FrogKind.Live)).Gap($"T.{p}", Inner).Gap($"T.{q}", RailSet.Left));
        Assert.Empty(report.Standing);
        Assert.Empty(report.ByPosition);
        Assert.Empty(report.FrogFaults);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_frog_without_the_gap_in_the_right_leg_shorts_when_set_for_the_left(TurnoutHand hand)
    {
        (string p, _) = Legs(hand);
        PolarityReport report = Look(AllFed(Plan(hand, FrogKind.Live)).Gap($"T.{p}", Inner));
        RailMeeting meeting = Assert.Single(report.ByPosition);
        Assert.Equal(p, Assert.Single(meeting.Turnouts).Value);
        Assert.Equal(MeetingKind.Short, meeting.Kind);
        Assert.Empty(report.Standing);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_frog_without_the_gap_in_the_left_leg_shorts_when_set_for_the_right(TurnoutHand hand)
    {
        (_, string q) = Legs(hand);
        RailMeeting meeting = Assert.Single(Look(AllFed(Plan(hand, FrogKind.Live)).Gap($"T.{q}", RailSet.Left)).ByPosition);
        Assert.Equal(q, Assert.Single(meeting.Turnouts).Value);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_frog_without_any_gap_is_one_standing_short_over_the_frog(TurnoutHand hand)
    {
        PolarityReport report = Look(AllFed(Plan(hand, FrogKind.Live)));
        RailMeeting meeting = Assert.Single(report.Standing);
        Assert.Equal("T", Assert.Single(meeting.Frogs).Name);
        Assert.Empty(report.ByPosition);
        (string p, string q) = Legs(hand);
        Assert.Equal(
            ["p@1 m/right", "p.a/left", $"T.{p}/right", "T/frog", $"T.{q}/left", "q.a/right", "q@1 m/left"],
            (meeting.From.Feeder == "f2" ? meeting.Path : meeting.Path.Reverse()).Select(point => point.ToString()));
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_turnout_fed_at_its_toe_powers_the_set_leg_and_makes_the_other_dead(TurnoutHand hand)
    {
        (string p, string q) = Legs(hand);
        PlanBuilder plan = Plan(hand, FrogKind.Live).Feed("d", "t@1!");
        Assert.Equal(("A B", "B B"), (Carries(plan, "p", ("T", p)), Carries(plan, "q", ("T", p))));
        Assert.Equal(("A A", "A B"), (Carries(plan, "p", ("T", q)), Carries(plan, "q", ("T", q))));
        Assert.Equal(("A -", "- B"), (Carries(plan, "p"), Carries(plan, "q")));
        Assert.Empty(Look(plan).ByPosition);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_turnout_fed_at_its_toe_has_legs_that_are_live_in_their_own_position_and_that_is_no_unfed_rail(TurnoutHand hand)
    {
        (string p, string q) = Legs(hand);
        PolarityReport report = Look(Plan(hand, FrogKind.Live).Feed("d", "t@1!"));
        Assert.Empty(report.Unfed);
        Assert.Equal([$"p T={p}", $"q T={q}"], report.Switched.Select(track =>
            $"{track.Section} {string.Join(' ', track.LiveWhen.Select(pair => $"{pair.Key}={pair.Value}"))}"));
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Live_turnout_fed_at_its_left_leg_only_shorts_when_set_for_the_right(TurnoutHand hand)
    {
        (_, string q) = Legs(hand);
        PolarityReport report = Look(Plan(hand, FrogKind.Live).Feed("d", "p@1"));
        Assert.Equal(q, Assert.Single(Assert.Single(report.ByPosition).Turnouts).Value);
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Insulated_turnout_fed_anywhere_powers_all_of_it(TurnoutHand hand)
    {
        PlanBuilder plan = Plan(hand, FrogKind.Insulated).Feed("d", "q@1");
        Assert.Equal(("B A", "A B", "A B"), (Carries(plan, "t"), Carries(plan, "p"), Carries(plan, "q")));
    }

    [Theory]
    [MemberData(nameof(Hands))]
    public void Frog_with_a_contact_takes_the_polarity_of_the_route(TurnoutHand hand)
    {
        (string p, string q) = Legs(hand);
        RailGraph graph = Plan(hand, FrogKind.Isolated, FrogFeed.Contact).Feed("d", "t@1!").Graph();
        int frog = graph.NodeInside(new("T"), "frog")!.Value;
        string In(string? position) =>
            Text(Polarity.LegsIn(graph, position is null ? new Dictionary<PieceId, string>() : new() { [new("T")] = position })[frog]);
        Assert.Equal(("B", "A", "-"), (In(p), In(q), In(null)));
    }
}
