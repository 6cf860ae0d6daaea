using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Draws one connected part of a layout and hands each piece its share of the lines.</summary>
internal sealed class PartDrawing
{
    private const int Subdivisions = 4;

    private readonly TrackNetwork _part;
    private readonly DrawnLengths _lengths;
    private readonly PlanarMap _map;
    private readonly ElasticPlan _plan;

    private PartDrawing(TrackNetwork part, DrawnLengths lengths, CancellationToken cancellation)
    {
        (_part, _lengths) = (part, lengths);
        double[] runs = [.. part.Runs.Select(lengths.Of)];
        _map = Embedding.Of(part, runs, cancellation);
        _plan = ElasticPlan.Of(_map, [.. _map.Edges.Select(edge => runs[edge.Run] / _map.EdgesOfRun[edge.Run].Length)], cancellation);
    }

    /// <summary>Draws one part.</summary>
    public static PartLines Of(TrackNetwork part, DrawnLengths lengths, CancellationToken cancellation)
    {
        var drawing = new PartDrawing(part, lengths, cancellation);
        IEnumerable<PieceLine> sections = Enumerable.Range(0, part.Runs.Length).SelectMany(drawing.Sections);
        IEnumerable<PieceLine> trackwork = Enumerable.Range(0, part.Nodes.Length).SelectMany(drawing.Trackwork);
        IEnumerable<PlanPoint> bridges = Enumerable.Range(0, drawing._map.Nodes.Length)
            .Where(node => drawing._map.Nodes[node].Kind == NodeKind.Bridge)
            .Select(node => drawing._plan.Nodes[node].Centre);
        return new([.. sections, .. trackwork], [.. bridges]);
    }

    private ImmutableArray<PlanPoint> RunLine(int run)
    {
        ImmutableArray<int> edges = _map.EdgesOfRun[run];
        PlanPoint[] points = [.. edges.SelectMany(edge => _plan.Edges[edge])];
        return SmoothLine.Through(points, Leaving(2 * edges[0]), Leaving((2 * edges[^1]) + 1)?.Reversed, Subdivisions);
    }

    // How the line of a half begins, looking along it; null where nothing says.
    private PlanPose? Leaving(int half)
    {
        int node = _map.NodeOf(half);
        TrackBody body = TrackBody.Of(_map.Nodes[node]);
        if (body.Bars > 0) return ArmEnd(_plan.Nodes[node], body.Arms[_map.Nodes[node].Halves.IndexOf(half)]);
        if (_map.Nodes[node].Kind == NodeKind.End) return null;

        // Where a closed line begins and ends it looks along the line between the points to either side.
        PlanPoint[] line = _plan.Edges[half / 2];
        PlanPose along = Polyline.At([line[^2], line[1]], 0);
        return (half & 1) == 0 ? along : along.Reversed;
    }

    private static PlanPose ArmEnd(NodePose pose, BodyArm arm)
    {
        (double sin, double cos) = Math.SinCos(arm.Heading + (arm.Bar == 0 ? pose.Heading : pose.OtherHeading));
        return new(pose.Point(arm.Bar, arm.X, arm.Y), cos, sin);
    }

    private IEnumerable<PieceLine> Sections(int run)
    {
        ImmutableArray<PlanPoint> line = RunLine(run);
        double total = _part.Runs[run].Sections.Sum(step => _lengths.Of(step.Section)), perUnit = Polyline.Length(line) / total, passed = 0;
        foreach ((Piece.Section section, bool forward) in _part.Runs[run].Sections)
        {
            double until = passed + _lengths.Of(section);
            ImmutableArray<PlanPoint> part = Polyline.Part(line, passed * perUnit, until * perUnit);
            yield return new(section.Id, "a", "b", forward ? part : [.. part.Reverse()]);
            passed = until;
        }
    }

    private IEnumerable<PieceLine> Trackwork(int index)
    {
        MapNode node = _map.Nodes[index];
        if (node.Piece is not { } piece) yield break;
        PlanPose[] ends = [.. TrackBody.Of(node).Arms.Select(arm => ArmEnd(_plan.Nodes[index], arm))];
        if (piece is Piece.Turntable or Piece.TransferTable)
        {
            foreach (PieceLine line in Table(node, _plan.Nodes[index], [.. node.Arms.Order(RoadOrder).Select(road => (road, RoadLine(node, ends, road)))])) yield return line;
        }

        foreach ((string from, string to) in PlanDrawing.Ways(piece))
        {
            (int fromArm, int toArm) = (node.ArmOf(from), node.ArmOf(to));
            (PlanPose first, PlanPose last) = (ends[fromArm], ends[toArm]);
            IEnumerable<PlanPoint> before = DirectJoint(node.Halves[fromArm]).Reverse(), after = DirectJoint(node.Halves[toArm]);
            yield return new(piece.Id, from, to, [.. before, .. WayLines.Between(piece, first, last), .. after]);
        }
    }

    private static readonly Comparer<string> RoadOrder = Comparer<string>.Create((one, other) =>
        (other[0], BoxBodies.Number(one)).CompareTo((one[0], BoxBodies.Number(other))));

    private ImmutableArray<PlanPoint> RoadLine(MapNode node, PlanPose[] ends, string road)
    {
        int arm = node.ArmOf(road);
        return [ends[arm].At, .. DirectJoint(node.Halves[arm])];
    }

    private static IEnumerable<PieceLine> Table(MapNode node, NodePose pose, (string Road, ImmutableArray<PlanPoint> Line)[] roads)
    {
        switch (node.Piece)
        {
            case Piece.Turntable table:
                double radius = BoxBodies.PitRadius(table, node.Arms);
                (double sin, double cos) = Math.SinCos(BoxBodies.RoadHeading(table, roads.Length > 0 ? roads[0].Road : "t1"));
                return TableLines.OfTurntable(table, pose.Centre, pose.Point(0, radius * cos, radius * sin), roads);
            case Piece.TransferTable table:
                (double half, Func<int, double> row) = BoxBodies.TableRows(table, node.Turned);
                double stand = row(roads.Length > 0 ? BoxBodies.Number(roads[0].Road) : 1);
                return TableLines.OfTransferTable(
                    table,
                    (pose.Point(0, -half, stand), pose.Point(0, half, stand)),
                    roads.Select(road => (road.Road, pose.Point(0, 0, row(BoxBodies.Number(road.Road))), road.Line)));
            default:
                return [];
        }
    }

    // Where two pieces of trackwork join without plain track between, each has half of the line between them.
    private IEnumerable<PlanPoint> DirectJoint(int half)
    {
        int run = _map.Edges[half / 2].Run;
        NetworkRun whole = _part.Runs[run];
        if (!whole.Sections.IsEmpty || _part.Nodes[whole.From].Kind == NodeKind.End || _part.Nodes[whole.To].Kind == NodeKind.End) return [];
        ImmutableArray<PlanPoint> line = RunLine(run);
        double middle = Polyline.Length(line) / 2;
        return (half & 1) == 0 ? Polyline.Part(line, 0, middle).Skip(1) : Polyline.Part(line, middle, 2 * middle).Reverse().Skip(1);
    }
}
