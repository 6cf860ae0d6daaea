using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry.Exact;

public sealed class TrackworkPlanTests
{
    public static TheoryData<string> Names => [.. TrackKit.EveryKind().Select(layout => layout.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Joints_meet_and_nothing_crosses_that_does_not_on_the_railway(string name)
    {
        (Layout layout, PlanGeometry plan) = Plan(name);
        PlanMeasures measures = new(layout, plan);
        Assert.InRange(measures.WidestHole, 0, 1e-6);
        Assert.InRange(measures.SharpestJoint, 0, 8);
        Assert.Equal(0, measures.Crossings);
        Assert.Empty(plan.Bridges);
    }

    [Theory]
    [InlineData("multi-3")]
    [InlineData("multi-4")]
    [InlineData("multi-6")]
    [InlineData("multi-9")]
    public void Legs_lie_from_left_to_right_as_seen_from_the_points(string name)
    {
        (Layout layout, PlanGeometry plan) = Plan(name);
        Piece turnout = layout.Track[0];
        PlanPose points = plan.EndAt(turnout.End("points")).Reversed;
        double[] left = [.. turnout.EndNames.Skip(1).Select(leg => LeftOf(points, plan.EndAt(turnout.End(leg)).At))];
        Assert.Equal(left.OrderDescending(), left);
    }

    [Theory]
    [InlineData(TurnoutHand.Left, 1)]
    [InlineData(TurnoutHand.Right, -1)]
    public void Both_legs_of_a_curved_turnout_curve_to_its_side_the_diverging_one_more(TurnoutHand hand, int side)
    {
        Piece turnout = new Piece.Turnout(new("T1"), hand, FrogKind.Insulated) { Curved = true };
        PlanGeometry plan = PlanGeometry.Of(TrackKit.Of("curve", [turnout], "w 1 T1.points", "T1.through e 1", "T1.diverging s 1"), TestContext.Current.CancellationToken);
        double ahead = Heading(plan.EndAt(turnout.End("points")).Reversed);
        double through = side * Math.IEEERemainder(Heading(plan.EndAt(turnout.End("through"))) - ahead, 2 * Math.PI);
        double diverging = side * Math.IEEERemainder(Heading(plan.EndAt(turnout.End("diverging"))) - ahead, 2 * Math.PI);
        Assert.InRange(through, 0.2, 0.4);
        Assert.InRange(diverging, through + 0.2, 0.8);
    }

    [Theory]
    [InlineData("double-slip")]
    [InlineData("single-slip")]
    [InlineData("live-crossing")]
    [InlineData("figure-eight")]
    public void Ends_of_a_crossing_go_round_counter_clockwise_from_an_acute_angle(string name)
    {
        (Layout layout, PlanGeometry plan) = Plan(name);
        Piece crossing = layout.Track[0];
        PlanPoint centre = plan.LinesOf(crossing.Id)[0].At(0.5).At;
        double[] angles = [.. new[] { "a1", "b1", "a2", "b2" }.Select(end => plan.EndAt(crossing.End(end)).At).Select(at => Math.Atan2(at.Y - centre.Y, at.X - centre.X))];
        double[] turns = [.. angles.Select((angle, i) => Turn(angle, angles[(i + 1) % 4]))];
        Assert.All(turns, turn => Assert.InRange(turn, 0.1, Math.PI));
        Assert.Equal(2 * Math.PI, turns.Sum(), 1e-9);
        Assert.InRange(turns[0], 0.1, (Math.PI / 2) - 0.05);
    }

    [Fact]
    public void Track_a_of_a_scissors_lies_left_of_track_b()
    {
        (Layout layout, PlanGeometry plan) = Plan("scissors");
        Piece scissors = layout.Track[0];
        PlanPose ahead = plan.EndAt(scissors.End("a1")).Reversed;
        Assert.All(new[] { "b1", "b2" }, end => Assert.InRange(LeftOf(ahead, plan.EndAt(scissors.End(end)).At), double.NegativeInfinity, -0.9 * plan.SpacingMetres));
        Assert.Equal(0, LeftOf(ahead, plan.EndAt(scissors.End("a2")).At), 1e-9);
    }

    [Fact]
    public void Roads_of_a_turntable_leave_clockwise_in_even_steps()
    {
        (Layout layout, PlanGeometry plan) = Plan("turntable");
        Piece table = layout.Track[0];
        PlanPose first = plan.EndAt(table.End("t1"));
        foreach (int road in new[] { 9, 10, 11, 12, 13 })
        {
            PlanPose other = plan.EndAt(table.End($"t{road}"));
            double turned = Turn(Heading(other), Heading(first));
            Assert.Equal((road - 1) * 15.0, turned * 180 / Math.PI, 1e-6);
        }
    }

    [Fact]
    public void The_bridge_stands_with_its_head_at_the_first_road_that_is_used()
    {
        (Layout layout, PlanGeometry plan) = Plan("turntable");
        Piece.Turntable table = (Piece.Turntable)layout.Track[0];
        PlanPose head = plan.PointAt(new(table.Id, 0)), tail = plan.PointAt(new(table.Id, table.Length.Meters)), road = plan.EndAt(table.End("t1"));
        Assert.Equal(Heading(road), Heading(head.Reversed), 1e-6);
        Assert.True(Polyline.Distance(head.At, road.At) < Polyline.Distance(tail.At, road.At));
    }

    [Fact]
    public void No_other_track_runs_through_a_pit()
    {
        Layout layout = TrackKit.Of(
            "shed",
            [
                new Piece.Turntable(new("TT"), 24, UnitsNet.Length.FromMeters(0.3)), new Piece.Turnout(new("T1"), TurnoutHand.Left, FrogKind.Insulated),
                new Piece.Turnout(new("T2"), TurnoutHand.Right, FrogKind.Insulated),
            ],
            "main 1 T1.points", "T1.through east 1", "T1.diverging TT.t18", "TT.t6 T2.points", "T2.through a 0.4", "T2.diverging b 0.4", "TT.t5 c 0.4", "TT.t4 d 0.4");
        PlanGeometry plan = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
        PlanPoint centre = plan.PointAt(new(new("TT"), 0.15)).At;
        double radius = Polyline.Distance(centre, plan.EndAt(new(new("TT"), "t5")).At);
        Assert.All(
            plan.Lines.Where(line => line.Piece.Name != "TT").SelectMany(line => line.Points),
            point => Assert.InRange(Polyline.Distance(centre, point), radius * 0.999, double.PositiveInfinity));
    }

    [Fact]
    public void Roads_of_a_transfer_table_lie_opposite_each_other()
    {
        Layout layout = TrackKit.Of("opposite", [new Piece.TransferTable(new("TR"), 4, UnitsNet.Length.FromMeters(0.3))], "w 1 TR.w2", "TR.e2 e 1", "TR.e4 f 1");
        PlanGeometry plan = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
        PlanPose west = plan.EndAt(layout.Track[0].End("w2")), east = plan.EndAt(layout.Track[0].End("e2"));
        Assert.Equal(0, LeftOf(west, east.At), 1e-9);
        Assert.Equal(Heading(west.Reversed), Heading(east), 1e-9);
    }

    [Fact]
    public void A_turntable_between_sections_with_paths_lies_where_its_roads_lead()
    {
        Layout layout = TrackKit.Of("paths", [new Piece.Turntable(new("TT"), 4, UnitsNet.Length.FromMeters(0.4))], "w 1 TT.t1", "TT.t3 e 1");
        Layout drawn = layout with
        {
            Track = [.. layout.Track.Select(piece => piece switch
            {
                Piece.Section { Id.Name: "w" } section => section with { Path = [new(0, 0), new(1, 0)] },
                Piece.Section section => section with { Path = [new(1.4, 0), new(2.4, 0)] },
                _ => piece,
            })],
        };
        PlanGeometry plan = PlanGeometry.Of(drawn, TestContext.Current.CancellationToken);
        Assert.False(plan.Automatic);
        Assert.Equal(0, Polyline.Distance(new(1.2, 0), plan.PointAt(new(new("TT"), 0.2)).At), 1e-9);
    }

    private static (Layout Layout, PlanGeometry Plan) Plan(string name)
    {
        Layout layout = TrackKit.EveryKind().Single(layout => layout.Name == name);
        return (layout, PlanGeometry.Of(layout, TestContext.Current.CancellationToken));
    }

    private static double LeftOf(PlanPose pose, PlanPoint point) =>
        (pose.DirectionX * (point.Y - pose.At.Y)) - (pose.DirectionY * (point.X - pose.At.X));

    private static double Heading(PlanPose pose) => Math.Atan2(pose.DirectionY, pose.DirectionX);

    private static double Turn(double from, double to) => ((to - from) % (2 * Math.PI) + (2 * Math.PI)) % (2 * Math.PI);
}
