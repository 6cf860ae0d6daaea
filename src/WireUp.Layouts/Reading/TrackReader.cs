using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>track:</c>, every piece by its name.</summary>
internal sealed class TrackReader(ReadContext context, LayoutDefaults defaults)
{
    private const string PieceExpected = "a piece, for instance { length: 2 m } or { turnout: left, number: 6 }";

    private static readonly ImmutableArray<(string Key, KeySet Keys)> Kinds =
        [("turnout", FormatKeys.Turnout), ("crossing", FormatKeys.Crossing), ("stop", FormatKeys.Stop), ("length", FormatKeys.Section)];

    public PieceTable Read(MapReader root)
    {
        PieceTable pieces = new();
        root.Require("track", "every piece of track by its name");
        ImmutableArray<TextEntry> entries = root.Named("track", "a mapping of every piece by its name");
        if (entries.IsEmpty && root.Find("track") is { Value: TextNode.Mapping or TextNode.Scalar { IsNull: true } } track)
        {
            context.Add(LayoutRules.MissingKey, track.Key.Start, "track", "the layout has no piece of track", PieceExpected);
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

        if (IsOfLaterKind(mapping))
        {
            return null;
        }

        KeySet keys = Kinds.FirstOrDefault(kind => mapping.Entries.Any(item => item.Key.Value == kind.Key)).Keys ?? FormatKeys.Section;
        MapReader map = new(context, mapping, keys, entry.Key.Start);
        PieceId id = new(entry.Key.Value);
        return keys.What switch
        {
            _ when keys == FormatKeys.Turnout => ReadTurnout(id, map),
            _ when keys == FormatKeys.Crossing => ReadCrossing(id, map),
            _ when keys == FormatKeys.Stop => ReadStop(id, map),
            _ => ReadSection(id, map),
        };
    }

    private bool IsOfLaterKind(TextNode.Mapping mapping)
    {
        foreach (TextEntry entry in mapping.Entries)
        {
            (string key, string meaning) = FormatKeys.LaterPieces.FirstOrDefault(later => later.Key == entry.Key.Value);
            if (key is not null)
            {
                NotSupported(entry.Key, meaning, "a section, a stop, a turnout or a crossing");
                return true;
            }
        }

        return false;
    }

    private void NotSupported(TextNode.Scalar at, string what, string instead) =>
        context.Add(LayoutRules.NotSupported, at.Start, at.Value, $"{what} is not supported yet in this version", instead);

    private Piece.Section? ReadSection(PieceId id, MapReader map)
    {
        Length? length = map.RequireQuantity("length", QuantityKinds.Length, Range.TrackLength);
        RailMaterial? rail = new DefaultsReader(context).ReadRail(map, defaults.Rail);
        ImmutableArray<PlanPoint> path = ReadPath(map);
        return length is null ? null : new Piece.Section(id, length.Value) { Rail = rail, Path = path };
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

    private Piece.Turnout? ReadTurnout(PieceId id, MapReader map)
    {
        if (map.Find("turnout")?.Value is TextNode.Scalar { Value: "three-way" } later)
        {
            NotSupported(later, "a three-way turnout", "two turnouts, one behind the other");
            return null;
        }

        TurnoutHand? hand = map.Word("turnout", Words.Turnout);
        FrogKind frog = map.Word("frog", Words.Frog) ?? defaults.Frog;
        Piece.Turnout turnout = new(id, hand ?? TurnoutHand.Left, frog)
        {
            Feed = ReadFeed(map, frog),
            Number = map.Number("number", Range.FrogNumber),
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
        return hand is null ? null : turnout;
    }

    private FrogFeed ReadFeed(MapReader map, FrogKind frog)
    {
        FrogFeed feed = map.Word("frog-feed", Words.FrogFeed) ?? FrogFeed.None;
        if (feed == FrogFeed.Contact && frog != FrogKind.Isolated)
        {
            TextEntry entry = map.Find("frog-feed")!;
            string kind = Words.Of(Words.Frog, frog);
            context.Add(LayoutRules.Contradiction, entry.Value.Start, "contact", $"a frog that is {kind} is not fed by a contact",
                "frog: isolated beside \"frog-feed: contact\"");
        }

        return feed;
    }

    private Piece.Crossing? ReadCrossing(PieceId id, MapReader map)
    {
        Angle? angle = map.RequireQuantity("crossing", QuantityKinds.Degrees, Range.CrossingAngle);
        FrogKind frog = map.Word("frog", Words.Frog) ?? defaults.Frog;
        if (frog != FrogKind.Insulated)
        {
            string kind = Words.Of(Words.Frog, frog);
            TextPosition at = map.Find("frog")?.Value.Start ?? map.At;
            context.Add(LayoutRules.NotSupported, at, kind, $"a crossing whose frogs are {kind} is not supported yet in this version",
                "frog: insulated");
        }

        Piece.Crossing crossing = new(id, angle ?? Angle.Zero, frog)
        {
            Length = map.Quantity("length", QuantityKinds.Length, Range.Fitting),
            DeadLength = map.Quantity("dead-length", QuantityKinds.Length, Range.Fitting),
        };
        return angle is null ? null : crossing;
    }
}
