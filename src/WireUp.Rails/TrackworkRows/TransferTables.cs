using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails.TrackworkRows;

/// <summary>Transfer tables: the bridge never turns, so all roads on wires or wipers have one phase, and roads opposite each other are through track.</summary>
internal static class TransferTables
{
    internal static Trackwork Row(Piece.TransferTable table)
    {
        ImmutableArray<int> roads = [.. Enumerable.Range(1, table.RoadCount)];
        ImmutableArray<WheelBridge> edges = [.. roads.SelectMany(road => Turntables.Edges($"{road}", ("head", $"w{road}"), ("tail", $"e{road}")))];
        bool wipers = table.Feed == BridgeFeed.Roads;
        return new(
            [.. roads.Select(road => $"{road}")],
            [],
            wipers ? [.. edges.Select(edge => new SwitchedBond(edge.From, edge.To, edge.Position))] : [],
            [.. roads.Select(road => new DrivableWay($"w{road}", $"e{road}", $"{road}"))],
            wipers
                ? [.. roads.Select(road => new PhaseGroup([$"w{road}"], [$"e{road}"]))]
                : [new([.. roads.Select(road => $"w{road}")], [.. roads.Select(road => $"e{road}")])])
        {
            Wheels = wipers ? [] : edges,
            BridgeInPhase = !wipers,
        };
    }
}
