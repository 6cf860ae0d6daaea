using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads what somebody asks for: districts to keep apart, pieces to leave alone.</summary>
internal sealed class WishReader(ReadContext context, PieceTable pieces)
{
    public ImmutableArray<DistrictWish> ReadDistricts(MapReader root)
    {
        ImmutableArray<DistrictWish>.Builder wishes = ImmutableArray.CreateBuilder<DistrictWish>();
        foreach (TextEntry entry in root.Named("districts-wanted", "a mapping of lists of pieces by the name of the district"))
        {
            if (!Names.Check(entry.Key, context))
            {
                continue;
            }

            if (entry.Value is TextNode.Sequence list)
            {
                wishes.Add(new DistrictWish(entry.Key.Value, Pieces(list.Items)));
            }
            else
            {
                context.WrongShape(entry.Value, "the track of a district", "a list of pieces, for instance [yard-1, yard-2]");
            }
        }

        return wishes.ToImmutable();
    }

    public Wishes ReadWishes(TextEntry? entry)
    {
        if (entry is null)
        {
            return Wishes.None;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Wishes, entry.Key.Start);
        ImmutableArray<ApartWish>.Builder apart = ImmutableArray.CreateBuilder<ApartWish>();
        foreach (TextNode node in map.List("apart", "a list of lists of tracks, for instance [[main-1, main-2]]"))
        {
            if (node is TextNode.Sequence list)
            {
                apart.Add(new([.. list.Items.Select(track => Pieces(track is TextNode.Sequence several ? several.Items : [track]))]));
            }
            else
            {
                context.WrongShape(node, "what is to be kept apart", "a list of tracks, for instance [main-1, main-2]");
            }
        }

        return new()
        {
            Apart = apart.ToImmutable(),
            WayRound = map.Flag("way-round") ?? false,
            Accessories = map.Quantity("accessories", QuantityKinds.Amps, Range.Rating),
            Blocks = ReadBlocks(map.Find("blocks")),
        };
    }

    private BlockWish? ReadBlocks(TextEntry? entry)
    {
        if (entry is null)
        {
            return null;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Blocks, entry.Key.Start);
        return new(Pieces(map.List("track", "a list of pieces, for instance [main-1]")))
        {
            Length = map.Quantity("length", QuantityKinds.Length, Range.TrackLength),
            BothRails = map.Word<bool>("rails", [("one", false), ("both", true)]) ?? false,
        };
    }

    public (ImmutableArray<PieceId> NoFeeder, ImmutableArray<PieceId> NoGap, ImmutableArray<PieceId> Stops) ReadSpots(TextEntry? entry)
    {
        if (entry is null)
        {
            return ([], [], []);
        }

        const string Expected = "a list of pieces, for instance [bridge-1]";
        MapReader map = new(context, entry.Value, FormatKeys.Spots, entry.Key.Start);
        return (Pieces(map.List("no-feeder", Expected)), Pieces(map.List("no-gap", Expected)), Pieces(map.List("stops", Expected)));
    }

    private ImmutableArray<PieceId> Pieces(ImmutableArray<TextNode> items)
    {
        ImmutableArray<PieceId>.Builder found = ImmutableArray.CreateBuilder<PieceId>();
        foreach (TextNode node in items)
        {
            if (node is not TextNode.Scalar { IsNull: false } name)
            {
                context.WrongShape(node, "a piece in a list", "the name of a piece");
            }
            else if (pieces.Find(name.Value, name.At(0), context, out Piece? piece) && piece is not null)
            {
                found.Add(piece.Id);
            }
        }

        return found.ToImmutable();
    }
}
