using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>A district of a zone that is known by name.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Holds">Which cells it must hold.</param>
/// <param name="BuiltMetres">Of one that is built: the track that its breaker carries; null for one that is asked for.</param>
internal sealed record NamedDistrict(string Name, Func<TrackCell, bool> Holds, double? BuiltMetres);

/// <summary>What is asked of the division of one zone.</summary>
/// <param name="Named">Districts of a name.</param>
/// <param name="NameOf">The district that a piece must be in, or null.</param>
/// <param name="Apart">Tracks no two of which may share a district.</param>
/// <param name="WayRound">Whether a dead district should leave a way round it.</param>
internal sealed record DivisionWishes(
    ImmutableArray<NamedDistrict> Named, Func<PieceId, string?> NameOf, ImmutableArray<ApartWish> Apart, bool WayRound)
{
    private readonly ILookup<PieceId, string> _tracks = Apart
        .SelectMany((wish, i) => wish.Tracks.SelectMany((pieces, track) => pieces.Select(piece => (piece, Text: $"{Number(i)}/{Number(track)}"))))
        .ToLookup(pair => pair.piece, pair => pair.Text);

    /// <summary>The named district that a cell must go to, or null.</summary>
    public string? NameOfCell(TrackCell cell) => Named.Where(each => each.Holds(cell)).Select(each => each.Name).FirstOrDefault();

    /// <summary>What a piece may not be drawn together with: cells of unlike labels stay apart. Null for track that nothing is asked of.</summary>
    public string? LabelOf(PieceId piece) => LabelOf(NameOf(piece), [piece]);

    /// <summary>The label of a cell.</summary>
    public string? LabelOf(TrackCell cell) => LabelOf(NameOfCell(cell), cell.Pieces);

    /// <summary>Cells that hold tracks to be kept apart; a cell that holds two of them is apart from itself.</summary>
    public IEnumerable<(int One, int Other)> ApartCells(CellGraph cells) =>
        from wish in Apart
        let holders = wish.Tracks.Select(track => cells.Cells.Where(cell => cell.Pieces.Any(track.Contains)).Select(cell => cell.Index).ToArray()).ToArray()
        from first in Enumerable.Range(0, holders.Length)
        from second in Enumerable.Range(first + 1, holders.Length - first - 1)
        from one in holders[first]
        from other in holders[second]
        select (one, other);

    /// <summary>No fewer districts will do, whatever their length.</summary>
    /// <param name="holds">Whether the zone holds a piece.</param>
    public int FewestApart(Func<PieceId, bool> holds) => Apart.Select(wish => wish.Tracks.Count(track => track.Any(holds))).DefaultIfEmpty(0).Max();

    private string? LabelOf(string? name, IEnumerable<PieceId> pieces)
    {
        string tracks = string.Join(' ', pieces.SelectMany(piece => _tracks[piece]).Distinct().Order(StringComparer.Ordinal));
        return name is null && tracks.Length == 0 ? null : $"{name} {tracks}";
    }

    private static string Number(int number) => number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
