using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Feeders;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class FeederPlannerTests
{
    // A feeder serves one reach to each side: n feeders serve 2·n reaches.
    [Theory]
    [InlineData(0.2, 1)]
    [InlineData(2.0, 1)]
    [InlineData(2.1, 2)]
    [InlineData(5.4, 3)]
    [InlineData(20.0, 10)]
    [InlineData(20.1, 11)]
    public void A_single_section_takes_a_feeder_for_every_two_reaches(double metres, int feeders)
    {
        FeederPlan plan = Plan(new TrackBuilder().Section("s", metres).Build());
        Assert.Equal((feeders, true), (plan.Places.Length, plan.Objective.IsOptimal));
    }

    // Twelve sections of 0.48 m, 5.76 m in all: through one slide-on joiner to each side a feeder serves three of them at best.
    // Soldered, it serves 1 m to each side wherever it lies, so three do.
    [Theory]
    [InlineData(JointKind.Joiner, 4)]
    [InlineData(JointKind.Soldered, 3)]
    public void A_feeder_is_trusted_through_one_joiner_and_any_soldered_joint(JointKind kind, int feeders) =>
        Assert.Equal(feeders, Plan(TrackBuilder.Line(12, 0.48, kind).Build()).Places.Length);

    // Three sections of 0.5 m: one joiner of nickel silver is trusted either way, so one feeder serves all; of brass none is.
    [Theory]
    [InlineData("nickel-silver", 1)]
    [InlineData("stainless-steel", 1)]
    [InlineData("brass", 3)]
    [InlineData("steel", 3)]
    public void Joiners_are_trusted_as_the_alloy_of_the_rail_bears(string alloy, int feeders)
    {
        Layout layout = TrackBuilder.Line(3, 0.5).Build();
        Assert.Equal(feeders, Plan(layout with { Defaults = layout.Defaults with { Rail = layout.Defaults.Rail with { Alloy = alloy } } }).Places.Length);
    }

    [Fact]
    public void Every_alloy_says_how_many_joiners_it_bears() =>
        Assert.All(RailTable.Alloys, alloy => Assert.InRange(RailTable.TrustedJoiners(new(100, alloy, null)), 0, RailTable.MostTrustedJoiners));

    // Of two alloys the worse one counts: the brass section needs its own feeder, its neighbours of nickel silver each theirs.
    [Fact]
    public void A_joiner_between_two_alloys_is_trusted_as_the_worse_one()
    {
        Layout layout = TrackBuilder.Line(3, 0.5).Build();
        Layout mixed = layout with
        {
            Track = [.. layout.Track.Select(piece => piece is Piece.Section section && section.Id.Name == "s1" ? section with { Rail = layout.Defaults.Rail with { Alloy = "brass" } } : piece)],
        };
        Assert.Equal(3, Plan(mixed).Places.Length);
    }

    [Fact]
    public void A_gap_in_one_rail_ends_what_a_feeder_serves()
    {
        TrackBuilder track = new TrackBuilder().Section("s", 1.2).Gap("s", 0.3, RailSet.Left);
        Assert.Equal(2, Plan(track.Build()).Places.Length);
    }

    [Fact]
    public void No_feeder_goes_on_a_section_where_none_is_wanted()
    {
        Layout layout = TrackBuilder.Line(3, 0.9).Build() with { NoFeeder = [new("s1")] };
        Assert.All(Plan(layout).Places, place => Assert.NotEqual("s1", place.Section.Name));
        Assert.Equal(2, Plan(layout).Places.Length);
    }

    [Fact]
    public void A_bridge_too_long_for_its_neighbours_remains_and_says_where()
    {
        Layout layout = TrackBuilder.Line(3, 2.4).Build() with { NoFeeder = [new("s1")] };
        FeederPlan plan = Plan(layout);
        Assert.Equal(2, plan.Remains.Length);
        Assert.Contains("'s1' from 0.97 m to 1.43 m", plan.Remains[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_leg_between_gaps_without_a_section_remains_as_unfed()
    {
        TrackBuilder track = new TrackBuilder().Section("s", 1).Turnout("T1").Turnout("T2").Section("t", 1)
            .Join("s.b", "T1.points").Join("T1.through", "T2.points").Join("T2.through", "t.a")
            .GapAtJoint("T1.points").GapAtJoint("T2.through");
        Assert.Contains(Plan(track.Build()).Remains, remains => remains.Contains("no section", StringComparison.Ordinal));
    }

    [Fact]
    public void The_rail_beyond_a_live_frog_gets_its_feeder_only_past_its_gap()
    {
        TrackBuilder track = new TrackBuilder().Section("s", 0.8).Turnout("T1", frog: FrogKind.Live).Section("t", 1).Section("d", 1)
            .Join("s.b", "T1.points").Join("T1.through", "t.a").Join("T1.diverging", "d.a")
            .Gap("t", 0.2, RailSet.Right).Gap("d", 0.2, RailSet.Left);
        ImmutableArray<TrackPlace> places = Plan(track.Build()).Places;
        Assert.Equal(["d", "s", "t"], places.Select(place => place.Section.Name));
        Assert.All(places.Where(place => place.Section.Name != "s"), place => Assert.InRange(place.MetresFromA, 0.23, 0.97));
    }

    [Fact]
    public void Feeders_already_there_are_counted_and_only_the_rest_is_planned()
    {
        Layout bare = new TrackBuilder().Section("s", 3.8).Build();
        Feeder built = new("f1", new(new("s"), 1), "d1", "P1", new Wire.Metric(0.5), Length.FromMillimeters(250));
        TrackPlace added = Assert.Single(Plan(bare with { Wiring = bare.Wiring with { Feeders = [built] } }).Places);
        Assert.InRange(added.MetresFromA, 2.8, 3.0);
    }

    [Fact]
    public void A_feeder_slides_to_the_middle_of_what_it_serves_alone()
    {
        TrackPlace place = Assert.Single(Plan(new TrackBuilder().Section("s", 1.5).Build()).Places);
        Assert.Equal(0.75, place.MetresFromA, 3);
    }

    [Fact]
    public void Every_frog_fed_length_is_left_alone_even_where_no_gap_was_cut()
    {
        TrackBuilder track = new TrackBuilder().Section("s", 1).Turnout("T1", frog: FrogKind.Live).Section("t", 1).Stop("end")
            .Join("s.b", "T1.points").Join("T1.through", "t.a").Join("t.b", "end.a");
        Assert.All(Plan(track.Build()).Places, place => Assert.Equal("s", place.Section.Name));
    }

    private static FeederPlan Plan(Layout layout) =>
        FeederPlanner.Plan(layout, cancel: TestContext.Current.CancellationToken);
}
