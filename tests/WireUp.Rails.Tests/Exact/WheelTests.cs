using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>What a wheel or a vehicle joins that no rail does.</summary>
public sealed class WheelTests
{
    private static PolarityReport Look(Layout layout) =>
        Polarity.Analyse(RailGraph.Build(layout), cancellationToken: TestContext.Current.CancellationToken);

    /// <summary>A turning track whose polarity a contact of the turnout sets; the gaps lie some way into it.</summary>
    private static Layout TurningTrack(string asMain, string exchanged)
    {
        Layout layout = new PlanBuilder()
            .Sections("toe loop").Turnouts("T1", TurnoutHand.Left).Chain("toe > T1.points").Chain("T1.through > loop > T1.diverging")
            .Gap("loop@0.2").Gap("loop@1.8").Feed("d", "toe@1", "loop@1", "loop@1!").Build();
        ImmutableArray<Feeder> feeders = layout.Wiring.Feeders;
        return layout with
        {
            Wiring = layout.Wiring with
            {
                Feeders = [feeders[0], feeders[1] with { When = new(new("T1"), asMain) }, feeders[2] with { When = new(new("T1"), exchanged) }],
            },
        };
    }

    [Fact]
    public void Turning_track_that_the_points_turn_the_right_way_is_crossed_without_a_short() =>
        Assert.Empty(Look(TurningTrack("through", "diverging")).UnderWheels);

    [Fact]
    public void Turning_track_that_the_points_turn_the_wrong_way_shorts_under_each_wheel_at_either_end()
    {
        ImmutableArray<WheelMeeting> wheels = Look(TurningTrack("diverging", "through")).UnderWheels;
        Assert.Equal(
            ["loop@0.2 m through", "loop@0.2 m through", "loop@1.8 m diverging", "loop@1.8 m diverging"],
            wheels.Select(wheel => $"{((RailPoint.Within)wheel.Near).Place} {Assert.Single(wheel.Meeting.Turnouts).Value}"));
        Assert.All(wheels, wheel => Assert.Equal(MeetingKind.Short, wheel.Meeting.Kind));
    }

    [Fact]
    public void Gap_beyond_a_live_frog_is_no_fault_with_the_points_set_for_the_train()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: FrogKind.Live)
            .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right")
            .Gap("T1.through", RailSet.Right).Gap("right@0.3", RailSet.Left).Feed("d", "toe@1", "left@1", "right@1").Build());
        Assert.DoesNotContain(report.UnderWheels, wheel => wheel.Place == WheelPlace.Gap);
        Assert.Equal(2, report.UnderWheels.Count(wheel => wheel.Place == WheelPlace.OpenBlade));
    }

    [Fact]
    public void Open_blade_is_told_of_live_turnouts_only()
    {
        foreach ((FrogKind frog, int told) in new[] { (FrogKind.Live, 2), (FrogKind.Isolated, 0), (FrogKind.Insulated, 0) })
        {
            PolarityReport report = Look(new PlanBuilder().Sections("toe left right").Turnouts("T1", frog: frog, feed: FrogFeed.Contact)
                .Chain("toe > T1.points").Chain("T1.through > left").Chain("T1.diverging > right").Feed("d", "toe@1").Build());
            Assert.Equal(told, report.UnderWheels.Count(wheel => wheel.Place == WheelPlace.OpenBlade));
        }
    }

    private static Layout Turntable(BridgeFeed feed, bool reversing, int splitAfter = 1)
    {
        Layout layout = new PlanBuilder().Sections("lead stall").District("d").District("bridge", reversing).Feed("d", "lead@1", "stall@1").Build();
        PieceId table = new("TT");
        return layout with
        {
            Track = [.. layout.Track, new Piece.Turntable(table, 4, Length.FromMeters(0.3)) { Feed = feed, SplitAfter = splitAfter }],
            Joints = [new(new(new("lead"), "b"), new(table, "t1")), new(new(table, "t2"), new(new("stall"), "a"))],
            Wiring = layout.Wiring with
            {
                Feeders = [.. layout.Wiring.Feeders, layout.Wiring.Feeders[0] with { Name = "f3", District = "bridge", At = new(table, 0.15) }],
            },
        };
    }

    [Fact]
    public void Turntable_on_fixed_wires_shorts_with_head_or_tail_at_every_road()
    {
        ImmutableArray<WheelMeeting> wheels = Look(Turntable(BridgeFeed.Wires, reversing: false)).UnderWheels;
        Assert.All(wheels, wheel => Assert.Equal(WheelPlace.PitEdge, wheel.Place));
        Assert.Equal(2, wheels.Select(wheel => wheel.Meeting.Turnouts[new PieceId("TT")]).Distinct().Count());
    }

    [Fact]
    public void Turntable_that_swaps_by_itself_meets_every_road_rightly() =>
        Assert.Empty(Look(Turntable(BridgeFeed.Wires, reversing: true)).UnderWheels);

    [Fact]
    public void Split_ring_is_right_where_its_axis_passes_between_two_roads_of_opposite_feeders()
    {
        // The two roads are fed so that looking outward one has A on the right and the other on the left. Split between 1 and 2 that is right;
        // split between 3 and 4, on the same axis, the wires of the ring are the wrong way round.
        IEnumerable<bool> right = Enumerable.Range(1, 4).Select(split => Look(Turntable(BridgeFeed.SplitRing, reversing: false, split)))
            .Select(report => report.Exchanged.IsEmpty && report.UnderWheels.IsEmpty);
        Assert.Equal([true, false, false, false], right);
    }

    private static Layout DeadMiddle(double metres, bool exchanged) => new PlanBuilder()
        .Sections("west east").Chain("west > east").Gap(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"west@{2 - metres}")).Gap("east@0.1")
        .Feed("d", "west@0.5", exchanged ? "east@1!" : "east@1").Build();

    [Theory]
    [InlineData(0.1, true, 2)]
    [InlineData(1.3, true, 2)]
    [InlineData(1.45, true, 0)] // 1.55 m from gap to gap, and the longest train is 1.5 m
    [InlineData(0.1, false, 0)]
    public void Dead_length_between_opposite_polarities_is_bridged_by_what_is_longer(double metres, bool exchanged, int told)
    {
        PolarityReport report = Look(DeadMiddle(metres, exchanged));
        Assert.Empty(report.UnderWheels);
        Assert.Equal(told, report.UnderVehicles.Length);
        Assert.All(report.UnderVehicles, bridge => Assert.Equal(metres + 0.1, bridge.Metres, 6));
    }

    [Theory]
    [InlineData("west.b > east.a", "west@1.9", "east@0.1", false)]
    [InlineData("west.b > east.b", "west@1.9", "east@1.9", true)]
    [InlineData("west.a > east.a", "west@0.1", "east@0.1", true)]
    [InlineData("west.a > east.b", "west@0.1", "east@1.9", false)]
    public void Dead_length_is_told_whichever_ends_of_its_sections_meet(string joint, string one, string other, bool turned)
    {
        // Two sections that run against each other have their left rails on opposite sides, so that feeders alike are opposite there.
        foreach ((string feeder, int told) in new[] { ("east@1", turned ? 2 : 0), ("east@1!", turned ? 0 : 2) })
        {
            PolarityReport report = Look(new PlanBuilder().Sections("west east").Chain(joint).Gap(one).Gap(other).Feed("d", "west@1", feeder).Build());
            Assert.Equal(told, report.UnderVehicles.Length);
            Assert.All(report.UnderVehicles, bridge => Assert.Equal(0.2, bridge.Metres, 6));
        }
    }

    [Fact]
    public void Dead_length_is_followed_through_turnouts_with_the_positions_it_takes()
    {
        PolarityReport report = Look(new PlanBuilder().Sections("west east siding").Turnouts("T1").Chain("west > T1.points").Chain("T1.through > east").Chain("T1.diverging > siding")
            .Gap("west@1.9").Gap("east@0.1").Gap("siding@0.1").Feed("d", "west@1", "east@1!", "siding@1").Build());
        Assert.Equal(2, report.UnderVehicles.Length);
        Assert.All(report.UnderVehicles, bridge => Assert.Equal("through", bridge.Meeting.Turnouts[new PieceId("T1")]));
        Assert.All(report.UnderVehicles, bridge => Assert.Equal(0.2, bridge.Metres, 6));
    }
}
