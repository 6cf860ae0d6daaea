using System.Collections.Immutable;
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

    public (ImmutableArray<PieceId> NoFeeder, ImmutableArray<PieceId> NoGap) ReadSpots(TextEntry? entry)
    {
        if (entry is null)
        {
            return ([], []);
        }

        const string Expected = "a list of pieces, for instance [bridge-1]";
        MapReader map = new(context, entry.Value, FormatKeys.Spots, entry.Key.Start);
        return (Pieces(map.List("no-feeder", Expected)), Pieces(map.List("no-gap", Expected)));
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
