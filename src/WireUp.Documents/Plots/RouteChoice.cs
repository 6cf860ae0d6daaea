using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails.Routes;

namespace WireUp.Documents.Plots;

/// <summary>Chooses a route to show volts along where nobody names one.</summary>
internal static class RouteChoice
{
    private const int MostTried = 60;

    /// <summary>Of the shortest ways from other sections to a place's section the longest; the section alone where no way leads there.</summary>
    /// <param name="finder">A finder for the layout.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="worst">The section.</param>
    public static TrackRoute? LongestTo(RouteFinder finder, Layout layout, PieceId worst)
    {
        Piece[] starts = [.. layout.Track.Where(piece => piece is Piece.Section && piece.Id != worst)];
        int skip = Math.Max(1, (starts.Length + MostTried - 1) / MostTried);
        TrackRoute? alone = Find(finder, [new RouteStop.Through(worst)]);
        return starts.Where((_, i) => i % skip == 0)
            .Select(start => Find(finder, [new RouteStop.Through(start.Id), new RouteStop.Through(worst)]))
            .Append(alone)
            .OfType<TrackRoute>()
            .MaxBy(route => route.LengthMetres);
    }

    /// <summary>The shortest way past the stops, or null where there is none or it needs one piece in two positions.</summary>
    public static TrackRoute? Find(RouteFinder finder, ImmutableArray<RouteStop> stops) =>
        finder.Find(stops) is RouteSearch.Found { Route: var route } && route.Settings.GroupBy(setting => setting.Owner).All(owner => owner.Count() == 1) ? route : null;
}
