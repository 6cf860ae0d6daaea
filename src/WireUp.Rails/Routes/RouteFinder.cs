using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.Routes;

/// <summary>Finds the shortest way past named pieces, ends and places, through trackwork as trains drive and without a change of direction.</summary>
/// <remarks>
/// Dijkstra's search over pairs of how many stops are behind the train and where it is. Of two ways of equal length the one through
/// fewer pieces is taken, then the one found first, which follows the order of the layout. Turnouts of no length count nothing.
/// </remarks>
public sealed class RouteFinder
{
    private readonly LayoutIndex _index;
    private readonly IReadOnlyDictionary<PieceId, string> _preferred;
    private readonly Dictionary<PieceId, Trackwork> _trackwork = [];

    /// <summary>A finder for a layout.</summary>
    /// <param name="index">The layout.</param>
    /// <param name="preferred">Positions to drive in where one way is open in several.</param>
    public RouteFinder(LayoutIndex index, IReadOnlyDictionary<PieceId, string> preferred) => (_index, _preferred) = (index, preferred);

    /// <summary>The shortest way past the stops in their order. The first and the last piece are driven from one end to another.</summary>
    /// <param name="stops">At least one.</param>
    public RouteSearch Find(ImmutableArray<RouteStop> stops)
    {
        if (stops is [RouteStop.AtPlace from, RouteStop.AtPlace to] && from.Piece == to.Piece)
        {
            return new RouteSearch.Found(new([RouteSteps.Within(from.Place, to.Place)]));
        }

        RouteWorkspace search = new(this, stops);
        if (search.Run() is { } route)
        {
            return new RouteSearch.Found(route);
        }

        int reached = Math.Max(1, search.MostPassed);
        RouteStop last = stops[reached - 1];
        return reached == stops.Length
            ? new RouteSearch.NoWay(last, last, NeedsReversal: false)
            : new RouteSearch.NoWay(last, stops[reached], reached > 1 && new RouteWorkspace(this, [last, stops[reached]]).Run() is not null);
    }

    internal LayoutIndex Index => _index;

    /// <summary>The ways out of a piece that was entered at an end: where they leave, and the position.</summary>
    internal IEnumerable<(TrackEnd Leave, DrivableWay Way)> Ways(TrackEnd enter)
    {
        Piece piece = _index.Piece(enter.Piece);
        return Row(piece).Ways
            .Where(way => way.From == enter.Name || way.To == enter.Name)
            .GroupBy(way => way.From == enter.Name ? way.To : way.From)
            .Select(group => (piece.End(group.Key), group.FirstOrDefault(way => IsPreferred(way, piece.Id), group.First())));
    }

    private bool IsPreferred(DrivableWay way, PieceId piece) =>
        way.Position is not null && _preferred.TryGetValue(piece, out string? position) && position == way.Position;

    private Trackwork Row(Piece piece)
    {
        if (!_trackwork.TryGetValue(piece.Id, out Trackwork? row))
        {
            _trackwork[piece.Id] = row = TrackworkTable.Of(piece, _index.Layout.Control);
        }

        return row;
    }
}
