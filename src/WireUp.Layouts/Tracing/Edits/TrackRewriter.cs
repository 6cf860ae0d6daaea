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

    /// <summary>The text with the change.</summary>
    /// <param name="text">The text as it is.</param>
    /// <param name="before">The layout that it describes; where that has no piece yet, one without pieces.</param>
    /// <param name="change">The change.</param>
    public static string Write(string text, Layout before, TrackChange change)
    {
        if (text.StartsWith(LayoutReader.ByteOrderMark))
        {
            return LayoutReader.ByteOrderMark + Write(text[1..], before, change);
        }

        ReferenceEdits references = new(before, change);
        ChainEdits chains = new(before, change);
        text = Edited(text, root => references.Replacements(root).Concat(Names(root, change)));
        text = Edited(text, root => Chains(text, root, chains));
        text = Without(text, root => references.FirstGone(root) ?? FirstGone(root, change));
        foreach ((PieceId piece, string key, string? value) in change.Keys)
        {
            text = Edited(text, root => [Key(text, root, (change.NameOf(piece), key, value))]);
        }

        if (!change.Added.IsEmpty)
        {
            Snippet.Map added = new([.. change.Added.Select(piece => (ScalarText.Write(piece.Name.Name), (Snippet)piece.Text))]);
            text = Edited(text, root => [new TextInsertion(text).Add(root, ["track"], added)]);
        }

        ImmutableArray<string> rest = chains.Rest();
        return rest.IsEmpty ? text : Edited(text, root => [new TextInsertion(text).Add(root, ["joined"], new Snippet.List(rest))]);
    }

    private static IEnumerable<TextEdit> Names(TextNode root, TrackChange change) =>
        Track(root).Entries.Where(entry => change.Renamed.ContainsKey(new(entry.Key.Value)))
            .Select(entry => NodeEdits.Replace(entry.Key, ScalarText.Write(change.NameOf(new(entry.Key.Value)).Name)));

    private static IEnumerable<TextEdit> Chains(string text, TextNode root, ChainEdits chains)
    {
        NodeEdits edits = new(text);
        if (Value(root, "joined") is not TextNode.Sequence list)
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

    private static string Without(string text, Func<TextNode, (TextNode Parent, object Child)?> firstGone)
    {
        for (int i = 0; i < MostRemovals; i++)
        {
            if (firstGone(Tree(text)) is not { } gone)
            {
                return text;
            }

            NodeEdits edits = new(text);
            text = TextEdit.Apply(text, [gone.Child is TextEntry entry ? edits.Remove((TextNode.Mapping)gone.Parent, entry) : edits.Remove((TextNode.Sequence)gone.Parent, (TextNode)gone.Child)]);
        }

        throw new InvalidOperationException("what is to be taken out of the file comes back");
    }

    private static TextEdit Key(string text, TextNode root, (PieceId Piece, string Key, string? Value) set)
    {
        TextNode.Mapping piece = (TextNode.Mapping)Track(root).Entries.First(entry => entry.Key.Value == set.Piece.Name).Value;
        TextEntry? old = piece.Entries.FirstOrDefault(entry => entry.Key.Value == set.Key);
        return (old, set.Value) switch
        {
            (null, null) => new(0, 0, ""),
            (not null, null) => new NodeEdits(text).Remove(piece, old),
            ({ Value: TextNode.Sequence or TextNode.Mapping }, { } value) => NodeEdits.Replace(old.Value, value),
            (_, { } value) => new TextInsertion(text).Set(piece, set.Key, value),
        };
    }

    private static string Edited(string text, Func<TextNode, IEnumerable<TextEdit>> edits) => TextEdit.Apply(text, edits(Tree(text)));

    private static TextNode Tree(string text)
    {
        ProblemList problems = new("");
        return TextTreeBuilder.Build(text, problems) ?? throw new InvalidOperationException($"the text cannot be read: {problems.InOrder()[0]}");
    }

    private static TextNode.Mapping Track(TextNode root) =>
        Value(root, "track") as TextNode.Mapping ?? new TextNode.Mapping([], true, root.Start, root.Start);

    private static TextNode? Value(TextNode? node, string key) =>
        (node as TextNode.Mapping)?.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;
}
