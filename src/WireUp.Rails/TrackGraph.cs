using System.Collections.Frozen;
using System.Collections.Immutable;
using QuikGraph;
using QuikGraph.Algorithms;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// The track as trains drive it: which end a train can come out of when it went in at another, and how far that is.
/// Gaps do not matter here, wheels roll over them. A train passes a turnout only between its points and one of its legs.
/// </summary>
public sealed class TrackGraph
{
    private readonly LayoutIndex _index;
    private readonly FrozenDictionary<PieceId, Trackwork> _trackwork;
    private readonly FrozenDictionary<PieceId, int> _order;
    private readonly UndirectedGraph<TrackEnd, TrackLine> _lines = new(allowParallelEdges: true);

    private TrackGraph(LayoutIndex index)
    {
        _index = index;
        Layout layout = index.Layout;
        _trackwork = layout.Track.ToFrozenDictionary(piece => piece.Id, piece => TrackworkTable.Of(piece, layout.Control));
        _order = layout.Track.Select((piece, i) => (piece.Id, i)).ToFrozenDictionary(pair => pair.Id, pair => pair.i);
        _lines.AddVertexRange(layout.Track.SelectMany(piece => piece.Ends));
        Lines = [.. PieceLines(), .. JointLines()];
        _lines.AddEdgeRange(Lines);
    }

    /// <summary>Every way through a piece and every joint: a piece's ways in the order of the layout, then its joints.</summary>
    public ImmutableArray<TrackLine> Lines { get; }

    /// <summary>Builds the graph of a layout.</summary>
    public static TrackGraph Of(LayoutIndex index) => new(index);

    /// <summary>
    /// The pieces of each part of the railway that is joined up, in the order of the layout. A crossing belongs to the part
    /// of its first track even where its second track joins another.
    /// </summary>
    public ImmutableArray<ImmutableArray<PieceId>> Components()
    {
        Dictionary<TrackEnd, int> found = [];
        _lines.ConnectedComponents(found);
        return
        [
            .. _index.Layout.Track
                .GroupBy(piece => found[piece.Ends.First()], piece => piece.Id)
                .Select(group => group.ToImmutableArray()),
        ];
    }

    /// <summary>
    /// The lines of a spanning tree along the track with the least total length, one tree for each joined-up part: the
    /// shortest run that comes past every end.
    /// </summary>
    public ImmutableArray<TrackLine> SpanningTree() =>
        [.. _lines.MinimumSpanningTreeKruskal(line => line.LengthMetres)];

    /// <summary>
    /// The shortest drive of a train that enters a piece at <paramref name="enter"/> and leaves a piece at
    /// <paramref name="leave"/>; null where it cannot. Lengths are those of the pieces passed.
    /// </summary>
    /// <param name="enter">The end at which the train rolls into its first piece.</param>
    /// <param name="leave">The end at which it rolls out of its last piece; may be the same as <paramref name="enter"/>.</param>
    /// <param name="options">Where it may go and what a change of direction costs; null for a drive without any.</param>
    public DrivePath? ShortestDrive(TrackEnd enter, TrackEnd leave, DriveOptions? options = null)
    {
        DriveOptions chosen = options ?? new DriveOptions();
        AdjacencyGraph<TrainState, TrackArc> graph = DrivableGraph(chosen);
        TrainState start = new(enter, Outward: false), goal = new(leave, Outward: true);
        if (!graph.ContainsVertex(start) || !graph.ContainsVertex(goal))
        {
            return null;
        }

        TryFunc<TrainState, IEnumerable<TrackArc>> paths = graph.ShortestPathsDijkstra(arc => arc.LengthMetres, start);
        return paths(goal, out IEnumerable<TrackArc> path) ? DrivePath.Of([.. path]) : null;
    }

    private AdjacencyGraph<TrainState, TrackArc> DrivableGraph(DriveOptions options)
    {
        AdjacencyGraph<TrainState, TrackArc> graph = new(allowParallelEdges: true);
        foreach (Piece piece in Allowed(options))
        {
            double length = options.LengthOf?.Invoke(piece.Id) ?? piece.WayMetres;
            foreach (DrivableWay way in _trackwork[piece.Id].Ways)
            {
                AddWay(graph, piece.End(way.From), piece.End(way.To), length, way.Position);
                AddWay(graph, piece.End(way.To), piece.End(way.From), length, way.Position);
            }

            foreach (TrackEnd end in piece.Ends)
            {
                AddEnd(graph, end, options);
            }
        }

        return graph;
    }

    /// <summary>The pieces a train may touch, in the order of the layout; of few in a large layout, without looking at the others.</summary>
    private IEnumerable<Piece> Allowed(DriveOptions options) => options.Within is { } within
        ? within.Where(_order.ContainsKey).OrderBy(piece => _order[piece]).Select(_index.Piece)
        : _index.Layout.Track;

    private static void AddWay(
        AdjacencyGraph<TrainState, TrackArc> graph, TrackEnd from, TrackEnd to, double length, string? position) =>
        graph.AddVerticesAndEdge(new(new(from, Outward: false), new(to, Outward: true), length, position, IsReversal: false));

    /// <summary>Out of one end a train rolls into the end that meets it; having rolled in, it may stop and roll out again.</summary>
    private void AddEnd(AdjacencyGraph<TrainState, TrackArc> graph, TrackEnd end, DriveOptions options)
    {
        if (_index.Opposite(end) is { } opposite && options.Allows(opposite.Piece))
        {
            graph.AddVerticesAndEdge(new(new(end, Outward: true), new(opposite, Outward: false), 0, null, IsReversal: false));
        }

        if (options.ReversalMetres is { } metres)
        {
            graph.AddVerticesAndEdge(new(new(end, Outward: false), new(end, Outward: true), metres, null, IsReversal: true));
        }
    }

    private IEnumerable<TrackLine> PieceLines() =>
        from piece in _index.Layout.Track
        from way in _trackwork[piece.Id].Ways.Select(way => (way.From, way.To)).Distinct()
        select new TrackLine(piece.End(way.From), piece.End(way.To), piece.WayMetres);

    private IEnumerable<TrackLine> JointLines() =>
        _index.Layout.Joints.Select(joint => new TrackLine(joint.First, joint.Second, 0) { IsJoint = true });
}
