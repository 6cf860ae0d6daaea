using System.Collections.Immutable;
using WireUp.Layouts.Text;
using WireUp.Layouts.Writing;

namespace WireUp.Layouts.Tracing.Edits;

/// <summary>Takes values out of a text, or puts others in their place, and leaves the rest as it stands.</summary>
internal sealed class NodeEdits(string text)
{
    private static readonly System.Buffers.SearchValues<char> LineBreaks = System.Buffers.SearchValues.Create("\r\n");

    /// <summary>Another text in the place of a value.</summary>
    public static TextEdit Replace(TextNode node, string value) => new(node.Start.Index, node.End.Index - node.Start.Index, value);

    /// <summary>Takes an entry out of a mapping.</summary>
    public TextEdit Remove(TextNode.Mapping mapping, TextEntry entry)
    {
        int at = mapping.Entries.IndexOf(entry);
        return mapping.IsFlow
            ? FlowItem(at, [.. mapping.Entries.Select(each => (each.Key.Start.Index, EndOf(each)))])
            : at == 0 && IsBehindDash(entry.Key.Start.Index) && mapping.Entries.Length > 1
                ? new(entry.Key.Start.Index, mapping.Entries[1].Key.Start.Index - entry.Key.Start.Index, "")
                : Lines(entry.Key.Start.Index, EndOf(entry));
    }

    /// <summary>Takes an item out of a list.</summary>
    public TextEdit Remove(TextNode.Sequence list, TextNode item) => list.IsFlow
        ? FlowItem(list.Items.IndexOf(item), [.. list.Items.Select(each => (each.Start.Index, each.End.Index))])
        : Lines(item.Start.Index, item.End.Index);

    /// <summary>Puts items behind one of a list, each on a line of its own where the list has lines.</summary>
    public TextEdit AddBehind(TextNode.Sequence list, TextNode item, IEnumerable<string> added)
    {
        if (list.IsFlow)
        {
            return new(item.End.Index, 0, string.Concat(added.Select(each => ", " + each)));
        }

        int end = EndOfLine(item.End.Index);
        string indent = new(' ', list.Start.Column - 1);
        return new(end, 0, string.Concat(added.Select(each => $"{LineEnd}{indent}- {each}")));
    }

    private string LineEnd => text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";

    private static int EndOf(TextEntry entry) => entry.Value is TextNode.Scalar { IsNull: true, Value: "" } ? entry.Key.End.Index + 1 : entry.Value.End.Index;

    /// <summary>With the comma before it, or of the first item the one behind it.</summary>
    private static TextEdit FlowItem(int at, ImmutableArray<(int Start, int End)> items)
    {
        (int from, int to) = (at, items.Length) switch
        {
            (_, 1) => items[0],
            (0, _) => (items[0].Start, items[1].Start),
            _ => (items[at - 1].End, items[at].End),
        };
        return new(from, to - from, "");
    }

    /// <summary>The lines on which something stands, whole, with a comment behind it.</summary>
    private TextEdit Lines(int start, int end)
    {
        int from = start > 0 ? text.LastIndexOfAny(['\r', '\n'], start - 1) + 1 : 0;
        // A block scalar ends at the beginning of the next line.
        int to = end > 0 && text[end - 1] == '\n' ? end : AfterLineBreak(EndOfLine(end));
        return new(from, to - from, "");
    }

    private bool IsBehindDash(int index) => text.AsSpan(0, index).TrimEnd(' ').EndsWith("-");

    private int EndOfLine(int index)
    {
        int rest = text.AsSpan(index).IndexOfAny(LineBreaks);
        return rest < 0 ? text.Length : index + rest;
    }

    private int AfterLineBreak(int index) => index >= text.Length ? index
        : text.AsSpan(index).StartsWith("\r\n") ? index + 2
        : index + 1;
}
