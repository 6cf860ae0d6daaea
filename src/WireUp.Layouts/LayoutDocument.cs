using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts;

/// <summary>
/// A layout file as the person wrote it, comments, order and all. Additions go into the text where they belong; everything that
/// stands there stays as it is, byte for byte.
/// </summary>
public sealed class LayoutDocument
{
    private readonly Lazy<LayoutReading> _reading;

    private LayoutDocument(string text, string fileName) => (Text, FileName, _reading) = (text, fileName, new(() => LayoutFile.Read(text, fileName)));

    /// <summary>The text, exactly as given, or with what was added to it.</summary>
    public string Text { get; }

    /// <summary>The name of the file, for messages.</summary>
    public string FileName { get; }

    /// <summary>What the text says; read once, when it is first asked for.</summary>
    public LayoutReading Reading => _reading.Value;

    /// <summary>The document of a text.</summary>
    /// <param name="text">The whole text of the file.</param>
    /// <param name="fileName">Its name, for messages only.</param>
    public static LayoutDocument Open(string text, string fileName) => new(text, fileName);

    /// <summary>The document with everything that a changed layout has more: wiring, and contacts for frogs.</summary>
    /// <param name="after">The layout of this document with additions; other differences are not written.</param>
    /// <exception cref="InvalidOperationException">The document has errors, so there is nothing to add to.</exception>
    /// <exception cref="ArgumentException">Something wired is missing or different in <paramref name="after"/>, or the result would have errors.</exception>
    public LayoutDocument WithAdded(Layout after)
    {
        Layout before = RequireLayout();
        return WithContacts(before, after).WithAdded(before.Wiring, after.Wiring);
    }

    /// <summary>The document with its wiring grown to what is given.</summary>
    /// <param name="after">All that is wired; it holds everything the document has already.</param>
    /// <exception cref="InvalidOperationException">The document has errors.</exception>
    /// <exception cref="ArgumentException">Something is missing or different in <paramref name="after"/>, or the result would have errors.</exception>
    public LayoutDocument WithWiring(Wiring after) => WithAdded(RequireLayout().Wiring, after);

    /// <summary>The document with what one wiring has more than another.</summary>
    /// <param name="before">What is wired already.</param>
    /// <param name="after">The same with additions.</param>
    /// <exception cref="InvalidOperationException">The document has errors.</exception>
    /// <exception cref="ArgumentException">Something of <paramref name="before"/> is missing or different, or the result would have errors.</exception>
    public LayoutDocument WithAdded(Wiring before, Wiring after)
    {
        Layout layout = RequireLayout();
        string text = Text;
        WiringAdditions additions = new(layout.Control, before, after) { BusWires = BusWires() };
        foreach ((ImmutableArray<string> path, Snippet added) in additions.All())
        {
            text = Edited(text, (insertion, root) => [insertion.Add(root, path, added)]);
        }

        LayoutDocument changed = Checked(text);

        // Whatever should be there and is not makes this throw: no file is ever left half written without a word.
        _ = new WiringAdditions(layout.Control, after, changed.Reading.Layout!.Wiring) { BusWires = BusWires() }.All();
        return changed;
    }

    /// <summary>The document with another picture to draw over, or with none. Comments and order stay.</summary>
    /// <param name="picture">The picture; null takes out the one that is there.</param>
    /// <exception cref="ArgumentException">The text cannot be read, or takes no picture as it is written.</exception>
    public LayoutDocument WithPicture(PlanPicture? picture)
    {
        string text = Edited(Text, (insertion, root) => root is not TextNode.Mapping map ? []
            : picture is null ? PictureText.Remove(Text.TrimStart(LayoutReader.ByteOrderMark), map)
            : PictureText.Replace(insertion, map, picture));
        LayoutDocument changed = new(text, FileName);
        return (changed.Reading.Layout ?? changed.Reading.Blank)?.Picture == picture
            ? changed
            : throw new ArgumentException("the picture cannot be written into the text as it stands", nameof(picture));
    }

    private LayoutDocument WithContacts(Layout before, Layout after)
    {
        Dictionary<PieceId, Piece> old = before.Track.ToDictionary(piece => piece.Id);
        HashSet<string> fed = [.. after.Track
            .Where(piece => FeedOf(piece) == FrogFeed.Contact && old.GetValueOrDefault(piece.Id) is { } was && FeedOf(was) == FrogFeed.None)
            .Select(piece => piece.Id.Name)];
        if (fed.Count == 0)
        {
            return this;
        }

        return Checked(Edited(Text, (insertion, root) =>
        {
            TextNode.Mapping track = (TextNode.Mapping)Value(root, "track")!;
            return track.Entries.Where(entry => fed.Contains(entry.Key.Value))
                .Select(entry => insertion.Set((TextNode.Mapping)entry.Value, "frog-feed", "contact"));
        }));
    }

    private static FrogFeed? FeedOf(Piece piece) => piece switch
    {
        Piece.Turnout turnout => turnout.Feed,
        Piece.MultiTurnout turnout => turnout.Feed,
        Piece.Crossing crossing => crossing.Feed,
        Piece.Slip slip => slip.Feed,
        Piece.Scissors scissors => scissors.Feed,
        _ => null,
    };

    /// <summary>The wire that each bus of the text names for all its runs.</summary>
    private Dictionary<string, string> BusWires()
    {
        Dictionary<string, string> wires = new(StringComparer.Ordinal);
        TextNode? buses = Value(Value(TextTreeBuilder.Build(Text.TrimStart(LayoutReader.ByteOrderMark), new ProblemList("")), "wiring"), "bus");
        foreach (TextEntry bus in (buses as TextNode.Mapping)?.Entries ?? [])
        {
            if (Value(bus.Value, "wire") is TextNode.Scalar wire && WireText.TryRead(wire.Value, out _, out _) is { } read)
            {
                wires[bus.Key.Value] = read.ToString()!;
            }
        }

        return wires;
    }

    private static TextNode? Value(TextNode? node, string key) =>
        (node as TextNode.Mapping)?.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;

    private Layout RequireLayout() =>
        Reading.Layout ?? throw new InvalidOperationException($"'{FileName}' has errors: nothing can be added before they are mended");

    private static string Edited(string text, Func<TextInsertion, TextNode, IEnumerable<TextEdit>> edits)
    {
        if (text.StartsWith(LayoutReader.ByteOrderMark))
        {
            return LayoutReader.ByteOrderMark + Edited(text[1..], edits);
        }

        ProblemList problems = new("");
        TextNode root = TextTreeBuilder.Build(text, problems) ?? throw new ArgumentException($"the text cannot be read: {problems.InOrder()[0]}", nameof(text));
        return TextEdit.Apply(text, edits(new TextInsertion(text), root));
    }

    private LayoutDocument Checked(string text)
    {
        LayoutDocument changed = new(text, FileName);
        return changed.Reading.Layout is null
            ? throw new ArgumentException($"the addition does not fit: {changed.Reading.Problems[0]}", nameof(text))
            : changed;
    }
}
