using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Drawings;

/// <summary>Where one run of bus is drawn.</summary>
/// <param name="District">Its district.</param>
/// <param name="Line">The line of bus it is part of, <c>east:3</c>.</param>
/// <param name="Run">The run.</param>
/// <param name="Points">Its line on the plan, from <see cref="BusRun.From"/> to <see cref="BusRun.To"/>.</param>
/// <param name="AlongTrack">Whether it keeps to the track; else it goes straight across.</param>
internal sealed record BusRoute(string District, string Line, BusRun Run, ImmutableArray<PlanPoint> Points, bool AlongTrack);

/// <summary>
/// Finds a line for every run of bus. The layout file says what a run joins and how long it is, not where it lies: it is drawn
/// along the corridors of the benchwork where there are such, else along the track, where that way between its taps is about as long
/// as the run; else straight across.
/// </summary>
internal static class BusRoutes
{
    /// <summary>A run this much shorter than the way along the track does not follow the track.</summary>
    private const double LongestDetour = 1.6;

    /// <summary>One route for each run whose two points can be placed.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="geometry">Where its track lies.</param>
    /// <param name="before">The layout as built, or null.</param>
    public static ImmutableArray<BusRoute> Of(Layout layout, PlanGeometry geometry, Layout? before = null)
    {
        TrackWays ways = new(layout, geometry);
        BusLines lines = new(before);
        return [.. layout.Wiring.Buses.SelectMany(bus => Of(bus, lines.Of(bus), new BusPoints(bus, layout, geometry), ways))];
    }

    /// <summary>Whether bus is drawn along the corridors of the benchwork.</summary>
    public static bool FollowCorridors(Layout layout, PlanGeometry geometry) => !layout.Benchwork.Corridors.IsEmpty && !geometry.Automatic;

    private static IEnumerable<BusRoute> Of(Bus bus, ImmutableArray<BusLine> lines, BusPoints points, TrackWays ways)
    {
        foreach ((string line, BusRun run) in lines.SelectMany(line => line.Runs, (line, run) => (line.Name, run)))
        {
            if (points.At(run.From) is not { } from || points.At(run.To) is not { } to) continue;
            ImmutableArray<PlanPoint> corridor = points.Corridors?.Way(run) ?? [];
            if (corridor.Length > 1 && Polyline.Length(corridor) <= LongestWay(run))
            {
                yield return new(bus.District, line, run, corridor, false);
                continue;
            }

            ImmutableArray<PlanPoint> along = points.PlaceOf(run.From) is { } start && points.PlaceOf(run.To) is { } end
                ? ways.Between(start, end, LongestWay(run))
                : [];
            bool follows = along.Length > 1;
            yield return new(bus.District, line, run, follows ? along : [from, to], follows);
        }
    }

    private static double LongestWay(BusRun run) => (LongestDetour * run.Length.Meters) + 0.3;
}

/// <summary>Where the points of one bus lie.</summary>
internal sealed class BusPoints
{
    private readonly Dictionary<string, PlanPoint> _points = [];
    private readonly Dictionary<string, TrackPlace> _places = [];
    private readonly PlanGeometry _geometry;
    private readonly HashSet<PieceId> _sections;

    /// <summary>Taps lie at their first feeder, boosters where the person put them; other points near the middle of their neighbours, off turnouts and crossings.</summary>
    public BusPoints(Bus bus, Layout layout, PlanGeometry geometry)
    {
        (_geometry, _sections) = (geometry, [.. layout.Track.Where(piece => piece is Piece.Section).Select(piece => piece.Id)]);
        foreach (Feeder feeder in layout.Wiring.Feeders.Where(feeder => feeder.District == bus.District))
        {
            if (_places.TryAdd(feeder.Tap, feeder.At)) _points[feeder.Tap] = geometry.PointAt(feeder.At).At;
        }

        Corridors = BusRoutes.FollowCorridors(layout, geometry) ? new(bus, layout, geometry) : null;
        foreach (Booster booster in layout.Wiring.Boosters) Put(booster, layout, geometry);
        for (int round = 0; round < bus.Runs.Length && PlaceOneBetween(bus); round++)
        {
        }
    }

    /// <summary>The corridors that the bus may follow, or null where there are none.</summary>
    public CorridorRoutes? Corridors { get; }

    /// <summary>The point on the plan, or null.</summary>
    public PlanPoint? At(string point) => Corridors?.At(point) ?? AtTrack(point);

    private PlanPoint? AtTrack(string point) => _points.TryGetValue(point, out PlanPoint at) ? at : null;

    /// <summary>The place of the track beside which the point lies, or null.</summary>
    public TrackPlace? PlaceOf(string point) => _places.TryGetValue(point, out TrackPlace place) ? place : null;

    /// <summary>
    /// Where a booster stands: by its coordinates on a plan with paths, else beside its place of the track, else at the first
    /// feeder of its first bus.
    /// </summary>
    public static PlanPoint? Where(Booster booster, Layout layout, PlanGeometry geometry) =>
        booster.At is { } at && !geometry.Automatic ? at
        : PlaceOf(booster, layout) is { } place ? geometry.PointAt(place).At
        : null;

    private static TrackPlace? PlaceOf(Booster booster, Layout layout)
    {
        if (booster.Beside is { } place) return place;
        var firstTaps = from bus in layout.Wiring.Buses
                        from run in bus.Runs
                        where run.From == booster.Name
                        from feeder in layout.Wiring.Feeders
                        where feeder.District == bus.District && feeder.Tap == run.To
                        select (TrackPlace?)feeder.At;
        return firstTaps.FirstOrDefault();
    }

    private void Put(Booster booster, Layout layout, PlanGeometry geometry)
    {
        if (Where(booster, layout, geometry) is not { } at) return;
        _points[booster.Name] = at;
        bool standsElsewhere = booster.At is not null && !geometry.Automatic;
        if (!standsElsewhere && PlaceOf(booster, layout) is { } place) _places[booster.Name] = place;
    }

    private bool PlaceOneBetween(Bus bus)
    {
        foreach (string point in bus.Runs.SelectMany(run => new[] { run.From, run.To }).Where(point => !_points.ContainsKey(point)))
        {
            PlanPoint[] known = [.. bus.Runs.Select(run => run.From == point ? run.To : run.To == point ? run.From : null)
                .OfType<string>().Where(_points.ContainsKey).Select(other => _points[other])];
            if (known.Length == 0) continue;
            _points[point] = OffTrack(new(known.Average(at => at.X), known.Average(at => at.Y)));
            return true;
        }

        return false;
    }

    /// <summary>The point itself where it lies on no trackwork; else the nearest of some places around it that lies clear of all track, if there is one.</summary>
    private PlanPoint OffTrack(PlanPoint point)
    {
        const double Clear = 0.45, Step = 0.3;
        const int Rounds = 4, Directions = 8;
        double spacing = _geometry.SpacingMetres;
        PlanPoint[] near = [.. from round in Enumerable.Range(1, Rounds)
                               from direction in Enumerable.Range(0, Directions)
                               let turn = Math.SinCos(2 * Math.PI * direction / Directions)
                               select new PlanPoint(point.X + (round * Step * spacing * turn.Cos), point.Y + (round * Step * spacing * turn.Sin))];
        bool isOnTrackwork = !IsClear(Around(point), _geometry.Lines.Where(line => !_sections.Contains(line.Piece)));
        return near.Where(at => isOnTrackwork && IsClear(Around(at), _geometry.Lines)).Append(point).First();

        SceneBox Around(PlanPoint at) => new(at.X - (Clear * spacing), at.Y - (Clear * spacing), at.X + (Clear * spacing), at.Y + (Clear * spacing));

        static bool IsClear(SceneBox around, IEnumerable<PieceLine> lines) =>
            !lines.Any(line => Clip.Line([.. line.Points.Select(at => new ScenePoint(at.X, at.Y))], around).Any());
    }
}
