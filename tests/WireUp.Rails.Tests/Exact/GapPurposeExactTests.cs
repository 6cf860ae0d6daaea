using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>Gaps that every modeller knows, and what each is good for.</summary>
public sealed class GapPurposeExactTests
{
    private static ImmutableArray<GapPurpose> Find(PlanBuilder plan) => GapPurposes.Find(plan.Graph(), TestContext.Current.CancellationToken);

    private static PlanBuilder Turnout(FrogKind frog) => new PlanBuilder()
        .Sections("toe left right").Turnouts("T1", TurnoutHand.Right, frog)
        .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right")
        .Feed("d", "toe@1", "left@1", "right@1");

    [Fact]
    public void Gap_beyond_a_live_frog_prevents_a_short_when_the_points_are_set_for_the_other_leg()
    {
        ImmutableArray<GapPurpose> purposes = Find(Turnout(FrogKind.Live).Gap("T1.through", RailSet.Right).Gap("T1.diverging", RailSet.Left));
        Assert.Equal(["T1.through/right", "T1.diverging/left"], purposes.Select(purpose => purpose.Gap.ToString()));
        Assert.All(purposes, purpose => Assert.Equal(GapUse.Short, purpose.Use));
        Assert.Equal([new PieceId("T1"), new PieceId("T1")], purposes.Select(purpose => Assert.Single(purpose.Turnouts).Key));
        Assert.Equal(["diverging", "through"], purposes.Select(purpose => Assert.Single(purpose.Turnouts).Value));
        Assert.All(purposes, purpose => Assert.Contains("T1/frog", purpose.Path.Select(point => point.ToString())));
    }

    [Fact]
    public void Gap_beyond_an_insulated_frog_is_needed_for_nothing()
    {
        ImmutableArray<GapPurpose> purposes = Find(Turnout(FrogKind.Insulated).Gap("T1.through", RailSet.Right).Gap("T1.diverging", RailSet.Left));
        Assert.All(purposes, purpose => Assert.Equal((GapUse.Nothing, false, 0), (purpose.Use, purpose.IsNeeded, purpose.EitherOf.Length)));
    }

    [Fact]
    public void Of_two_gaps_one_behind_the_other_either_is_enough()
    {
        ImmutableArray<GapPurpose> purposes = Find(Turnout(FrogKind.Live)
            .Gap("T1.through", RailSet.Right).Gap("left@0.5", RailSet.Right).Gap("T1.diverging", RailSet.Left));
        GapPurpose first = purposes[0], needed = purposes[1], second = purposes[2];
        Assert.Equal(("T1.through/right", "left@0.5 m/right"), (first.Gap.ToString(), second.Gap.ToString()));
        Assert.Equal((GapUse.Unfed, GapUse.Unfed, GapUse.Short), (first.Use, second.Use, needed.Use));
        Assert.Equal([second.Gap], first.EitherOf);
        Assert.Equal([first.Gap], second.EitherOf);
        Assert.Empty(needed.EitherOf);
    }

    [Fact]
    public void Gap_in_one_track_of_an_oval_changes_nothing_because_the_rail_goes_around()
    {
        ImmutableArray<GapPurpose> purposes = Find(new PlanBuilder().Sections("north south").Chain("north > south > north").Feed("d", "north@1").Gap("south@1", RailSet.Left));
        Assert.Equal(GapUse.Around, Assert.Single(purposes).Use);
    }

    [Fact]
    public void Gaps_at_the_border_of_a_turning_track_keep_its_device_from_the_rest()
    {
        ImmutableArray<GapPurpose> purposes = Find(new PlanBuilder()
            .Sections("toe loop").Turnouts("T1").Chain("toe > T1.points").Chain("T1.through > loop > T1.diverging")
            .District("d").District("turn", reversing: true).Feed("d", "toe@1").Feed("turn", "loop@1").Gap("loop@0.2").Gap("loop@1.8"));
        Assert.Equal(4, purposes.Length);
        Assert.All(purposes, purpose => Assert.Equal(GapUse.Reversing, purpose.Use));
    }

    [Fact]
    public void Only_pair_of_gaps_in_a_loop_that_nothing_feeds_keeps_its_two_rails_apart()
    {
        ImmutableArray<GapPurpose> purposes = Find(new PlanBuilder()
            .Sections("toe loop").Turnouts("T1").Chain("toe > T1.points").Chain("T1.through > loop > T1.diverging").Gap("loop@1"));
        Assert.Equal([GapUse.Loop, GapUse.Loop], purposes.Select(purpose => purpose.Use));
        Assert.All(purposes, purpose => Assert.NotEmpty(purpose.Path));
    }

    /// <summary>
    /// The right rail before the first gap and the left rail beyond the last are one stock rail. So the left gap at 1.5 m, closed together
    /// with the right ones at 0.5 m and 1 m, joins the two rails between 1 m and 1.5 m; and the other way round.
    /// </summary>
    [Fact]
    public void Of_three_pairs_of_gaps_in_a_loop_that_nothing_feeds_one_has_to_stay()
    {
        ImmutableArray<GapPurpose> purposes = Find(new PlanBuilder()
            .Sections("toe loop").Turnouts("T1").Chain("toe > T1.points").Chain("T1.through > loop > T1.diverging").Gap("loop@0.5").Gap("loop@1").Gap("loop@1.5"));
        Assert.Equal(
            [
                "loop@0.5 m/left: loop@1.5 m/right",
                "loop@0.5 m/right: loop@1.5 m/left",
                "loop@1 m/left: loop@1.5 m/right",
                "loop@1 m/right: loop@1.5 m/left",
                "loop@1.5 m/left: loop@0.5 m/right loop@1 m/right",
                "loop@1.5 m/right: loop@0.5 m/left loop@1 m/left",
            ],
            purposes.Select(purpose => $"{purpose.Gap}: {string.Join(' ', purpose.EitherOf)}"));
    }

    [Fact]
    public void Insulated_joint_between_two_districts_is_named_rail_by_rail()
    {
        Layout layout = new PlanBuilder().Sections("a b").Feed("d", "a@1").Feed("e", "b@1").Build();
        ImmutableArray<GapPurpose> purposes = GapPurposes.Find(
            RailGraph.Build(layout with { Joints = [new(new(new("a"), "b"), new(new("b"), "a")) { Insulated = RailSet.Both }] }), TestContext.Current.CancellationToken);
        Assert.Equal(["a.b/left Districts", "a.b/right Districts"], purposes.Select(purpose => $"{purpose.Gap} {purpose.Use}"));
    }

    [Fact]
    public void Gap_in_one_rail_of_a_siding_that_a_hand_switch_bridges_is_there_to_switch_it_off()
    {
        Layout layout = new PlanBuilder().Sections("main siding").Chain("main > siding").Feed("d", "main@1").Build();
        Layout parking = layout with
        {
            Wiring = layout.Wiring with
            {
                Switches = [new(new("S1"), ["on", "off"])],
                Gaps = [new(new GapPlace.InJoint(new(new("siding"), "a")), RailSet.Right) { BridgedWhen = new(new("S1"), "on") }],
            },
        };
        GapPurpose purpose = Assert.Single(GapPurposes.Find(RailGraph.Build(parking), TestContext.Current.CancellationToken));
        Assert.Equal(("siding.a/right", GapUse.Switching, "off"), (purpose.Gap.ToString(), purpose.Use, purpose.Turnouts[new PieceId("S1")]));
        Assert.True(purpose.IsNeeded);
    }
}
