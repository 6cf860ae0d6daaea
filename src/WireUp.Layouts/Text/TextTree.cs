using WireUp.Layouts.Reading;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Text;

/// <summary>A text that can be read, and its tree, found once however many edits ask for it.</summary>
internal sealed class TextTree
{
    private readonly Lazy<TextNode> _root;

    /// <summary>The tree of a text; a mark of byte order before it is left out.</summary>
    public TextTree(string text)
    {
        Text = text.StartsWith(LayoutReader.ByteOrderMark) ? text[1..] : text;
        _root = new(() => Parsed(Text));
    }

    /// <summary>The text.</summary>
    public string Text { get; }

    /// <summary>Its tree.</summary>
    /// <exception cref="InvalidOperationException">The text cannot be read.</exception>
    public TextNode Root => _root.Value;

    /// <summary>The value of a key of the whole text, or null.</summary>
    public TextNode? Value(string key) => (Root as TextNode.Mapping)?.Entries.FirstOrDefault(entry => entry.Key.Value == key)?.Value;

    /// <summary>The text with edits made; the same where there are none.</summary>
    public TextTree With(IEnumerable<TextEdit> edits)
    {
        TextEdit[] made = [.. edits];
        return made.Length == 0 ? this : new(TextEdit.Apply(Text, made));
    }

    private static TextNode Parsed(string text)
    {
        ProblemList problems = new("");
        return TextTreeBuilder.Build(text, problems) ?? throw new InvalidOperationException($"the text cannot be read: {problems.InOrder()[0]}");
    }
}
