using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A map drawn on squared paper: every line level or upright, none touching another.</summary>
/// <param name="Nodes">Where each node lies.</param>
/// <param name="ArmDirections">For each half the direction in which it leaves its node: 0 right, 1 up, 2 left, 3 down.</param>
/// <param name="Bends">For each edge its corners in order.</param>
/// <param name="FoldTurns">For each edge by how much it was folded to fit a sheet, in radians to the left.</param>
internal sealed record GridPlan(PlanPoint[] Nodes, int[] ArmDirections, PlanPoint[][] Bends, double[] FoldTurns)
{
    private const int Rounds = 6;

    /// <summary>Room around a node along an arm, in units of track spacing: the body of a turnout lies on the side of its points.</summary>
    public static double Room(MapNode node, int arm) => node.Kind switch
    {
        NodeKind.Turnout => arm == 2 ? 3.3 : 0.5,
        NodeKind.Crossing or NodeKind.Bridge => TrackBody.Of(node).HalfLength + 0.3,
        NodeKind.Port or NodeKind.Corner => node.Rooms[arm],
        _ => 0.4,
    };

    /// <summary>Length of an edge as drawn.</summary>
    public double Length(MapEdge ends, int edge)
    {
        double length = 0;
        PlanPoint last = Nodes[ends.From];
        foreach (PlanPoint next in Bends[edge].Append(Nodes[ends.To]))
        {
            length += Polyline.Distance(last, next);
            last = next;
        }

        return length;
    }

    /// <summary>Draws a connected map, folded so that it fills a sheet.</summary>
    public static GridPlan Of(PlanarMap map, double[] edgeLengths, CancellationToken cancellation)
    {
        (int[] turns, int outer) = FaceTurns.Choose(map, edgeLengths, cancellation);
        int[] folded = new FoldSearch(map, edgeLengths, turns, outer).Fold(cancellation);
        return Of(map, edgeLengths, folded, (outer, Rounds)) with { FoldTurns = [.. folded.Select((turn, edge) => (turn - turns[edge]) * Math.PI / 2)] };
    }

    /// <summary>Draws a connected map with given turns.</summary>
    public static GridPlan Of(PlanarMap map, double[] edgeLengths, int[] turns, (int OuterFace, int Rounds) how)
    {
        var shape = new GridShapeBuilder(map, turns);
        shape.CutIntoRectangles(map.Faces()[how.OuterFace][0]);
        double[] x = new GridCoordinatesWorkspace(shape, edgeLengths, horizontal: true, trackOnly: false).Solve();
        double[] y = new GridCoordinatesWorkspace(shape, edgeLengths, horizontal: false, trackOnly: false).Solve();
        var across = new GridCoordinatesWorkspace(shape, edgeLengths, horizontal: true, trackOnly: true);
        var upward = new GridCoordinatesWorkspace(shape, edgeLengths, horizontal: false, trackOnly: true);
        for (int round = 0; round < how.Rounds; round++)
        {
            x = across.Improve(x, y);
            y = upward.Improve(y, x);
        }

        return new(
            [.. Enumerable.Range(0, map.Nodes.Length).Select(At)],
            shape.ArmDirections,
            [.. shape.BendsOfEdge.Select(bends => bends.Select(At).ToArray())],
            new double[turns.Length]);

        PlanPoint At(int vertex) => new(x[vertex], y[vertex]);
    }
}
