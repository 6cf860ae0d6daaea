using System.Collections.Immutable;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Makes a change of the track in the text of a layout file: comments, order and all that the change does not touch stay as they are.</summary>
internal static class TrackRewriter
{
    // Every step takes something out, so that there are never more steps than parts of the file; this only guards against a defect.
    private const int MostRemovals = 100_000;

    /// <summary>The document with the change.</summary>
    /// <param name="document">The layout file as it is.</param>
    /// <param name="tree">Its text with its tree.</param>
    /// <param name="before">The layout that it describes; where that has no piece yet, one without pieces.</param>
    /// <param name="change">The change.</param>
    public static LayoutDocument Write(LayoutDocument document, TextTree tree, Layout before, TrackChange change)
    {
        ReferenceEdits references = new(before, change);
        ChainEdits chains = new(before, change);
        tree = tree.With(references.Replacements(tree.Root).Concat(Names(tree.Root, change)));
        tree = tree.With(Chains(tree, chains));
        tree = Without(tree, root => references.FirstGone(root) ?? FirstGone(root, change));
        foreach ((PieceId piece, string key, string? value) in change.Keys)
        {
            tree = tree.With([Key(tree, (change.NameOf(piece), key, value))]);
        }

        if (!change.Added.IsEmpty)
        {
            Snippet.Map added = new([.. change.Added.Select(piece => (ScalarText.Write(piece.Name.Name), (Snippet)piece.Text))]);
            tree = tree.With([new TextInsertion(tree.Text).Add(tree.Root, ["track"], added)]);
        }

        ImmutableArray<string> rest = chains.Rest();
        tree = rest.IsEmpty ? tree : tree.With([new TextInsertion(tree.Text).Add(tree.Root, ["joined"], new Snippet.List(rest))]);
        return LayoutDocument.Open(document.Text.StartsWith(LayoutReader.ByteOrderMark) ? LayoutReader.ByteOrderMark + tree.Text : tree.Text, document.FileName);
    }

    private static IEnumerable<TextEdit> Names(TextNode root, TrackChange change) =>
        Track(root).Entries.Where(entry => change.Renamed.ContainsKey(new(entry.Key.Value)))
            .Select(entry => NodeEdits.Replace(entry.Key, ScalarText.Write(change.NameOf(new(entry.Key.Value)).Name)));

    private static IEnumerable<TextEdit> Chains(TextTree tree, ChainEdits chains)
    {
        NodeEdits edits = new(tree.Text);
        if (tree.Value("joined") is not TextNode.Sequence list)
        {
            yield break;
        }

        foreach (TextNode.Scalar chain in list.Items.OfType<TextNode.Scalar>())
        {
            if (chains.Of(chain) is not { } now)
            {
                continue;
            }

            // An empty chain marks what is to go; the next step takes it out.
            yield return NodeEdits.Replace(chain, now.IsEmpty ? Gone : now[0]);
            if (now.Length > 1)
            {
                yield return edits.AddBehind(list, chain, now.Skip(1));
            }
        }
    }

    private const string Gone = "\"\"";

    private static (TextNode Parent, object Child)? FirstGone(TextNode root, TrackChange change)
    {
        if (Value(root, "joined") is TextNode.Sequence joined && joined.Items.FirstOrDefault(item => item is TextNode.Scalar { Value: "" }) is { } chain)
        {
            return (joined, chain);
        }

        TextNode.Mapping track = Track(root);
        return track.Entries.FirstOrDefault(entry => change.Removed.Contains(new(entry.Key.Value))) is { } piece ? (track, piece) : null;
    }

    private static TextTree Without(TextTree tree, Func<TextNode, (TextNode Parent, object Child)?> firstGone)
    {
        for (int i = 0; i < MostRemovals; i++)
        {
            if (firstGone(tree.Root) is not { } gone)
            {
                return tree;
            }

            NodeEdits edits = new(tree.Text);
            tree = tree.With([gone.Child is TextEntry entry ? edits.Remove((TextNode.Mapping)gone.Parent, entry) : edits.Remove((TextNode.Sequence)gone.Parent, (TextNode)gone.Child)]);
        }

        throw new InvalidOperationException("what is to be taken out of the file comes back");
    }

    private static TextEdit Key(TextTree tree, (PieceId Piece, string Key, string? Value) set)
    {
        TextNode.Mapping piece = (TextNode.Mapping)Track(tree.Root).Entries.First(entry => entry.Key.Value == set.Piece.Name).Value;
        TextEntry? old = piece.Entries.FirstOrDefault(entry => entry.Key.Value == set.Key);
        return (old, set.Value) switch
        {
            (null, null) => new(0, 0, ""),
            (not null, null) => new NodeEdits(tree.Text).Remove(piece, old),
            ({ Value: TextNode.Sequence or TextNode.Mapping }, { } value) => NodeEdits.Replace(old.Value, value),
            (_, { } value) => new TextInsertion(tree.Text).Set(piece, set.Key, value),
        };
    }

    private static TextNode.Mapping Track(TextNode root) =>
        Value(root, "track") as TextNode.Mapping ?? new TextNode.Mapping([], true, root.Start, root.Start);

    private static TextNode? Value(TextNode? node, string key) =>
        (node as TextNode.Mapping)?.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;
}
