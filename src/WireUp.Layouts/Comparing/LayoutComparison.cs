using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts.Comparing;

namespace WireUp.Layouts;

/// <summary>What has to be done to make one layout out of another.</summary>
/// <param name="Before">The earlier layout, with its renamed pieces under the names they have in the later one.</param>
/// <param name="After">The later layout.</param>
/// <param name="Differences">The differences by part, in the order of the files.</param>
/// <param name="Renamed">Pieces with another name in the later layout, where that is sure: everything about such a piece and all of its joints is the same.</param>
public sealed record LayoutComparison(
    Layout Before, Layout After, ImmutableArray<LayoutDifference> Differences, FrozenDictionary<PieceId, PieceId> Renamed)
{
    /// <summary>Compares two layouts by what their files say; order and comments do not count.</summary>
    /// <param name="before">The earlier layout, as the reader makes it.</param>
    /// <param name="after">The later layout, as the reader makes it.</param>
    public static LayoutComparison Of(Layout before, Layout after)
    {
        FrozenDictionary<PieceId, PieceId> renamed = PieceRenames.Find(before, after);
        Layout named = new RenamedLayout(renamed).Of(before);
        IEnumerable<LayoutDifference> renames = before.Track.Where(piece => renamed.ContainsKey(piece.Id)).Select(piece =>
            new LayoutDifference(LayoutPart.Track, DifferenceKind.Renamed, renamed[piece.Id].Name)
            {
                Before = piece.Id.Name,
                After = renamed[piece.Id].Name,
                Piece = renamed[piece.Id],
            });
        return new(named, after, [.. renames.Concat(new DifferenceFinder(named, after).All()).OrderBy(one => one.Part)], renamed);
    }
}
