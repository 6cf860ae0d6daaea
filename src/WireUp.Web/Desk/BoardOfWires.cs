using WireUp.Documents;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Plans;

namespace WireUp.Web.Desk;

/// <summary>On which board of the benchwork a wire is worked on: a feeder's where it meets the rails, a frog's where its trackwork lies. Bus lies on several.</summary>
internal sealed class BoardOfWires
{
    private const string Bus = "Bus, across the boards", NoBoard = "On no board";

    private readonly Dictionary<string, PlanPoint> _places;
    private readonly Areas _boards;

    private BoardOfWires(Layout layout, PlanGeometry geometry)
    {
        _boards = new(layout.Benchwork.Boards);
        _places = layout.Wiring.Feeders.ToDictionary(feeder => $"feeder {feeder.Name}", feeder => geometry.PointAt(feeder.At).At, StringComparer.Ordinal);
        foreach (Piece piece in layout.Track)
        {
            if (geometry.LinesOf(piece.Id) is [var line, ..]) _places[$"frog {piece.Id}"] = line.Points[0];
        }
    }

    /// <summary>The boards of a layout, or null where it has none or nobody can tell how track lies to them.</summary>
    public static BoardOfWires? Of(Layout layout)
    {
        if (layout.Benchwork.Boards.IsEmpty) return null;
        PlanGeometry geometry = PlanGeometry.Of(layout);
        return geometry.Automatic ? null : new(layout, geometry);
    }

    /// <summary>The heading under which a wire stands.</summary>
    public string Heading(ScheduledWire wire) => wire.Kind switch
    {
        WireKind.Feeder => Board($"feeder {wire.Id.Split('/')[0]}"),
        WireKind.Frog => Board($"frog {wire.Id.Split(':')[0]}"),
        _ => Bus,
    };

    private string Board(string key) => _places.TryGetValue(key, out PlanPoint at) && _boards.At(at) is { } board ? $"Board {board.Name}" : NoBoard;
}
