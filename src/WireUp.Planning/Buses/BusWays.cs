using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Buses;

/// <summary>
/// Where the bus of one district can run: along the corridors of the benchwork where there are such, else along the track. A feeder near
/// a corridor is led to the nearest place of it within reach, where its tap lies; bus branches off to one that is farther away.
/// </summary>
/// <param name="Graph">The ways.</param>
/// <param name="Booster">The point of the booster.</param>
/// <param name="Places">For each place of a feeder its own point, the point of its tap, and how far that is from it.</param>
/// <param name="CorridorOf">For each edge the name of its corridor, or empty.</param>
internal sealed record BusWays(
    Corridor Graph, int Booster, ImmutableDictionary<TrackPlace, (int Point, int Tap, double LeadMetres)> Places, ImmutableArray<string> CorridorOf)
{
    // A place this near to a corridor lies on it.
    private const double SameMetres = 1e-6;

    /// <summary>The ways for a task.</summary>
    public static BusWays For(Layout layout, BusTask task)
    {
        ImmutableArray<TrackPlace> places = [.. task.Feeders.Concat(task.Built.Select(built => built.At)).Distinct()];
        return layout.Benchwork.Corridors.IsEmpty ? AlongTrack(layout, task.BoosterPlace, places) : AlongCorridors(layout, task, places);
    }

    private static BusWays AlongTrack(Layout layout, TrackPlace booster, ImmutableArray<TrackPlace> places)
    {
        Corridor track = Corridor.Along(layout, places.Append(booster));
        return new(
            track,
            track.PointAt(booster),
            places.ToImmutableDictionary(place => place, place => (track.PointAt(place), track.PointAt(place), 0.0)),
            [.. track.Edges.Select(_ => "")]);
    }

    private static BusWays AlongCorridors(Layout layout, BusTask task, ImmutableArray<TrackPlace> places)
    {
        TrackPaths paths = new(layout);
        PlanPoint?[] marks =
        [
            layout.Wiring.Boosters.FirstOrDefault(booster => booster.Name == task.Booster)?.At ?? paths.PointAt(task.BoosterPlace),
            .. places.Select(paths.PointAt),
        ];
        CorridorMap map = CorridorMap.Of(layout.Benchwork, [.. marks.OfType<PlanPoint>()]);
        List<CorridorEdge> edges = [.. map.Pieces.Select(piece => new CorridorEdge(piece.From, piece.To, piece.Metres))];
        ImmutableArray<string> corridorOf = [.. map.Pieces.Select(piece => piece.Corridor)];
        int points = map.Points.Length, mark = 0;
        (int Point, int Foot, double Metres)[] led = [.. marks.Select(Lead)];
        double most = Constants.FeederToCorridorMost.Value + SameMetres;
        return new(
            Corridor.Of(points, edges),
            led[0].Point,
            places.Zip(led.Skip(1)).ToImmutableDictionary(pair => pair.First, pair => pair.Second.Metres <= most
                ? (pair.Second.Point, pair.Second.Foot, pair.Second.Metres)
                : (pair.Second.Point, pair.Second.Point, 0)),
            [.. corridorOf, .. Enumerable.Repeat("", edges.Count - corridorOf.Length)]);

        // The point itself, joined to its foot unless it lies on the corridor; alone where it has no place on the plan or there is no foot.
        (int, int, double) Lead(PlanPoint? at)
        {
            if (at is not { } point || map.Feet[mark++] is not { } foot)
            {
                return (points, points++, 0);
            }

            double metres = Polyline.Distance(point, map.Points[foot]);
            if (metres <= SameMetres)
            {
                return (foot, foot, 0);
            }

            edges.Add(new(points, foot, metres));
            return (points++, foot, metres);
        }
    }
}
