using System.Runtime.InteropServices;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>A point and a straight piece of line near it, and how much room they shall keep between them.</summary>
internal readonly record struct NearPair(int Point, int From, int To, double Room);

/// <summary>Finds the points and lines that are near each other, anew whenever something has moved far enough.</summary>
internal sealed class NearPairsWorkspace
{
    private const double Skin = 0.6;

    // Two tracks part slowly: this much room for each unit of the way along track from one to the other, up to one unit.
    private const double RoomPerDistance = 0.12;
    private const double NeighboursAlong = 1.2, NeighbourSteps = 5;

    private readonly NetPlace[] _pointPlaces;
    private readonly (int From, int To)[] _segments;
    private readonly NetPlace[] _segmentPlaces;
    private readonly double[,] _between;
    private readonly double _reach;
    private readonly double[] _lastX, _lastY;
    private readonly List<NearPair> _pairs = [];
    private bool _never = true;

    /// <summary>A finder that has not looked yet.</summary>
    /// <param name="points">Where each point is along the track.</param>
    /// <param name="segments">The straight pieces and where each is along the track.</param>
    /// <param name="between">Distances along track between nodes.</param>
    /// <param name="range">How near is near.</param>
    public NearPairsWorkspace(NetPlace[] points, (int From, int To, NetPlace Place)[] segments, double[,] between, double range)
    {
        (_pointPlaces, _between, _reach) = (points, between, range + Skin);
        (_segments, _segmentPlaces) = ([.. segments.Select(segment => (segment.From, segment.To))], [.. segments.Select(segment => segment.Place)]);
        (_lastX, _lastY) = (new double[points.Length], new double[points.Length]);
    }

    /// <summary>The pairs.</summary>
    public ReadOnlySpan<NearPair> Pairs => CollectionsMarshal.AsSpan(_pairs);

    /// <summary>Distance of a pair's point from its piece of line.</summary>
    public static double Distance(double[] x, double[] y, in NearPair pair) => Math.Sqrt(SquaredDistance(x, y, pair.Point, (pair.From, pair.To)));

    /// <summary>Looks around again if a point has moved more than half the margin.</summary>
    public void Update(double[] x, double[] y)
    {
        bool moved = _never;
        for (int i = 0; i < x.Length && !moved; i++)
        {
            (double dx, double dy) = (x[i] - _lastX[i], y[i] - _lastY[i]);
            moved = (dx * dx) + (dy * dy) > Skin * Skin / 4;
        }

        if (!moved) return;
        _never = false;
        Array.Copy(x, _lastX, x.Length);
        Array.Copy(y, _lastY, y.Length);
        Find(x, y);
    }

    private void Find(double[] x, double[] y)
    {
        _pairs.Clear();
        var cells = new Dictionary<(int, int), List<int>>();
        for (int i = 0; i < x.Length; i++)
        {
            ref List<int>? list = ref CollectionsMarshal.GetValueRefOrAddDefault(cells, (Cell(x[i]), Cell(y[i])), out _);
            (list ??= []).Add(i);
        }

        for (int segment = 0; segment < _segments.Length; segment++)
        {
            (int a, int b) = _segments[segment];
            (int x0, int x1) = (Cell(Math.Min(x[a], x[b]) - _reach), Cell(Math.Max(x[a], x[b]) + _reach));
            (int y0, int y1) = (Cell(Math.Min(y[a], y[b]) - _reach), Cell(Math.Max(y[a], y[b]) + _reach));
            for (int cx = x0; cx <= x1; cx++)
            {
                for (int cy = y0; cy <= y1; cy++)
                {
                    if (!cells.TryGetValue((cx, cy), out List<int>? points)) continue;
                    foreach (int point in points) AddIfNear(x, y, point, segment);
                }
            }
        }
    }

    private int Cell(double value) => (int)Math.Floor(value / _reach);

    private void AddIfNear(double[] x, double[] y, int point, int segment)
    {
        (int a, int b) = _segments[segment];
        if (point == a || point == b || SquaredDistance(x, y, point, (a, b)) > _reach * _reach) return;
        (NetPlace one, NetPlace other) = (_pointPlaces[point], _segmentPlaces[segment]);
        if (AreNeighbours(one, other)) return;
        double along = NetDistances.Between(_between, one, other);
        if (along >= NeighboursAlong) _pairs.Add(new(point, a, b, Math.Min(1, RoomPerDistance * along)));
    }

    // What hangs so closely together that bending alone keeps it in order; an outline and the tracks that begin at it.
    private static bool AreNeighbours(in NetPlace point, in NetPlace segment) => OutlineOf(point, segment) || OutlineOf(segment, point) || (point.Edge < 0
        ? segment.Edge < 0 && point.NodeA == segment.NodeA
        : point.Edge == segment.Edge && Math.Abs(point.Step - segment.Step) < NeighbourSteps);

    private static bool OutlineOf(in NetPlace outline, in NetPlace track) =>
        outline.Edge == NetPlace.OnOutline && (outline.NodeA == track.NodeA || outline.NodeA == track.NodeB);

    private static double SquaredDistance(double[] x, double[] y, int p, (int A, int B) line)
    {
        (int a, int b) = line;
        (double dx, double dy) = (x[b] - x[a], y[b] - y[a]);
        double t = Math.Clamp((((x[p] - x[a]) * dx) + ((y[p] - y[a]) * dy)) / ((dx * dx) + (dy * dy) + 1e-12), 0, 1);
        (double ex, double ey) = (x[p] - x[a] - (t * dx), y[p] - y[a] - (t * dy));
        return (ex * ex) + (ey * ey);
    }
}
