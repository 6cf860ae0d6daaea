using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Buses;

/// <summary>Two points of the corridor and the way between them in metres.</summary>
internal readonly record struct CorridorEdge(int From, int To, double Metres);

/// <summary>
/// Where bus wire can run: along all track, whatever its gaps and districts, since the benchwork is under all of it.
/// Points are piece ends, the middles of turnouts and other trackwork, and the places asked for.
/// </summary>
internal sealed class Corridor
{
    // A number six turnout is about three times six gauges long from points to heel; a crossing or slip about nine gauges; scissors two turnouts.
    private const double TurnoutGauges = 3, UsualNumber = 6, CrossingGauges = 9;

    private readonly FrozenDictionary<TrackPlace, int> _places;

    private Corridor(int pointCount, IEnumerable<CorridorEdge> edges, IReadOnlyDictionary<TrackPlace, int> places)
    {
        PointCount = pointCount;
        Edges = [.. edges];
        _places = places.ToFrozenDictionary();
        List<int>[] edgesAt = [.. Enumerable.Range(0, PointCount).Select(_ => new List<int>())];
        for (int i = 0; i < Edges.Length; i++)
        {
            edgesAt[Edges[i].From].Add(i);
            edgesAt[Edges[i].To].Add(i);
        }

        EdgesAt = [.. edgesAt.Select(list => list.ToImmutableArray())];
    }

    public int PointCount { get; }

    public ImmutableArray<CorridorEdge> Edges { get; }

    /// <summary>For each point the edges that end there.</summary>
    public ImmutableArray<ImmutableArray<int>> EdgesAt { get; }

    /// <summary>The point at a place that was asked for.</summary>
    public int PointAt(TrackPlace place) => _places[place];

    /// <summary>The point at the other side of an edge.</summary>
    public int Opposite(int edge, int point) => Edges[edge].From == point ? Edges[edge].To : Edges[edge].From;

    /// <summary>A corridor given as a graph.</summary>
    public static Corridor Of(int pointCount, IEnumerable<CorridorEdge> edges) => new(pointCount, edges, new Dictionary<TrackPlace, int>());

    /// <summary>The corridor along a layout's track.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="places">Places of sections that must be points.</param>
    public static Corridor Along(Layout layout, IEnumerable<TrackPlace> places)
    {
        CorridorBuilder builder = new();
        ILookup<PieceId, TrackPlace> marks = places.Distinct().Order().ToLookup(place => place.Section);
        double gauge = ScaleTable.FindOrUsual(layout.Scale).Gauge.Meters;
        foreach (Piece piece in layout.Track)
        {
            if (piece is Piece.Section section)
            {
                builder.AddSection(section, marks[piece.Id]);
            }
            else
            {
                builder.AddStar(piece, LengthOf(piece, gauge) / 2, marks[piece.Id]);
            }
        }

        foreach (Joint joint in layout.Joints)
        {
            builder.Add(builder.End(joint.First), builder.End(joint.Second), 0);
        }

        return new(builder.PointCount, builder.Edges, builder.Places);
    }

    /// <summary>The same corridor with some points made one, and its edges by their numbers here; edges that then lead nowhere are left out.</summary>
    /// <param name="pointOf">For each point the one that stands for it.</param>
    public (Corridor Merged, ImmutableArray<int> Kept) Merging(Func<int, int> pointOf)
    {
        ImmutableArray<int> kept = [.. Enumerable.Range(0, Edges.Length).Where(edge => pointOf(Edges[edge].From) != pointOf(Edges[edge].To))];
        return (Of(PointCount, kept.Select(edge => new CorridorEdge(pointOf(Edges[edge].From), pointOf(Edges[edge].To), Edges[edge].Metres))), kept);
    }

    /// <summary>
    /// The same corridor with only the points that matter to some: themselves and branchings between them, numbered anew. Each
    /// edge of it is a chain of edges of this one.
    /// </summary>
    public (Corridor Short, ImmutableArray<int> Points, ImmutableArray<ImmutableArray<int>> Chains) Between(IReadOnlySet<int> kept)
    {
        bool[] gone = new bool[Edges.Length];
        Stack<int> loose = new(Enumerable.Range(0, PointCount));
        while (loose.TryPop(out int point))
        {
            int[] left = [.. EdgesAt[point].Where(edge => !gone[edge])];
            if (left.Length == 1 && !kept.Contains(point))
            {
                gone[left[0]] = true;
                loose.Push(Opposite(left[0], point));
            }
        }

        ImmutableArray<int> nodes = [.. Enumerable.Range(0, PointCount).Where(point => kept.Contains(point) || EdgesAt[point].Count(edge => !gone[edge]) > 2)];
        Dictionary<int, int> number = nodes.Select((point, i) => (point, i)).ToDictionary(pair => pair.point, pair => pair.i);
        List<CorridorEdge> edges = [];
        List<ImmutableArray<int>> chains = [];
        bool[] passed = new bool[Edges.Length];
        foreach (int start in nodes)
        {
            foreach (int first in EdgesAt[start].Where(edge => !gone[edge] && !passed[edge]))
            {
                List<int> chain = [];
                int at = start;
                for (int edge = first; edge >= 0; edge = number.ContainsKey(at) ? -1 : EdgesAt[at].First(next => next != edge && !gone[next]))
                {
                    passed[edge] = true;
                    chain.Add(edge);
                    at = Opposite(edge, at);
                }

                edges.Add(new(number[start], number[at], chain.Sum(edge => Edges[edge].Metres)));
                chains.Add([.. chain]);
            }
        }

        return (Of(nodes.Length, edges), nodes, [.. chains]);
    }

    /// <summary>Shortest ways from some points to all others: metres, and the edge by which each point is reached (−1 at a start).</summary>
    /// <param name="starts">Where to start.</param>
    /// <param name="within">Points farther away than this may be given as infinitely far.</param>
    public (double[] Metres, int[] By) From(IEnumerable<int> starts, double within = double.PositiveInfinity)
    {
        double[] metres = new double[PointCount];
        int[] by = new int[PointCount];
        Array.Fill(metres, double.PositiveInfinity);
        Array.Fill(by, -1);
        PriorityQueue<int, (double Metres, int Point)> open = new();
        foreach (int start in starts)
        {
            metres[start] = 0;
            open.Enqueue(start, (0, start));
        }

        Spread(open, metres, by, within);
        return (metres, by);
    }

    /// <summary>Shortest ways on from points that are reached already.</summary>
    /// <param name="open">These points, by how far they are.</param>
    /// <param name="metres">How far each point is; infinite where none is reached yet.</param>
    /// <param name="by">The edge by which each point is reached.</param>
    /// <param name="within">Points farther away than this need not be followed.</param>
    public void Spread(PriorityQueue<int, (double Metres, int Point)> open, double[] metres, int[] by, double within = double.PositiveInfinity)
    {
        while (open.TryDequeue(out int point, out (double Metres, int Point) priority) && priority.Metres <= within)
        {
            if (priority.Metres <= metres[point])
            {
                Follow(point, open, metres, by);
            }
        }
    }

    /// <summary>One step of it: to the neighbours of a point that are nearer by way of it.</summary>
    public void Follow(int point, PriorityQueue<int, (double Metres, int Point)> open, double[] metres, int[] by)
    {
        foreach (int edge in EdgesAt[point])
        {
            int other = Opposite(edge, point);
            double through = metres[point] + Edges[edge].Metres;
            if (through < metres[other])
            {
                (metres[other], by[other]) = (through, edge);
                open.Enqueue(other, (through, other));
            }
        }
    }

    private static double LengthOf(Piece piece, double gauge) => piece switch
    {
        { WayMetres: > 0 } => piece.WayMetres,
        Piece.Turnout turnout => TurnoutGauges * (turnout.Number ?? UsualNumber) * gauge,
        Piece.MultiTurnout => TurnoutGauges * UsualNumber * gauge,
        Piece.Crossing or Piece.Slip => CrossingGauges * gauge,
        Piece.Scissors => 2 * TurnoutGauges * UsualNumber * gauge,
        _ => 0,
    };

    private sealed class CorridorBuilder
    {
        private readonly Dictionary<TrackEnd, int> _ends = [];

        public int PointCount { get; private set; }

        public List<CorridorEdge> Edges { get; } = [];

        public Dictionary<TrackPlace, int> Places { get; } = [];

        public int End(TrackEnd end) => _ends.TryGetValue(end, out int point) ? point : _ends[end] = PointCount++;

        public void Add(int from, int to, double metres) => Edges.Add(new(from, to, metres));

        public void AddSection(Piece.Section section, IEnumerable<TrackPlace> marks)
        {
            int before = End(section.End("a"));
            double at = 0;
            foreach (TrackPlace mark in marks)
            {
                int point = Places[mark] = PointCount++;
                Add(before, point, mark.MetresFromA - at);
                (before, at) = (point, mark.MetresFromA);
            }

            Add(before, End(section.End("b")), section.Length.Meters - at);
        }

        /// <summary>Trackwork: wire to a place on a moving bridge goes to the middle of its pit, where the pivot and its rings are.</summary>
        public void AddStar(Piece piece, double arm, IEnumerable<TrackPlace> marks)
        {
            int middle = PointCount++;
            foreach (TrackPlace mark in marks)
            {
                Places[mark] = middle;
            }

            foreach (TrackEnd end in piece.Ends)
            {
                Add(middle, End(end), arm);
            }
        }
    }
}
