using System.Collections.Immutable;

namespace WireUp.Layouts.Plans;

/// <summary>Where places of the track lie on the plan, by the paths of the sections. A path may be longer or shorter than its section: shares of the way count.</summary>
public sealed class TrackPaths
{
    private readonly LayoutIndex _index;

    /// <summary>Looks at a layout.</summary>
    /// <param name="layout">One whose sections all have paths.</param>
    public TrackPaths(Layout layout) => _index = new(layout);

    /// <summary>Whether every section has a path, and there is one.</summary>
    public static bool Cover(Layout layout) => layout.Track.OfType<Piece.Section>().Any() && Missing(layout.Track).IsEmpty;

    /// <summary>The sections without a path, which is two different points or more.</summary>
    public static ImmutableArray<PieceId> Missing(ImmutableArray<Piece> track) =>
        [.. track.OfType<Piece.Section>().Where(section => section.Path.Distinct().Count() < 2).Select(section => section.Id)];

    /// <summary>A section's path without points that repeat the one before.</summary>
    public static ImmutableArray<PlanPoint> Of(Piece.Section section) =>
        [.. section.Path.Where((point, i) => i == 0 || point != section.Path[i - 1])];

    /// <summary>A place on the plan; one of a moving bridge lies in the middle of its pit, where the pivot and its rings are. Null for a pit without roads.</summary>
    public PlanPoint? PointAt(TrackPlace place)
    {
        if (_index.Piece(place.Section) is not Piece.Section section)
        {
            return MiddleOf(_index.Piece(place.Section));
        }

        ImmutableArray<PlanPoint> path = Of(section);
        return Polyline.At(path, Polyline.Length(path) * place.MetresFromA / section.Length.Meters).At;
    }

    /// <summary>The middle of a pit: half a bridge beyond the ends of the sections that lead to it. Null where none does.</summary>
    /// <param name="table">A turntable or transfer table.</param>
    public PlanPoint? MiddleOf(Piece table)
    {
        PlanPoint[] ways = [.. table.Ends.Select(InFrom).OfType<PlanPose>().Select(pose => pose.Ahead(-table.WayMetres / 2))];
        return ways.Length == 0 ? null : new(ways.Average(point => point.X), ways.Average(point => point.Y));
    }

    /// <summary>The end of the section that meets an end, looking into the section; null where none does.</summary>
    private PlanPose? InFrom(TrackEnd end)
    {
        if (_index.Opposite(end) is not { } other || _index.Piece(other.Piece) is not Piece.Section section)
        {
            return null;
        }

        ImmutableArray<PlanPoint> path = Of(section);
        return other.Name == "a" ? Polyline.At(path, 0) : Polyline.At(path, Polyline.Length(path)).Reversed;
    }

    /// <summary>The parts of a section within reach from below, as distances from its end a.</summary>
    /// <param name="section">The section.</param>
    /// <param name="outOfReach">Where no hand comes to.</param>
    public static ImmutableArray<(double FromMetres, double ToMetres)> WithinReach(Piece.Section section, Areas outOfReach)
    {
        ImmutableArray<PlanPoint> path = Of(section);
        double scale = section.Length.Meters / Polyline.Length(path);
        return [.. outOfReach.Outside(path).Select(part => (part.FromMetres * scale, part.ToMetres * scale))];
    }
}
