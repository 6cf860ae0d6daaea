using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WireUp.Layouts.Text;

/// <summary>
/// Turns the events of the YAML parser into a tree with positions, within <see cref="LayoutLimits"/>. Nothing here recurses, so
/// that no nesting can exhaust the stack, and aliases are refused before anything can multiply.
/// </summary>
internal sealed class TextTreeBuilder
{
    private readonly ProblemList _problems;
    private readonly Stack<OpenNode> _open = [];
    private TextNode? _root;
    private int _documents;

    private TextTreeBuilder(ProblemList problems) => _problems = problems;

    /// <summary>The tree of a text, or null when it is not YAML or passes a limit.</summary>
    public static TextNode? Build(string text, ProblemList problems)
    {
        if (text.Length > LayoutLimits.Characters)
        {
            problems.Add(LayoutRules.LimitPassed, new(1, 1, 0), "", $"the file has {text.Length} characters",
                $"at most {LayoutLimits.Characters}");
            return null;
        }

        TextTreeBuilder builder = new(problems);
        if (text.IndexOf('\0', StringComparison.Ordinal) is >= 0 and var end)
        {
            // The parser would take it for the end of the file, and what comes after would be lost without a word.
            int start = text.LastIndexOf('\n', end) + 1;
            builder.NotYaml(new(text.AsSpan(0, end).Count('\n') + 1, end - start + 1, end), "a character without meaning (NUL) stands here");
            return null;
        }

        return builder.ReadAll(text) ? builder._root : null;
    }

    private bool ReadAll(string text)
    {
        Parser parser = new(new Scanner(new StringReader(text)));
        try
        {
            for (int parts = 0; parser.MoveNext(); parts++)
            {
                ParsingEvent part = parser.Current!;
                if (parts > LayoutLimits.Parts)
                {
                    return Limit(part, $"the file has more than {LayoutLimits.Parts} parts", "a smaller file");
                }

                if (!Take(part))
                {
                    return false;
                }
            }

            return true;
        }
        catch (YamlException e)
        {
            TextPosition at = PositionOf(e.Start);
            return at.Line > CountLines(text) ? NotClosed()
                : TabNear(text, at) is { } tab ? NotYaml(tab, "a tab stands before the first word of the line")
                : NotYaml(at, e.Message);
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or FormatException or OverflowException)
        {
            // The parser throws these, with no place, for some broken texts: an unclosed bracket before a key, for instance.
            return NotClosed();
        }
    }

    private bool NotClosed()
    {
        TextPosition at = (_open.FirstOrDefault(open => open.IsFlow) ?? _open.FirstOrDefault())?.Start ?? new(1, 1, 0);
        return NotYaml(at, "something is opened here and not closed");
    }

    private bool NotYaml(TextPosition at, string why)
    {
        _problems.Add(LayoutRules.NotYaml, at, "", $"the text cannot be read as YAML: {ProblemList.Shorten(why)}",
            "closed brackets and quotes, spaces (no tabs) before keys, \": \" after each");
        return false;
    }

    /// <summary>Lines of the text: what is opened and never closed is reported on the line behind the last one.</summary>
    private static int CountLines(string text) => 1 + text.AsSpan().Count('\n') + text.AsSpan().Count('\u0085') + text.AsSpan().Count('\u2028')
        + text.AsSpan().Count('\u2029') + text.AsSpan().Count('\r') - text.AsSpan().Count("\r\n");

    /// <summary>A tab in the indentation of the line of an error or of the next one: the parser reports either.</summary>
    private static TextPosition? TabNear(string text, TextPosition at)
    {
        int lineStart = at.Index == 0 ? 0 : text.LastIndexOf('\n', Math.Min(at.Index, text.Length) - 1) + 1;
        for (int line = at.Line; line <= at.Line + 1; line++)
        {
            int indent = text.AsSpan(lineStart).IndexOfAnyExcept(' ', '\t');
            int tab = text.AsSpan(lineStart, Math.Max(indent, 0)).IndexOf('\t');
            if (tab >= 0)
            {
                return new TextPosition(line, tab + 1, lineStart + tab);
            }

            int lineEnd = text.IndexOf('\n', lineStart);
            if (lineEnd < 0)
            {
                return null;
            }

            lineStart = lineEnd + 1;
        }

        return null;
    }

    private bool Limit(ParsingEvent part, string message, string expected)
    {
        _problems.Add(LayoutRules.LimitPassed, PositionOf(part.Start), "", message, expected);
        return false;
    }

    private bool Refuse(ParsingEvent part, string text, string message, string expected)
    {
        _problems.Add(LayoutRules.YamlFeature, PositionOf(part.Start), text, message, expected);
        return false;
    }

    private bool Take(ParsingEvent part) => part switch
    {
        AnchorAlias alias => Refuse(part, $"*{alias.Value}", "aliases are not used in layout files", "the value itself"),
        NodeEvent { Anchor.IsEmpty: false } node => Refuse(part, $"&{node.Anchor}", "anchors are not used in layout files", "the value without a mark"),
        NodeEvent { Tag.IsEmpty: false } node => Refuse(part, node.Tag.Value, "tags are not used in layout files", "the value without a tag"),
        DocumentStart when ++_documents > 1 => Refuse(part, "---", "the file holds more than one document", "one layout a file"),
        Scalar scalar => TakeScalar(scalar),
        MappingStart start => Open(start, isMapping: true, start.Style == MappingStyle.Flow),
        SequenceStart start => Open(start, isMapping: false, start.Style == SequenceStyle.Flow),
        MappingEnd or SequenceEnd => Close(part),
        _ => true,
    };

    private bool TakeScalar(Scalar scalar)
    {
        if (scalar.Value.Length > LayoutLimits.ScalarCharacters)
        {
            return Limit(scalar, $"a value has {scalar.Value.Length} characters", $"at most {LayoutLimits.ScalarCharacters}");
        }

        bool plain = scalar.Style == ScalarStyle.Plain;
        bool isNull = plain && scalar.Value is "" or "~" or "null";
        return Add(new TextNode.Scalar(scalar.Value, plain, isNull, PositionOf(scalar.Start), PositionOf(scalar.End)));
    }

    private bool Open(ParsingEvent start, bool isMapping, bool isFlow)
    {
        if (_open.Count >= LayoutLimits.Depth)
        {
            return Limit(start, $"values are nested more than {LayoutLimits.Depth} levels deep", "a flatter file");
        }

        if (_open.TryPeek(out OpenNode? parent) && parent is { IsMapping: true, Key: null })
        {
            _problems.Add(LayoutRules.WrongShape, PositionOf(start.Start), "", "a key cannot be a list or a mapping", "a word as key");
            return false;
        }

        _open.Push(new OpenNode(isMapping, isFlow, PositionOf(start.Start)));
        return true;
    }

    private bool Close(ParsingEvent end)
    {
        OpenNode open = _open.Pop();
        return Add(open.Close(PositionOf(end.Start)));
    }

    private bool Add(TextNode node)
    {
        if (!_open.TryPeek(out OpenNode? parent))
        {
            _root = node;
        }
        else if (parent.IsMapping)
        {
            parent.AddToMapping(node, _problems);
        }
        else
        {
            parent.Items.Add(node);
        }

        return true;
    }

    private static TextPosition PositionOf(Mark mark) => new((int)mark.Line, (int)mark.Column, (int)mark.Index);

    private sealed class OpenNode(bool isMapping, bool isFlow, TextPosition start)
    {
        private readonly List<TextEntry> _entries = [];
        private readonly HashSet<string> _keys = new(StringComparer.Ordinal);

        public bool IsMapping => isMapping;

        public bool IsFlow => isFlow;

        public TextPosition Start => start;

        public List<TextNode> Items { get; } = [];

        public TextNode.Scalar? Key { get; private set; }

        public void AddToMapping(TextNode node, ProblemList problems)
        {
            if (Key is null)
            {
                Key = (TextNode.Scalar)node;
                return;
            }

            if (_keys.Add(Key.Value))
            {
                _entries.Add(new TextEntry(Key, node));
            }
            else
            {
                problems.Add(LayoutRules.KeyTwice, Key.Start, Key.Value, $"\"{ProblemList.Shorten(Key.Value)}\" is written twice here",
                    "each name once");
            }

            Key = null;
        }

        public TextNode Close(TextPosition closing) => isMapping
            ? new TextNode.Mapping([.. _entries], isFlow, start, EndOf(_entries.Count > 0 ? _entries[^1].Value : null, closing))
            : new TextNode.Sequence([.. Items], isFlow, start, EndOf(Items.Count > 0 ? Items[^1] : null, closing));

        private TextPosition EndOf(TextNode? last, TextPosition closing) => isFlow ? closing.Plus(1) : last?.End ?? closing;
    }
}
