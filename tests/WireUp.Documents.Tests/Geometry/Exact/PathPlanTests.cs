using UnitsNet;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry.Exact;

public sealed class PathPlanTests
{
    private static readonly PlanGeometry Plan = PlanGeometry.Of(SpurWithTurnout(), TestContext.Current.CancellationToken);

    [Fact]
    public void A_plan_with_all_paths_is_not_automatic() => Assert.False(Plan.Automatic);

    [Fact]
    public void A_place_lies_its_share_of_the_way_along_the_path()
    {
        // Path of 3 m + 1 m round a corner stands for a section of 8 m: 7 m along is 3.5 m of path.
        PlanPose pose = Plan.PointAt(new(new("bent"), 7));
        Assert.Equal(new PlanPoint(3, 0.5), pose.At);
        Assert.Equal((0.0, 1.0), (pose.DirectionX, pose.DirectionY));
    }

    [Fact]
    public void Left_of_a_place_is_the_left_seen_from_a_to_b() =>
        Assert.Equal(new PlanPoint(1, 0.25), Plan.PointAt(new(new("bent"), 2)).Beside(0.25));

    [Fact]
    public void A_turnout_ends_where_its_sections_end()
    {
        Assert.Equal(new PlanPoint(3, 1), Plan.EndAt(new(new("T1"), "points")).At);
        Assert.Equal(new PlanPoint(3, 2), Plan.EndAt(new(new("T1"), "through")).At);
    }

    [Fact]
    public void A_turnout_leaves_towards_the_section_it_joins()
    {
        PlanPose end = Plan.EndAt(new(new("T1"), "points"));
        Assert.Equal(0, end.DirectionX, 1e-2);
        Assert.Equal(-1, end.DirectionY, 1e-2);
    }

    [Fact]
    public void One_missing_path_makes_the_whole_plan_automatic()
    {
        Layout layout = SpurWithTurnout();
        Layout without = layout with { Track = layout.Track.Add(new Piece.Section(new("spare"), Length.FromMeters(1))) };
        Assert.True(PlanGeometry.Of(without, TestContext.Current.CancellationToken).Automatic);
    }

    private static Layout SpurWithTurnout() => new()
    {
        Name = "Spur",
        LongestTrain = Length.FromMeters(1),
        ShortestPickup = Length.FromMeters(0.1),
        Track =
        [
            new Piece.Section(new("bent"), Length.FromMeters(8)) { Path = [new(0, 0), new(3, 0), new(3, 1)] },
            new Piece.Turnout(new("T1"), TurnoutHand.Right, FrogKind.Insulated),
            new Piece.Section(new("ahead"), Length.FromMeters(1)) { Path = [new(3, 2), new(3, 3)] },
        ],
        Joints = [new(new(new("bent"), "b"), new(new("T1"), "points")), new(new(new("T1"), "through"), new(new("ahead"), "a"))],
    };
}
