using System.Collections.Frozen;
using System.Globalization;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Comparing;

/// <summary>
/// Finds pieces that have another name in a later layout. Pieces of names that only one of the layouts has are told apart by what they
/// are and what they are joined to, again and again until nothing more can be told (colour refinement); what then is alone of its kind in
/// both layouts is a pair, so long as every joint of one is a joint of the other.
/// </summary>
internal sealed class PieceRenames
{
    /// <summary>A chain of renamed pieces is told apart one piece further in each round; longer ones stay alike and are not paired.</summary>
    private const int MostRounds = 100;

    private readonly LayoutIndex _before;
    private readonly LayoutIndex _after;
    private readonly Dictionary<PieceId, string> _kindsBefore;
    private readonly Dictionary<PieceId, string> _kindsAfter;

    private PieceRenames(Layout before, Layout after)
    {
        (_before, _after) = (new(before), new(after));
        _kindsBefore = Loose(before, _after);
        _kindsAfter = Loose(after, _before);
    }

    /// <summary>The later name of each renamed piece by its earlier one.</summary>
    public static FrozenDictionary<PieceId, PieceId> Find(Layout before, Layout after)
    {
        PieceRenames renames = new(before, after);
        if (renames._kindsBefore.Count > 0 && renames._kindsAfter.Count > 0)
        {
            renames.Refine();
        }

        return renames.Sure(renames.Pairs()).ToFrozenDictionary();
    }

    private static Dictionary<PieceId, string> Loose(Layout layout, LayoutIndex other) => layout.Track
        .Where(piece => other.FindPiece(piece.Id) is null)
        .ToDictionary(piece => piece.Id, piece => PieceText.Of(piece).Flow);

    private void Refine()
    {
        int kinds = 0;
        for (int round = 0; round < MostRounds; round++)
        {
            Dictionary<string, string> names = new(StringComparer.Ordinal);
            Next(_before, _kindsBefore, names);
            Next(_after, _kindsAfter, names);
            if (names.Count == kinds)
            {
                return;
            }

            kinds = names.Count;
        }
    }

    /// <summary>Tells pieces apart by their neighbours; kinds get short names, the same in both layouts.</summary>
    private static void Next(LayoutIndex layout, Dictionary<PieceId, string> kinds, Dictionary<string, string> names)
    {
        (PieceId Piece, string Kind)[] next = [.. kinds.Select(loose => (loose.Key, Kind(layout, loose.Key, loose.Value, kinds)))];
        foreach ((PieceId piece, string kind) in next)
        {
            if (!names.TryGetValue(kind, out string? name))
            {
                names[kind] = name = names.Count.ToString(CultureInfo.InvariantCulture);
            }

            kinds[piece] = name;
        }
    }

    private static string Kind(LayoutIndex layout, PieceId id, string known, Dictionary<PieceId, string> kinds) =>
        $"{known} {string.Join(' ', layout.Piece(id).Ends.Select(end => layout.JointAt(end) is { } joint && layout.Opposite(end) is { } other
            ? $"{(kinds.TryGetValue(other.Piece, out string? kind) ? $"({kind})" : other.Piece.Name)}.{other.Name}{JointText.Of(joint, end, layout.Layout.Control).Flow}"
            : "-"))}";

    private Dictionary<PieceId, PieceId> Pairs()
    {
        ILookup<string, PieceId> before = _kindsBefore.ToLookup(loose => loose.Value, loose => loose.Key);
        ILookup<string, PieceId> after = _kindsAfter.ToLookup(loose => loose.Value, loose => loose.Key);
        return before.Where(group => group.Count() == 1 && after[group.Key].Count() == 1)
            .ToDictionary(group => group.Single(), group => after[group.Key].Single());
    }

    /// <summary>Without the pairs of which a joint is not in the other layout, until only sure ones are left.</summary>
    private Dictionary<PieceId, PieceId> Sure(Dictionary<PieceId, PieceId> pairs)
    {
        for (bool shrinks = true; shrinks;)
        {
            PieceId[] unsure = [.. pairs.Where(pair => !HasSameJoints(pair.Key, pair.Value, pairs)).Select(pair => pair.Key)];
            foreach (PieceId piece in unsure)
            {
                pairs.Remove(piece);
            }

            shrinks = unsure.Length > 0;
        }

        return pairs;
    }

    private bool HasSameJoints(PieceId old, PieceId now, Dictionary<PieceId, PieceId> pairs) => _before.Piece(old).EndNames.All(name =>
    {
        (TrackEnd was, TrackEnd end) = (new(old, name), new(now, name));
        (TrackEnd? met, TrackEnd? meets) = (_before.Opposite(was), _after.Opposite(end));
        if (met is not { } other || meets is not { } same)
        {
            return met is null && meets is null;
        }

        PieceId known = pairs.GetValueOrDefault(other.Piece, other.Piece);
        return new TrackEnd(known, other.Name) == same
            && JointText.Of(_before.JointAt(was)!, was, _before.Layout.Control).Flow == JointText.Of(_after.JointAt(end)!, end, _after.Layout.Control).Flow;
    });
}
