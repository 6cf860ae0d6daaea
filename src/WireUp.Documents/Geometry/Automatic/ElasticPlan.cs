using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A node as drawn: where its centre lies and how its bars are turned, in radians.</summary>
internal readonly record struct NodePose(PlanPoint Centre, double Heading, double OtherHeading)
{
    /// <summary>A point given in the frame of a bar.</summary>
    public PlanPoint Point(int bar, double x, double y)
    {
        (double sin, double cos) = Math.SinCos(bar == 0 ? Heading : OtherHeading);
        return new(Centre.X + (x * cos) - (y * sin), Centre.Y + (x * sin) + (y * cos));
    }
}

/// <summary>A map drawn with smooth lines, in units of track spacing.</summary>
/// <param name="Nodes">Every node.</param>
/// <param name="Edges">The line of every edge, from the end of an arm to the end of an arm.</param>
internal sealed record ElasticPlan(NodePose[] Nodes, PlanPoint[][] Edges)
{
    private const double CoarseStep = 0.8, FineStep = 0.6;

    /// <summary>Edges of a map up to which it is let go as long as does any good; beyond, so much less often that the time hardly grows.</summary>
    private const double EdgesOfFullEffort = 280;

    /// <summary>Draws a connected map: on squared paper first, then let go.</summary>
    public static ElasticPlan Of(PlanarMap map, double[] lengths, CancellationToken cancellation)
    {
        BoxedMap boxed = BoxedMap.Of(map, lengths);
        GridPlan grid = GridPlan.Of(boxed.Map, boxed.Lengths, cancellation);
        var strips = new ElasticPlanWorkspace(map, new(boxed, grid), lengths, CoarseStep);
        double effort = Math.Min(1, Math.Pow(EdgesOfFullEffort / map.Edges.Length, 2));
        for (int round = 0; round < 4; round++)
        {
            strips.Relax(Steps(12), 0.05, 0, cancellation);
            strips.Relay(CoarseStep);
        }

        for (int round = 0; round < 3; round++)
        {
            strips.Relax(Steps(20), 0.05, 1, cancellation);
            strips.Relay(CoarseStep);
        }

        strips.Relay(FineStep);
        strips.Relax(Steps(50), 0.03, 1, cancellation);
        return strips.Plan();

        int Steps(int most) => Math.Max(2, (int)Math.Round(most * effort));
    }
}
