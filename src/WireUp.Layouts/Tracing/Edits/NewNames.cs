using System.Globalization;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Names for new pieces: the lowest number that nothing has yet.</summary>
internal sealed class NewNames(Layout layout)
{
    private readonly HashSet<string> _taken =
    [
        .. layout.Track.Select(piece => piece.Id.Name),
        .. layout.Wiring.Switches.Select(hand => hand.Name.Name),
    ];

    /// <summary><c>T1</c>, <c>T2</c>, …</summary>
    public PieceId Next(string stem)
    {
        for (int number = 1; ; number++)
        {
            if (_taken.Add(Name(stem, number)))
            {
                return new(Name(stem, number));
            }
        }
    }

    /// <summary>A name beside another: <c>loop-2</c> beside <c>loop</c>, the next free number of <c>main-1</c>.</summary>
    public PieceId Beside(PieceId piece)
    {
        int dash = piece.Name.LastIndexOf('-');
        bool isNumbered = dash > 0 && int.TryParse(piece.Name.AsSpan(dash + 1), NumberStyles.None, CultureInfo.InvariantCulture, out _);
        string stem = isNumbered ? piece.Name[..(dash + 1)] : piece.Name + "-";
        stem = stem.Length > LayoutLimits.NameCharacters - 7 ? "track-" : stem;
        _taken.Add(Name(stem, 1));
        return Next(stem);
    }

    private static string Name(string stem, int number) => string.Create(CultureInfo.InvariantCulture, $"{stem}{number}");
}
