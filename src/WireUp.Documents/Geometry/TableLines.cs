using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>The lines of a turntable or transfer table: first its bridge from head to tail as it stands, then a line to each of its roads.</summary>
internal static class TableLines
{
    /// <summary>Names in the place of ends: those of the bridge, and where the roads would meet.</summary>
    public const string Head = "head", Tail = "tail", Pivot = "pivot";

    // Part of a bridge that is drawn: it does not touch the edge of its pit.
    private const double BridgeShare = 0.94;

    /// <summary>The lines of a turntable.</summary>
    /// <param name="table">The turntable.</param>
    /// <param name="centre">The middle of its pit.</param>
    /// <param name="bridge">A point of the pit's edge: the head of the bridge points to it.</param>
    /// <param name="roads">For each road that is used the line that begins at the pit's edge.</param>
    public static IEnumerable<PieceLine> OfTurntable(
        Piece table, PlanPoint centre, PlanPoint bridge, IEnumerable<(string Road, ImmutableArray<PlanPoint> Line)> roads)
    {
        yield return new(table.Id, Head, Tail, [Polyline.Between(centre, bridge, BridgeShare), Polyline.Between(centre, bridge, -BridgeShare)]);
        foreach ((string road, ImmutableArray<PlanPoint> line) in roads) yield return new(table.Id, Pivot, road, [centre, .. line]);
    }

    /// <summary>The lines of a transfer table, whose bridge stands between two opposite points of its pit.</summary>
    public static IEnumerable<PieceLine> OfTransferTable(
        Piece table, (PlanPoint West, PlanPoint East) bridge, IEnumerable<(string Road, PlanPoint Middle, ImmutableArray<PlanPoint> Line)> roads)
    {
        double margin = (1 - BridgeShare) / 2;
        yield return new(table.Id, Head, Tail, [Polyline.Between(bridge.West, bridge.East, margin), Polyline.Between(bridge.East, bridge.West, margin)]);
        foreach ((string road, PlanPoint middle, ImmutableArray<PlanPoint> line) in roads) yield return new(table.Id, Pivot, road, [middle, .. line]);
    }
}
