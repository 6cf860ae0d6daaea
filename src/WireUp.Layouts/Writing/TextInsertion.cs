using System.Collections.Immutable;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Writing;

/// <summary>
/// Finds where something new goes in a text that a person wrote, and in which style: on lines of its own with the indentation of
/// its neighbours, or before a closing bracket. Nothing that stands in the text is moved or changed, comments included.
/// </summary>
internal sealed class TextInsertion(string text)
{
    /// <summary>Longest line of a flow list before the next item goes on a line of its own.</summary>
    private const int Width = 110;

    /// <summary>What YAML takes for the end of a line.</summary>
    private static readonly System.Buffers.SearchValues<char> LineBreaks = System.Buffers.SearchValues.Create("\r\n\u0085\u2028\u2029");

    private readonly string _lineEnd = LineEndOf(text);

    /// <summary>The edit that adds entries to the mapping, or items to the list, at a path of keys; what is missing of the path is made.</summary>
    public TextEdit Add(TextNode root, ImmutableArray<string> path, Snippet added)
    {
        TextNode.Mapping parent = (TextNode.Mapping)root;
        for (int i = 0; i < path.Length; i++)
        {
            TextEntry? entry = parent.Entries.FirstOrDefault(entry => entry.Key.Value == path[i]);
            if (entry is null)
            {
                return AddEntries(parent, Nest(path[i..], added), Before(path[i], isRoot: i == 0), isRoot: i == 0);
            }

            if (entry.Value is TextNode.Scalar nothing)
            {
                return Fill(parent, entry.Key, nothing, path[(i + 1)..].IsEmpty ? added : Nest(path[(i + 1)..], added));
            }

            if (entry.Value is TextNode.Sequence list)
            {
                return AddItems(list, (Snippet.List)added);
            }

            parent = (TextNode.Mapping)entry.Value;
        }

        return AddEntries(parent, (Snippet.Map)added, [], isRoot: false);
    }

    /// <summary>The edit that gives an entry another single value, or adds the entry.</summary>
    public TextEdit Set(TextNode.Mapping mapping, string key, string value) =>
        mapping.Entries.FirstOrDefault(entry => entry.Key.Value == key) is { Value: TextNode.Scalar { IsNull: false } old }
            ? new TextEdit(old.Start.Index, old.End.Index - old.Start.Index, value)
            : AddEntries(mapping, Snippet.Of((key, value)), [], isRoot: false);

    /// <summary>The edit that adds entries to a mapping of the text, behind those it has.</summary>
    public TextEdit AddTo(TextNode.Mapping mapping, Snippet.Map added) => AddEntries(mapping, added, [], isRoot: false);

    private static Snippet.Map Nest(ImmutableArray<string> path, Snippet inner) =>
        new([(ScalarText.Write(path[0]), path.Length == 1 ? inner : Nest(path[1..], inner))]);

    /// <summary>Keys that come before this one where a file keeps the order of the handbook.</summary>
    private static ImmutableArray<string> Before(string key, bool isRoot)
    {
        KeySet keys = isRoot ? FormatKeys.Root : FormatKeys.Wiring;
        return keys.Holds(key) ? keys.Keys[..keys.Keys.IndexOf(key)] : [];
    }

    private TextEdit AddEntries(TextNode.Mapping mapping, Snippet.Map added, ImmutableArray<string> after, bool isRoot)
    {
        if (mapping.IsFlow)
        {
            string inner = string.Join(", ", added.Entries.Select(entry => $"{entry.Key}: {entry.Value.Flow}"));
            return AddFlow(mapping.Entries.IsEmpty ? null : EndOf(mapping.Entries[^1]), mapping.Start, inner);
        }

        TextEntry neighbour = mapping.Entries.LastOrDefault(entry => after.Contains(entry.Key.Value)) ?? mapping.Entries[^1];
        IEnumerable<string> lines = BlockLines.Of(added, mapping.Start.Column - 1);
        return AddLines(EndOf(neighbour), isRoot ? lines.Prepend("") : lines);
    }

    private TextEdit AddItems(TextNode.Sequence list, Snippet.List added)
    {
        if (!list.IsFlow)
        {
            return AddLines(list.Items[^1].End, BlockLines.Of(added, list.Start.Column - 1));
        }

        if (list.Items.IsEmpty)
        {
            return AddFlow(null, list.Start, string.Join(", ", added.Items));
        }

        TextPosition end = list.Items[^1].End;
        int column = end.Column;
        System.Text.StringBuilder inner = new();
        foreach (string item in added.Items)
        {
            bool breaks = column + item.Length > Width;
            string gap = breaks ? _lineEnd + new string(' ', list.Items[0].Start.Column - 1) : " ";
            column = (breaks ? list.Items[0].Start.Column : column + 2) + item.Length;
            inner.Append(',').Append(gap).Append(item);
        }

        return new TextEdit(end.Index, 0, inner.ToString());
    }

    /// <summary>Behind the last value of a flow collection, or behind the bracket that opens an empty one.</summary>
    private TextEdit AddFlow(TextPosition? last, TextPosition open, string inner)
    {
        if (last is not { } end)
        {
            string tail = char.IsWhiteSpace(text[open.Index + 1]) ? "" : " ";
            return new TextEdit(open.Index + 1, 0, $" {inner}{tail}");
        }

        string blank = text[end.Index - 1] == ':' ? " " : "";
        return new TextEdit(end.Index, 0, $"{blank}, {inner}");
    }

    /// <summary>Where an entry ends. The parser puts a value that is not there sometimes behind the bracket that follows.</summary>
    private TextPosition EndOf(TextEntry entry)
    {
        if (entry.Value is not TextNode.Scalar { IsNull: true, Value: "" })
        {
            return entry.Value.End;
        }

        return ColonAfter(entry.Key) is { } colon ? entry.Key.End.Plus(colon + 1 - entry.Key.End.Index) : entry.Key.End;
    }

    /// <summary>The index of the colon behind a key, or null where there is none.</summary>
    private int? ColonAfter(TextNode.Scalar key)
    {
        int blanks = text.AsSpan(key.End.Index).IndexOfAnyExcept(' ', '\t');
        return blanks >= 0 && text[key.End.Index + blanks] == ':' ? key.End.Index + blanks : null;
    }

    /// <summary>Gives a key that has no value one.</summary>
    private TextEdit Fill(TextNode.Mapping parent, TextNode.Scalar key, TextNode.Scalar nothing, Snippet value)
    {
        if (nothing.Value.Length > 0)
        {
            string blank = text[nothing.Start.Index - 1] == ' ' ? "" : " ";
            return new TextEdit(nothing.Start.Index, nothing.Value.Length, blank + value.Flow);
        }

        if (parent.IsFlow)
        {
            return ColonAfter(key) is { } colon
                ? new TextEdit(colon + 1, 0, " " + value.Flow)
                : new TextEdit(key.End.Index, 0, ": " + value.Flow);
        }

        int indent = parent.Start.Column + 1;
        return AddLines(nothing.End, value is Snippet.Map map ? BlockLines.Of(map, indent) : BlockLines.Of((Snippet.List)value, indent));
    }

    /// <summary>On lines of their own behind the line on which something ends.</summary>
    private TextEdit AddLines(TextPosition end, IEnumerable<string> lines)
    {
        // A block scalar ends at the beginning of the next line.
        if (end.Column == 1 && end.Index > 0)
        {
            return new TextEdit(end.Index, 0, string.Concat(lines.Select(line => line + _lineEnd)));
        }

        int rest = text.AsSpan(end.Index).IndexOfAny(LineBreaks);
        int at = rest < 0 ? text.Length : end.Index + rest;
        return new TextEdit(at, 0, string.Concat(lines.Select(line => _lineEnd + line)));
    }

    private static string LineEndOf(string text) =>
        text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : text.Contains('\n') || !text.Contains('\r') ? "\n" : "\r";
}
