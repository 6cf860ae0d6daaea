using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads turntables and transfer tables: a bridge that moves, and the roads it can stand at.</summary>
internal sealed class BridgeReader(ReadContext context)
{
    private static readonly ImmutableArray<(string Word, BridgeFeed Value)> StraightFeeds =
        [.. Words.BridgeFeed.Where(row => row.Value != BridgeFeed.SplitRing)];

    public Piece.Turntable? ReadTurntable(PieceId id, MapReader map)
    {
        int? roads = map.Whole("turntable", Range.FewestRoads, Range.MostRoads);
        Length? length = map.RequireQuantity("length", QuantityKinds.Length, Range.TrackLength);
        BridgeFeed? feed = map.Has("feed") ? map.Word("feed", Words.BridgeFeed) : BridgeFeed.Wires;
        int? split = map.Whole("split-after", 1, roads ?? Range.MostRoads);
        if (map.Find("split-after") is { } entry && feed is { } known and not BridgeFeed.SplitRing)
        {
            context.Add(LayoutRules.Contradiction, entry.Key.Start, entry.Key.Value,
                $"\"split-after\" says where the ring is split, but the bridge is fed by {Words.Of(Words.BridgeFeed, known)}",
                "\"feed: split-ring\" beside \"split-after\"");
        }

        if (roads is null || length is null)
        {
            return null;
        }

        Piece.Turntable turntable = new(id, roads.Value, length.Value) { Feed = feed ?? BridgeFeed.Wires };
        return split is null ? turntable : turntable with { SplitAfter = split.Value };
    }

    public Piece.TransferTable? ReadTransferTable(PieceId id, MapReader map)
    {
        int? roads = map.Whole("transfer-table", 1, Range.MostRoads);
        Length? length = map.RequireQuantity("length", QuantityKinds.Length, Range.TrackLength);
        BridgeFeed feed = ReadStraightFeed(map);
        return roads is null || length is null ? null : new Piece.TransferTable(id, roads.Value, length.Value) { Feed = feed };
    }

    private BridgeFeed ReadStraightFeed(MapReader map)
    {
        if (map.Find("feed") is { Value: TextNode.Scalar { Value: "split-ring" } ring })
        {
            context.Add(LayoutRules.Contradiction, ring.At(0), "split-ring", "the bridge of a transfer table does not turn, so it has no split ring",
                Spelling.List([.. StraightFeeds.Select(row => row.Word)]));
            return BridgeFeed.Wires;
        }

        return map.Word("feed", StraightFeeds) ?? BridgeFeed.Wires;
    }
}
