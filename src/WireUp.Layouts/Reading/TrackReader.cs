using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>track:</c>, every piece by its name.</summary>
internal sealed class TrackReader(ReadContext context, LayoutDefaults defaults)
{
    /// <summary>The message about a layout without track.</summary>
    public const string NoTrack = "the layout has no piece of track";

    private const string PieceExpected = "a piece, for instance { length: 2 m } or { turnout: left, number: 6 }";

    /// <summary>The keys that tell what a piece is, in the order in which they are looked for.</summary>
    private static readonly ImmutableArray<(string Key, KeySet Keys)> Kinds =
    [
        ("turnout", FormatKeys.Turnout), ("crossing", FormatKeys.Crossing), ("slip", FormatKeys.Slip), ("scissors", FormatKeys.Scissors),
        ("turntable", FormatKeys.Turntable), ("transfer-table", FormatKeys.TransferTable), ("stop", FormatKeys.Stop),
        ("length", FormatKeys.Section), ("path", FormatKeys.Section),
    ];

    private static readonly ImmutableArray<string> KindKeys = [.. Kinds.Select(kind => kind.Key)];

    private readonly TurnoutReader _turnouts = new(context, defaults);
    private readonly CrossingReader _crossings = new(context, defaults);
    private readonly BridgeReader _bridges = new(context);

    public PieceTable Read(MapReader root)
    {
        PieceTable pieces = new();
        root.Require("track", "every piece of track by its name");
        ImmutableArray<TextEntry> entries = root.Named("track", "a mapping of every piece by its name");
        if (entries.IsEmpty && root.Find("track") is { Value: TextNode.Mapping or TextNode.Scalar { IsNull: true } } track)
        {
            context.Add(LayoutRules.MissingKey, track.Key.Start, "track", NoTrack, PieceExpected);
        }

        if (entries.Length > LayoutLimits.Pieces)
        {
            context.Add(LayoutRules.LimitPassed, entries[LayoutLimits.Pieces].Key.Start, "", $"the layout has {entries.Length} pieces",
                $"at most {LayoutLimits.Pieces}");
            return pieces;
        }

        foreach (TextEntry entry in entries)
        {
            if (Names.Check(entry.Key, context))
            {
                pieces.Add(entry.Key.Value, ReadPiece(entry));
            }
        }

        return pieces;
    }

    private Piece? ReadPiece(TextEntry entry)
    {
        if (entry.Value is not TextNode.Mapping mapping)
        {
            context.Add(LayoutRules.WrongShape, entry.Value is TextNode.Scalar { IsNull: true } ? entry.Key.Start : entry.Value.Start,
                entry.Key.Value, $"piece \"{entry.Key.Value}\" cannot be {entry.Value.Shape}", PieceExpected);
            return null;
        }

        KeySet? keys = KeysOf(mapping);
        if (keys is null || (keys == FormatKeys.Section && MisspeltKind(mapping) is not null))
        {
            ReportNoKind(entry.Key, mapping);
            return null;
        }

        MapReader map = new(context, mapping, keys, entry.Key.Start);
        PieceId id = new(entry.Key.Value);
        return keys.What switch
        {
            _ when keys == FormatKeys.Turnout => _turnouts.Read(id, map),
            _ when keys == FormatKeys.MultiTurnout => _turnouts.ReadMulti(id, map),
            _ when keys == FormatKeys.Crossing => _crossings.ReadCrossing(id, map),
            _ when keys == FormatKeys.Slip => _crossings.ReadSlip(id, map),
            _ when keys == FormatKeys.Scissors => _crossings.ReadScissors(id, map),
            _ when keys == FormatKeys.Turntable => _bridges.ReadTurntable(id, map),
            _ when keys == FormatKeys.TransferTable => _bridges.ReadTransferTable(id, map),
            _ when keys == FormatKeys.Stop => ReadStop(id, map),
            _ => ReadSection(id, map),
        };
    }

    private static KeySet? KeysOf(TextNode.Mapping mapping)
    {
        KeySet? keys = Kinds.FirstOrDefault(kind => mapping.Entries.Any(item => item.Key.Value == kind.Key)).Keys;
        return keys == FormatKeys.Turnout && TurnoutReader.IsMulti(mapping) ? FormatKeys.MultiTurnout : keys;
    }

    /// <summary>A piece without a key that tells its kind: perhaps one of its keys is such, badly spelled.</summary>
    private void ReportNoKind(TextNode.Scalar name, TextNode.Mapping mapping)
    {
        if (MisspeltKind(mapping) is { } key)
        {
            context.Add(LayoutRules.UnknownKey, key.Start, key.Value, $"\"{ProblemList.Shorten(key.Value)}\" is not a key that a piece can have",
                context.Expect(key.Value, KindKeys));
            return;
        }

        context.Add(LayoutRules.MissingKey, name.Start, "", $"nothing says what piece \"{name.Value}\" is",
            $"length: {QuantityKinds.Length.Example} for a section, or another of the keys {Spelling.List(KindKeys)}");
    }

    /// <summary>A key that is meant to tell the kind of a piece, beside <c>length</c> or without it.</summary>
    private static TextNode.Scalar? MisspeltKind(TextNode.Mapping mapping)
    {
        bool hasLength = mapping.Entries.Any(entry => entry.Key.Value == "length");
        ImmutableArray<string> sought = hasLength ? KindKeys.Remove("length") : KindKeys;
        return mapping.Entries.Select(entry => entry.Key).FirstOrDefault(key => !FormatKeys.IsOfSomePiece(key.Value)
            && (TradeWords.Meant(key.Value, KindKeys) ?? Spelling.Nearest(key.Value, KindKeys)) is { } meant && sought.Contains(meant));
    }

    private Piece.Section? ReadSection(PieceId id, MapReader map)
    {
        bool isMeasured = map.Has("length") || !map.Has("path");
        Length? stated = isMeasured ? map.RequireQuantity("length", QuantityKinds.Length, Range.TrackLength) : null;
        RailMaterial? rail = new DefaultsReader(context).ReadRail(map, defaults.Rail);
        ImmutableArray<PlanPoint> path = ReadPath(map);
        bool liftOut = map.Flag("lift-out") ?? false;
        Length? length = isMeasured ? stated : LengthOf(path, map);
        return length is null ? null : new Piece.Section(id, length.Value) { Rail = rail, LiftOut = liftOut, Path = path, LengthFromPath = !isMeasured };
    }

    /// <summary>The length of a section that is as long as its centre line.</summary>
    private Length? LengthOf(ImmutableArray<PlanPoint> path, MapReader map)
    {
        double metres = Polyline.Length(path);
        if (Range.TrackLength.Holds(metres))
        {
            return Length.FromMeters(metres);
        }

        if (path.Length != 1)
        {
            context.Add(LayoutRules.OutOfRange, map.Find("path")!.Key.Start, "path", $"the centre line is {LengthText.Write(metres)} long",
                $"a line {Range.TrackLength.Words}, or length: {QuantityKinds.Length.Example} beside it");
        }

        return null;
    }

    private ImmutableArray<PlanPoint> ReadPath(MapReader map)
    {
        const string Expected = "a list of at least two points, for instance [[0, 0], [900, 0]]";
        ImmutableArray<TextNode> items = map.List("path", Expected);
        if (items.Length == 1)
        {
            context.WrongShape(items[0], "a path of one point", Expected);
        }

        PlanReader plan = new(context);
        return items.IsEmpty ? [] : [.. items.Select(plan.Point).OfType<PlanPoint>()];
    }

    private static Piece.Stop ReadStop(PieceId id, MapReader map)
    {
        map.Word<bool>("stop", [("true", true)]);
        return new Piece.Stop(id);
    }
}
