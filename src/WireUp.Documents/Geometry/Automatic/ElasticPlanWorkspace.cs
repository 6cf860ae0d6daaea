using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A plan on squared paper, with the boxes that large trackwork lies in.</summary>
internal sealed record PaperPlan(BoxedMap Boxed, GridPlan Grid);

/// <summary>
/// Track as elastic strips between rigid turnouts and crossings. It is let go on squared paper and comes to rest where bending,
/// stretching, crowding and slant are least. No line ever passes another: in one step no two of them come nearer than a fifth
/// of their distance.
/// </summary>
internal sealed class ElasticPlanWorkspace
{
    private readonly PlanarMap _map;
    private readonly double[] _lengths;
    private readonly double[] _restTurns;
    private readonly double[,] _between;
    private readonly ImmutableArray<TrackBody> _bodies;
    private readonly ImmutableArray<BoxPlace?> _boxes;
    private readonly NodePose[] _poses;
    private StripModel _model;
    private double[] _x, _y;
    private NearPairsWorkspace _pairs;
    private double _step;

    /// <summary>Lays the strips on squared paper.</summary>
    /// <param name="map">What joins what.</param>
    /// <param name="paper">The plan on squared paper.</param>
    /// <param name="lengths">Wanted length of each edge.</param>
    /// <param name="step">Distance between points.</param>
    public ElasticPlanWorkspace(PlanarMap map, PaperPlan paper, double[] lengths, double step)
    {
        (_map, _lengths, _restTurns) = (map, lengths, paper.Grid.FoldTurns);
        _bodies = [.. map.Nodes.Select(TrackBody.Of)];
        _boxes = [.. paper.Boxed.Boxes.Select(box => box is null ? null : BoxPlace.Of(box, paper.Boxed, paper.Grid))];
        _poses = [.. Enumerable.Range(0, map.Nodes.Length).Select(node => _boxes[node]?.Pose ?? PoseOn(paper.Grid, node))];
        _between = NetDistances.Between(map, lengths);
        _model = new(map, _bodies, _poses);
        (_x, _y) = ([], []);
        Lay([.. map.Edges.Select((_, edge) => Corners(edge, paper.Grid))], step);
    }

    /// <summary>The plan as it lies now.</summary>
    public ElasticPlan Plan() => new([.. _poses], [.. Enumerable.Range(0, _map.Edges.Length).Select(Line)]);

    /// <summary>Lays the strips anew, with points about a step apart.</summary>
    public void Relay(double step) => Lay(Plan().Edges, step);

    /// <summary>Lets it move.</summary>
    /// <param name="steps">How often.</param>
    /// <param name="damping">How much moves are held back, from this at first to a tenth of it.</param>
    /// <param name="straightening">How strongly lines are drawn level or upright, from 0 to 1.</param>
    /// <param name="cancellation">Stops it.</param>
    public void Relax(int steps, double damping, double straightening, CancellationToken cancellation)
    {
        var forces = new StripForces(_model, _restTurns, _step) { Straightening = straightening };
        var moves = new StripMoves(_model);
        for (int step = 0; step < steps; step++)
        {
            cancellation.ThrowIfCancellationRequested();
            _pairs.Update(_x, _y);
            forces.Find(_x, _y, _poses, _pairs.Pairs);
            moves.Solve(forces, (_x, _y), _poses, damping * Math.Pow(0.1, (double)step / steps));
            moves.Apply((_x, _y), _poses, _pairs.Pairs);
        }
    }

    private NodePose PoseOn(GridPlan grid, int node)
    {
        TrackBody body = _bodies[node];
        int[] directions = [.. _map.Nodes[node].Halves.Select(half => grid.ArmDirections[half])];
        double ahead = body.Bars == 0 ? 0 : Math.PI / 2 * (body.Bars == 1 ? directions[2] + 2 : directions[0]);
        PlanPoint at = grid.Nodes[node];
        return new(
            new(at.X - (body.Shift * Math.Cos(ahead)), at.Y - (body.Shift * Math.Sin(ahead))),
            ahead,
            body.Bars == 2 ? Math.PI / 2 * directions[1] : 0);
    }

    private PlanPoint[] Corners(int edge, GridPlan grid)
    {
        MapEdge ends = _map.Edges[edge];
        return [.. Leaving(ends.From, 2 * edge), .. grid.Bends[edge], .. Leaving(ends.To, (2 * edge) + 1).Reverse()];
    }

    private IEnumerable<PlanPoint> Leaving(int node, int half)
    {
        int number = _map.Nodes[node].Halves.IndexOf(half);
        BodyArm arm = _bodies[node].Arms[number];
        return _boxes[node]?.Way(_bodies[node], number) ?? [_poses[node].Point(arm.Bar, arm.X, arm.Y)];
    }

    private PlanPoint[] Line(int edge)
    {
        (int first, int last) = _model.DrawnPart(edge);
        return [.. _model.Chains[edge][first..(last + 1)].Select(point => new PlanPoint(_x[point], _y[point]))];
    }

    [MemberNotNull(nameof(_pairs))]
    private void Lay(PlanPoint[][] lines, double step)
    {
        _model = new(_map, _bodies, _poses);
        for (int edge = 0; edge < lines.Length; edge++)
        {
            double path = Polyline.Length([.. lines[edge]]);
            int steps = Math.Max(1, (int)Math.Round(path / step));
            _model.LayEdge(edge, [.. lines[edge]], steps, _lengths[edge]);
        }

        _step = step;
        (_x, _y) = _model.Positions();
        _pairs = _model.NewPairs(_between, StripForces.Range);
    }
}
