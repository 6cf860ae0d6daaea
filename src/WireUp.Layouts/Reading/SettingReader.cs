using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads positions of switches and of pieces that move: <c>B1.cab-a</c>, <c>T1.diverging</c>.</summary>
internal sealed class SettingReader(ReadContext context, PieceTable pieces, IReadOnlyDictionary<string, ImmutableArray<string>> switches)
{
    private const string Example = "a switch or piece and its position, for instance B1.cab-a or T1.diverging";

    /// <summary>The setting under a key, or null where the key is missing or could not be read.</summary>
    public Setting? Read(MapReader map, string key) => map.Scalar(map.Find(key), Example) is { } text ? Read(text) : null;

    /// <summary>A setting in one word: <c>T1.diverging</c>.</summary>
    public Setting? Read(TextNode.Scalar text)
    {
        int equal = text.Value.IndexOf('=', StringComparison.Ordinal);
        if (equal > 0)
        {
            context.Add(LayoutRules.UnknownPosition, text.At(0), text.Value, $"\"{ProblemList.Shorten(text.Value)}\" is not a position: it is written with a dot",
                $"{text.Value[..equal].TrimEnd()}.{text.Value[(equal + 1)..].TrimStart()}");
            return null;
        }

        int dot = text.Value.IndexOf('.', StringComparison.Ordinal);
        string owner = dot < 0 ? text.Value : text.Value[..dot];
        if (PositionsOf(owner, text) is not { IsEmpty: false } positions)
        {
            return null;
        }

        if (dot < 0)
        {
            context.Add(LayoutRules.UnknownPosition, text.At(0), owner, $"\"{owner}\" does not say which position",
                Spelling.List([.. positions.Select(name => $"{owner}.{name}")]));
            return null;
        }

        return Position(owner, positions, text.Value[(dot + 1)..], text.At(dot + 1));
    }

    /// <summary>A setting as a key and its value: <c>T1: diverging</c>.</summary>
    public Setting? Read(TextNode.Scalar owner, TextNode.Scalar position) =>
        PositionsOf(owner.Value, owner) is { IsEmpty: false } positions ? Position(owner.Value, positions, position.Value, position.At(0)) : null;

    private Setting? Position(string owner, ImmutableArray<string> positions, string position, TextPosition at)
    {
        if (positions.Contains(position))
        {
            return new Setting(new PieceId(owner), position);
        }

        context.Add(LayoutRules.UnknownPosition, at, position, $"\"{owner}\" has no position \"{ProblemList.Shorten(position)}\"",
            context.Expect(position, positions));
        return null;
    }

    /// <summary>The positions of a switch or piece; none, after reporting why, where it has none.</summary>
    private ImmutableArray<string> PositionsOf(string owner, TextNode.Scalar text)
    {
        if (switches.TryGetValue(owner, out ImmutableArray<string> positions))
        {
            return positions;
        }

        if (!pieces.TryGet(owner, out Piece? piece))
        {
            context.Add(LayoutRules.UnknownName, text.At(0), owner, $"there is no switch and no piece \"{ProblemList.Shorten(owner)}\"",
                Expect(owner));
            return [];
        }

        ImmutableArray<string> own = piece is null ? [] : PiecePositions.Of(piece);
        if (piece is not null && own.IsEmpty)
        {
            context.Add(LayoutRules.UnknownPosition, text.At(0), owner, $"piece \"{owner}\" has no positions: it does not move", Expect(owner));
        }

        return own;
    }

    private string Expect(string wrong)
    {
        ImmutableArray<string> movable =
            [.. switches.Keys.Concat(pieces.Track.Where(piece => !PiecePositions.Of(piece).IsEmpty).Select(piece => piece.Id.Name)).Distinct(StringComparer.Ordinal)];
        return movable.IsEmpty ? "the name of a switch, described under \"switches\", or of a piece that moves" : context.Expect(wrong, movable);
    }
}
