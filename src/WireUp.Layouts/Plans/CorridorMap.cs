using System.Collections.Immutable;

namespace WireUp.Layouts.Plans;

/// <summary>A straight length of corridor between two points of the map.</summary>
/// <param name="From">One point.</param>
/// <param name="To">The other.</param>
/// <param name="Metres">Its length.</param>
/// <param name="Corridor">Name of the corridor; empty where the end of one corridor touches another.</param>
public readonly record struct CorridorPiece(int From, int To, double Metres, string Corridor);

/// <summary>
/// The corridors of the benchwork as a graph: points are their corners, the places where they meet, and the feet of some marks, each
/// the nearest place of a corridor that a hand reaches. Two corridors meet where they cross, or where a corner of one comes within a
/// centimetre of the other; out of reach they pass each other and do not meet, since no wires could be joined there.
/// </summary>
public sealed class CorridorMap
{
    /// <summary>How near a corner of one corridor comes to another that it touches, in metres.</summary>
    public const double TouchMetres = 0.01;

    internal CorridorMap(ImmutableArray<PlanPoint> points, ImmutableArray<CorridorPiece> pieces, ImmutableArray<int?> feet)
    {
        (Points, Pieces, Feet) = (points, pieces, feet);
        ILookup<int, int> at = Enumerable.Range(0, pieces.Length)
            .SelectMany(piece => new[] { (pieces[piece].From, piece), (pieces[piece].To, piece) })
            .ToLookup(pair => pair.Item1, pair => pair.piece);
        PiecesAt = [.. Enumerable.Range(0, points.Length).Select(point => at[point].ToImmutableArray())];
    }

    /// <summary>The map of some benchwork.</summary>
    /// <param name="benchwork">The benchwork.</param>
    /// <param name="marks">Points of the plan whose feet are wanted.</param>
    public static CorridorMap Of(Benchwork benchwork, ImmutableArray<PlanPoint> marks) => new CorridorMapBuilder(benchwork).Build(marks);

    /// <summary>Where each point lies.</summary>
    public ImmutableArray<PlanPoint> Points { get; }

    /// <summary>What lies between points.</summary>
    public ImmutableArray<CorridorPiece> Pieces { get; }

    /// <summary>For each mark the point of the map at its foot; null where no hand reaches any corridor.</summary>
    public ImmutableArray<int?> Feet { get; }

    /// <summary>For each point the pieces that end there.</summary>
    public ImmutableArray<ImmutableArray<int>> PiecesAt { get; }

    /// <summary>Names of the corridors that do not hang together with the first one.</summary>
    public ImmutableArray<string> Apart()
    {
        if (Pieces.IsEmpty)
        {
            return [];
        }

        double[] metres = From(Pieces[0].From).Metres;
        return [.. Pieces.Where(piece => piece.Corridor.Length > 0 && double.IsInfinity(metres[piece.From])).Select(piece => piece.Corridor).Distinct()];
    }

    /// <summary>
    /// Shortest ways from a point to all others: metres, and the piece by which each is reached (−1 at the start).
    /// Source: E. W. Dijkstra, A note on two problems in connexion with graphs, 1959.
    /// </summary>
    public (double[] Metres, int[] By) From(int start)
    {
        double[] metres = [.. Points.Select(_ => double.PositiveInfinity)];
        int[] by = [.. Points.Select(_ => -1)];
        metres[start] = 0;
        PriorityQueue<int, (double, int)> open = new([(start, (0, start))]);
        while (open.TryDequeue(out int point, out (double Metres, int) priority))
        {
            if (priority.Metres > metres[point])
            {
                continue;
            }

            foreach (int piece in PiecesAt[point])
            {
                int other = Opposite(piece, point);
                if (metres[point] + Pieces[piece].Metres < metres[other])
                {
                    (metres[other], by[other]) = (metres[point] + Pieces[piece].Metres, piece);
                    open.Enqueue(other, (metres[other], other));
                }
            }
        }

        return (metres, by);
    }

    /// <summary>The line of the shortest way from one point to another; empty where there is none.</summary>
    public ImmutableArray<PlanPoint> Way(int from, int to)
    {
        (double[] metres, int[] by) = From(to);
        if (double.IsInfinity(metres[from]))
        {
            return [];
        }

        ImmutableArray<PlanPoint>.Builder line = ImmutableArray.CreateBuilder<PlanPoint>();
        line.Add(Points[from]);
        for (int at = from; at != to;)
        {
            at = Opposite(by[at], at);
            if (Points[at] != line[^1])
            {
                line.Add(Points[at]);
            }
        }

        return line.ToImmutable();
    }

    private int Opposite(int piece, int point) => Pieces[piece].From == point ? Pieces[piece].To : Pieces[piece].From;
}
