using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>
/// Where on the work sheet the wires of a layout stand, for the codes of labels. The sheet lists the wires of the layout file as they are; lines of
/// bus that were begun before are cut and counted otherwise there, and have no address.
/// </summary>
internal sealed class WorkSheetLines(Layout layout)
{
    private readonly Dictionary<string, ScheduledWire> _wires = layout.Papers.WorkSheet is null ? [] : Schedule.Of(layout).Wires.ToDictionary(wire => wire.Id);

    /// <summary>The address of a wire's line; null where the layout names no work sheet or the line is not the same wire.</summary>
    public string? Of(ScheduledWire wire) =>
        _wires.TryGetValue(wire.Id, out ScheduledWire? line) && (line.From, line.To, line.Length.Meters) == (wire.From, wire.To, wire.Length.Meters) ? layout.Papers.LineOf(wire.Id) : null;

    /// <summary>The address of the line of bus that ends at a point or passes it; null where there is none.</summary>
    public string? Of(Bus bus, string point) =>
        _wires.Values.FirstOrDefault(wire => wire.Kind == WireKind.Bus && wire.District == bus.District && (wire.From == point || wire.To == point || wire.Taps.Any(tap => tap.Point == point))) is { } line
            ? layout.Papers.LineOf(line.Id)
            : null;
}
