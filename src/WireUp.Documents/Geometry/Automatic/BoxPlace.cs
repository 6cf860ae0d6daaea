using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Where a box lies on squared paper, and the ways of its tracks from its sides to the body in it.</summary>
/// <param name="Pose">The body in the middle of the box.</param>
/// <param name="Ports">Where the track of each arm enters.</param>
/// <param name="Reach">Distance from the middle to the nearest side.</param>
internal sealed record BoxPlace(NodePose Pose, PlanPoint[] Ports, double Reach)
{
    private const int Steps = 4;

    /// <summary>Finds the box on paper.</summary>
    public static BoxPlace Of(MapBox box, BoxedMap map, GridPlan grid)
    {
        PlanPoint[] corners = [.. box.Corners.Select(corner => grid.Nodes[corner])];
        PlanPoint middle = Polyline.Between(corners[0], corners[2], 0.5);
        double heading = Math.PI / 2 * (grid.ArmDirections[map.Map.Nodes[box.Corners[0]].Halves[0]] - 1);
        double reach = Math.Min(Math.Abs(corners[0].X - corners[2].X), Math.Abs(corners[0].Y - corners[2].Y)) / 2;
        return new(new(middle, heading, 0), [.. box.Ports.Select(port => grid.Nodes[port])], reach);
    }

    /// <summary>
    /// The way from the end of an arm to its port. Ways of arms on a circle wind outward, all alike, until they face their ports, and
    /// so never cross; from arms side by side they are straight.
    /// </summary>
    public IEnumerable<PlanPoint> Way(TrackBody body, int arm)
    {
        PlanPoint end = Pose.Point(0, body.Arms[arm].X, body.Arms[arm].Y);
        if (!body.IsRound) return [end, Ports[arm]];
        (double from, double to) = (Polyline.Distance(end, Pose.Centre), Reach);
        double begin = Angle(end), turn = Math.IEEERemainder(Angle(Ports[arm]) - begin, 2 * Math.PI);
        return [.. Enumerable.Range(0, Steps + 1).Select(step => Around(begin + (turn * step / Steps), from + ((to - from) * step / Steps))), Ports[arm]];
    }

    private double Angle(PlanPoint point) => Math.Atan2(point.Y - Pose.Centre.Y, point.X - Pose.Centre.X);

    private PlanPoint Around(double angle, double radius) => new(Pose.Centre.X + (radius * Math.Cos(angle)), Pose.Centre.Y + (radius * Math.Sin(angle)));
}
