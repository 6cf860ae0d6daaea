using System.Collections.Immutable;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// The pieces of the file by name. A piece that could not be read keeps its name here with nothing behind it, so that one mistake
/// is not reported again at every place that mentions the piece.
/// </summary>
internal sealed class PieceTable
{
    private readonly Dictionary<string, Piece?> _byName = new(StringComparer.Ordinal);
    private readonly ImmutableArray<Piece>.Builder _track = ImmutableArray.CreateBuilder<Piece>();

    public ImmutableArray<Piece> Track => _track.ToImmutable();

    /// <summary>The pieces of a layout that has been read.</summary>
    public static PieceTable Of(Layout layout)
    {
        PieceTable table = new();
        foreach (Piece piece in layout.Track)
        {
            table.Add(piece.Id.Name, piece);
        }

        return table;
    }

    public void Add(string name, Piece? piece)
    {
        _byName[name] = piece;
        if (piece is not null)
        {
            _track.Add(piece);
        }
    }

    /// <summary>The names of all pieces, those that could not be read too.</summary>
    public IReadOnlyCollection<string> Names => _byName.Keys;

    /// <summary>Whether the file has a piece of that name; the piece is null when it could not be read.</summary>
    public bool TryGet(string name, out Piece? piece) => _byName.TryGetValue(name, out piece);

    /// <summary>Whether the file has a piece of that name; reports it when it has not.</summary>
    public bool Find(string name, TextPosition at, ReadContext context, out Piece? piece)
    {
        if (_byName.TryGetValue(name, out piece))
        {
            return true;
        }

        string shown = ProblemList.Shorten(name);
        context.Add(LayoutRules.UnknownName, at, name, $"there is no piece \"{shown}\"", context.Expect(name, _byName.Keys));
        return false;
    }

    /// <summary>The end written as <c>T1.points</c>, or null after reporting why there is none.</summary>
    public TrackEnd? FindEnd(string text, TextPosition at, ReadContext context)
    {
        int dot = text.LastIndexOf('.');
        if (dot < 0)
        {
            if (Find(text, at, context, out Piece? bare) && bare is not null)
            {
                context.Add(LayoutRules.UnknownEnd, at, text, $"\"{text}\" does not say which end of the piece",
                    EndWords(bare, $"{text}."));
            }

            return null;
        }

        (string name, string end) = (text[..dot], text[(dot + 1)..]);
        if (!Find(name, at, context, out Piece? piece) || piece is null)
        {
            return null;
        }

        if (!piece.EndNames.Contains(end))
        {
            context.Add(LayoutRules.UnknownEnd, at.Plus(dot + 1), end, $"piece \"{name}\" has no end \"{ProblemList.Shorten(end)}\"",
                EndWords(piece));
            return null;
        }

        return piece.End(end);
    }

    /// <summary>The ends of a piece in words; roads around a pit by the first and the last of them.</summary>
    public static string EndWords(Piece piece, string before = "") => piece switch
    {
        Piece.Turntable turntable => $"\"{before}t1\" to \"{before}t{turntable.RoadCount}\"",
        Piece.TransferTable table => $"\"{before}w1\" to \"{before}w{table.RoadCount}\" or \"{before}e1\" to \"{before}e{table.RoadCount}\"",
        _ => Spelling.List([.. piece.EndNames.Select(name => before + name)]),
    };
}
