using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>
/// The plan as points: which are carried by a rigid body and which move freely, the straight pieces between them, and the
/// chain of points along every edge.
/// </summary>
internal sealed class StripModel
{
    // How far inside the end of an arm lies the point that gives the arm its direction.
    private const double InnerPoint = 0.5;

    private readonly PlanarMap _map;
    private readonly List<double> _x = [], _y = [], _qx = [], _qy = [];
    private readonly List<int> _bodyOf = [], _barOf = [];
    private readonly List<NetPlace> _places = [];
    private readonly List<(int From, int To, NetPlace Place)> _segments = [];
    private readonly int[] _ends, _inners;
    private readonly (bool First, bool Last)[] _looseEnds;

    /// <summary>Lays the points of bodies.</summary>
    /// <param name="map">The map.</param>
    /// <param name="bodies">The shape of every node.</param>
    /// <param name="poses">Where the nodes lie.</param>
    public StripModel(PlanarMap map, ImmutableArray<TrackBody> bodies, NodePose[] poses)
    {
        (_map, Bodies) = (map, bodies);
        (_ends, _inners) = (new int[2 * map.Edges.Length], new int[2 * map.Edges.Length]);
        (Chains, Rests, _looseEnds) = (new int[map.Edges.Length][], new double[map.Edges.Length], new (bool, bool)[map.Edges.Length]);
        for (int node = 0; node < bodies.Length; node++)
        {
            if (bodies[node].Bars == 0) AddPoint(node, poses[node]);
            else AddBody(node, poses[node]);
        }
    }

    /// <summary>The shape of every node.</summary>
    public ImmutableArray<TrackBody> Bodies { get; }

    /// <summary>For every edge its points: inside an arm, end of the arm, free points, end of an arm, inside the arm.</summary>
    public int[][] Chains { get; }

    /// <summary>For every edge the wanted distance between its points.</summary>
    public double[] Rests { get; }

    /// <summary>How many points.</summary>
    public int Count => _x.Count;

    /// <summary>The body that carries a point, or −1.</summary>
    public int BodyOf(int point) => _bodyOf[point];

    /// <summary>The bar of the body.</summary>
    public int BarOf(int point) => _barOf[point];

    /// <summary>A point in the frame of its bar.</summary>
    public (double X, double Y) InBar(int point) => (_qx[point], _qy[point]);

    /// <summary>The point that stands for a node without a body.</summary>
    public int PointOf(int node) => _ends[_map.Nodes[node].Halves[0]];

    /// <summary>Start positions.</summary>
    public (double[] X, double[] Y) Positions() => ([.. _x], [.. _y]);

    /// <summary>A finder of what lies near what.</summary>
    public NearPairsWorkspace NewPairs(double[,] between, double range) => new([.. _places], [.. _segments], between, range);

    /// <summary>Index range of an edge's drawn points in its chain.</summary>
    public (int First, int Last) DrawnPart(int edge) =>
        (_looseEnds[edge].First ? 0 : 1, Chains[edge].Length - (_looseEnds[edge].Last ? 1 : 2));

    /// <summary>Lays the points of an edge evenly along a line.</summary>
    public void LayEdge(int edge, ImmutableArray<PlanPoint> line, int steps, double length)
    {
        (int from, int to) = (_map.Edges[edge].From, _map.Edges[edge].To);
        double path = Polyline.Length(line), rest = length / steps;
        var drawn = new List<int> { _ends[2 * edge] };
        for (int step = 1; step <= steps; step++)
        {
            PlanPoint p = Polyline.At(line, path * step / steps).At;
            int next = step == steps ? _ends[(2 * edge) + 1] : Add(p, (-1, 0), default, Place(step));
            _segments.Add((drawn[^1], next, Place(step - 0.5)));
            drawn.Add(next);
        }

        // A closed line without turnouts goes on where it began.
        bool closed = _map.Nodes[from].Kind == NodeKind.Bend;
        int? before = Bodies[from].Bars > 0 ? _inners[2 * edge] : closed ? drawn[^2] : null;
        int? after = Bodies[to].Bars > 0 ? _inners[(2 * edge) + 1] : closed ? drawn[1] : null;
        _looseEnds[edge] = (before is null, after is null);
        Chains[edge] = [.. before is { } b ? (int[])[b] : [], .. drawn, .. after is { } a ? (int[])[a] : []];
        Rests[edge] = rest;

        NetPlace Place(double along) =>
            new(edge, from, Bodies[from].HalfLength + (along * rest), to, Bodies[to].HalfLength + ((steps - along) * rest), along);
    }

    private void AddPoint(int node, NodePose pose)
    {
        int point = Add(pose.Centre, (-1, 0), default, new(-1, node, 0, node, 0, 0));
        foreach (int half in _map.Nodes[node].Halves) _ends[half] = point;
    }

    private void AddBody(int node, NodePose pose)
    {
        TrackBody body = Bodies[node];
        int[] middles = [.. Enumerable.Range(0, body.Bars).Select(bar => AddCarried((node, bar), (body.Meeting, 0), pose))];
        for (int arm = 0; arm < body.Arms.Length; arm++)
        {
            (int bar, double x, double y, double heading) = body.Arms[arm];
            int half = _map.Nodes[node].Halves[arm];
            _ends[half] = AddCarried((node, bar), (x, y), pose);
            _inners[half] = AddCarried((node, bar), (x - (InnerPoint * Math.Cos(heading)), y - (InnerPoint * Math.Sin(heading))), pose);
            _segments.Add((middles[bar], _ends[half], new(-1, node, body.HalfLength / 2, node, body.HalfLength / 2, 0)));
        }

        AddOutline(node, pose);
    }

    private void AddOutline(int node, NodePose pose)
    {
        NetPlace place = new(NetPlace.OnOutline, node, 0, node, 0, 0);
        int[] corners = [.. Bodies[node].Outline.Select(corner => Add(pose.Point(0, corner.X, corner.Y), (node, 0), corner, place))];
        for (int i = 0; i < corners.Length; i++) _segments.Add((corners[i], corners[(i + 1) % corners.Length], place));
    }

    private int AddCarried((int Node, int Bar) carrier, (double X, double Y) q, NodePose pose)
    {
        double radius = Math.Sqrt((q.X * q.X) + (q.Y * q.Y));
        return Add(pose.Point(carrier.Bar, q.X, q.Y), carrier, q, new(-1, carrier.Node, radius, carrier.Node, radius, 0));
    }

    private int Add(PlanPoint at, (int Body, int Bar) carrier, (double X, double Y) q, NetPlace place)
    {
        _x.Add(at.X);
        _y.Add(at.Y);
        _bodyOf.Add(carrier.Body);
        _barOf.Add(carrier.Bar);
        _qx.Add(q.X);
        _qy.Add(q.Y);
        _places.Add(place);
        return _x.Count - 1;
    }
}
