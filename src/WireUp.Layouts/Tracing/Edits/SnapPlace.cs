using System.Collections.Immutable;
using WireUp.Layouts.Plans;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>What the end of a line is near.</summary>
/// <param name="At">Where the line ends then.</param>
/// <param name="IsFree">Whether it is near no track.</param>
/// <param name="Taken">The end of a section that it is near and that leads into trackwork, where nothing more can be joined.</param>
internal sealed record SnapPlace(PlanPoint At, bool IsFree, TrackEnd? Taken)
{
    /// <summary>The place of a point: the nearest end of track within the distance; or else the nearest track within it; or else the point itself.</summary>
    public static SnapPlace Of(Layout layout, PlanPoint point, double snapMetres)
    {
        LayoutIndex index = new(layout);
        ImmutableArray<Piece.Section> drawn = [.. layout.Track.OfType<Piece.Section>().Where(section => section.Path.Distinct().Count() > 1)];
        (double Off, SnapPlace Place)? best = null;
        foreach (TrackEnd end in drawn.SelectMany(section => section.Ends))
        {
            ImmutableArray<PlanPoint> path = TrackPaths.Of((Piece.Section)index.Piece(end.Piece));
            PlanPoint at = end.Name == "a" ? path[0] : path[^1];
            bool isFree = index.Opposite(end) is not { } other || index.Piece(other.Piece) is Piece.Section;
            Consider(at, new(at, false, isFree ? null : end));
        }

        if (best is { Place.Taken: null } found)
        {
            return found.Place;
        }

        SnapPlace? taken = best?.Place;
        best = null;
        foreach (Piece.Section section in drawn)
        {
            (double along, double off) = PathPoints.Nearest(TrackPaths.Of(section), point);
            double whole = Polyline.Length(section.Path);
            if (along > Least && along < whole - Least && off <= snapMetres)
            {
                PlanPoint at = Polyline.At(TrackPaths.Of(section), along).At;
                Consider(at, new(at, false, null));
            }
        }

        return best?.Place ?? taken ?? new(point, true, null);

        void Consider(PlanPoint at, SnapPlace place)
        {
            double off = Polyline.Distance(at, point);
            if (off <= snapMetres && (best is not { } nearest || off < nearest.Off)) best = (off, place);
        }
    }

    /// <summary>So near the end of a section nothing can be put in.</summary>
    private const double Least = 0.003;
}
