using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Documents.Geometry;

/// <summary>
/// The plan of a layout whose sections all have paths. The other pieces are bent in between the ends of the sections that join
/// them; an end where no section joins lies half-way to the ends that are known.
/// </summary>
internal static class PlanFromPaths
{
    // Enough for the far end of a chain of a dozen turnouts joined to each other to settle.
    private const int Sweeps = 200;
    private const double SpacingOfTrackLength = 0.02;

    /// <summary>The plan.</summary>
    public static PlanDrawing Draw(Layout layout)
    {
        var spots = new TrackSpots(layout);
        var paths = new TrackPaths(layout);
        PlanPose?[] known = KnownSpots(layout, spots);
        PlanPoint[] at = AllSpots(layout, spots, known);
        ImmutableArray<PieceLine>.Builder lines = ImmutableArray.CreateBuilder<PieceLine>();
        foreach (Piece piece in layout.Track)
        {
            lines.AddRange(Tables(piece, [.. piece.EndNames.Where(end => known[spots[piece.End(end)]] is not null)]));
            lines.AddRange(PlanDrawing.Ways(piece).Select(way => new PieceLine(piece.Id, way.From, way.To, piece is Piece.Section section
                ? TrackPaths.Of(section)
                : WayLines.Between(piece, End(piece, way.From), End(piece, way.To)))));
        }

        return new(lines.ToImmutable(), false, Spacing(layout), []);

        IEnumerable<PieceLine> Tables(Piece piece, ImmutableArray<string> used) => piece switch
        {
            Piece.Turntable table => Turntable(table, paths.MiddleOf(table), [.. used.Select(end => (end, End(piece, end)))], Mean(piece.Ends.Select(end => at[spots[end]]))),
            Piece.TransferTable table => TransferTable(table, [.. used.Select(end => (end, End(piece, end)))], Mean(piece.Ends.Select(end => at[spots[end]]))),
            _ => [],
        };

        PlanPose End(Piece piece, string name)
        {
            int spot = spots[piece.End(name)];
            return known[spot] ?? Outward(at[spot], Centre(piece, spots, at));
        }
    }

    private static IEnumerable<PieceLine> Turntable(Piece.Turntable table, PlanPoint? middle, (string Road, PlanPose Pose)[] roads, PlanPoint elsewhere)
    {
        double radius = table.Length.Meters / 2;
        PlanPoint centre = middle ?? elsewhere;
        PlanPoint bridge = roads.Length > 0 ? roads[0].Pose.At : new(centre.X, centre.Y + radius);
        return TableLines.OfTurntable(table, centre, bridge, roads.Select(road => (road.Road, ImmutableArray.Create(road.Pose.At))));
    }

    private static IEnumerable<PieceLine> TransferTable(Piece.TransferTable table, (string Road, PlanPose Pose)[] roads, PlanPoint elsewhere)
    {
        double length = table.Length.Meters;
        (string name, PlanPose stand) = roads.Length > 0 ? roads[0] : ("w1", new(new(elsewhere.X - (length / 2), elsewhere.Y), -1, 0));
        (PlanPoint near, PlanPoint far) = (stand.At, stand.Ahead(-length));
        return TableLines.OfTransferTable(
            table,
            name[0] == 'w' ? (near, far) : (far, near),
            roads.Select(road => (road.Road, road.Pose.Ahead(-length / 2), ImmutableArray.Create(road.Pose.At))));
    }

    // Spots at the end of a section, looking into the section: out of whatever else joins there.
    private static PlanPose?[] KnownSpots(Layout layout, TrackSpots spots)
    {
        var known = new PlanPose?[spots.Count];
        foreach (Piece.Section section in layout.Track.OfType<Piece.Section>())
        {
            ImmutableArray<PlanPoint> path = TrackPaths.Of(section);
            known[spots[section.End("a")]] ??= Polyline.At(path, 0);
            known[spots[section.End("b")]] ??= Polyline.At(path, Polyline.Length(path)).Reversed;
        }

        return known;
    }

    private static PlanPoint[] AllSpots(Layout layout, TrackSpots spots, PlanPose?[] known)
    {
        PlanPoint middle = Mean(known.OfType<PlanPose>().Select(pose => pose.At));
        PlanPoint[] at = [.. known.Select(pose => pose?.At ?? middle)];
        var neighbours = new List<int>[spots.Count];
        foreach (Piece piece in layout.Track.Where(piece => piece is not (Piece.Section or Piece.Turntable or Piece.TransferTable)))
        {
            int[] here = [.. piece.Ends.Select(end => spots[end])];
            foreach (int spot in here) (neighbours[spot] ??= []).AddRange(here.Where(other => other != spot));
        }

        for (int sweep = 0; sweep < Sweeps; sweep++)
        {
            for (int spot = 0; spot < at.Length; spot++)
            {
                if (known[spot] is null && neighbours[spot] is { Count: > 0 } near) at[spot] = Mean(near.Select(other => at[other]));
            }
        }

        return at;
    }

    private static PlanPoint Centre(Piece piece, TrackSpots spots, PlanPoint[] at) => Mean(piece.Ends.Select(end => at[spots[end]]));

    private static PlanPose Outward(PlanPoint end, PlanPoint centre)
    {
        double distance = Polyline.Distance(end, centre);
        return distance > 0 ? new(end, (end.X - centre.X) / distance, (end.Y - centre.Y) / distance) : new(end, 1, 0);
    }

    private static PlanPoint Mean(IEnumerable<PlanPoint> points)
    {
        PlanPoint[] all = [.. points];
        return new(all.Average(point => point.X), all.Average(point => point.Y));
    }

    // Nothing is known about how close the person drew parallel tracks: a fiftieth of the mean section reads well on most plans.
    private static double Spacing(Layout layout)
    {
        double[] lengths = [.. layout.Track.OfType<Piece.Section>().Select(section => Polyline.Length(section.Path))];
        return lengths.Average() * SpacingOfTrackLength;
    }
}
