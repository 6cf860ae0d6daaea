using System.Collections.Immutable;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Merging;

/// <summary>A layout file taken apart into its entries, each with its lines.</summary>
/// <param name="Root">Its entries, under a heading of no text.</param>
/// <param name="Tail">Comments and empty lines behind the last of them.</param>
internal sealed record EntryFile(EntryNode Root, ImmutableArray<string> Tail)
{
    /// <summary>Keys whose values are tables of tables.</summary>
    private static readonly string[] Nested = ["wiring", "stock", "benchwork"];

    /// <summary>Takes a text apart, or gives null where its lines do not belong to one entry each.</summary>
    public static EntryFile? Read(string text)
    {
        string plain = text.TrimStart(LayoutReader.ByteOrderMark).Replace("\r\n", "\n", StringComparison.Ordinal);
        if (plain.AsSpan().IndexOfAny("\r\u0085\u2028\u2029") >= 0) return null;
        ProblemList problems = new("");
        TextNode? root = TextTreeBuilder.Build(plain, problems);
        if (root is not TextNode.Mapping { IsFlow: false, Entries.IsEmpty: false } mapping || problems.InOrder().Length > 0) return null;
        Lines lines = new(plain);
        ImmutableArray<EntryNode>? entries = lines.Take([.. mapping.Entries.Select(entry => new Part(entry.Key.Value, entry.Key.Start.Index, entry.Value, entry.Key))], levels: null);
        return entries is { } found ? new(new("", [], [], "", found, false), lines.Rest()) : null;
    }

    /// <summary>The text of these entries.</summary>
    /// <param name="like">A text whose ends of lines and beginning it shares.</param>
    public string Write(string like)
    {
        string end = like.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        string mark = like.StartsWith(LayoutReader.ByteOrderMark) ? LayoutReader.ByteOrderMark.ToString() : "";
        return mark + string.Join(end, Root.Children.SelectMany(child => child.Lines).Concat(Tail));
    }

    /// <summary>What a value says, whether in brackets or on lines, in quotes or without.</summary>
    private static string Said(TextNode node) => node switch
    {
        TextNode.Scalar { IsNull: true } => "~",
        TextNode.Scalar scalar => scalar.IsPlain ? scalar.Value : $"'{scalar.Value}'",
        TextNode.Sequence list => $"[{string.Join(", ", list.Items.Select(Said))}]",
        TextNode.Mapping mapping => $"{{{string.Join(", ", mapping.Entries.Select(entry => $"{entry.Key.Value}: {Said(entry.Value)}"))}}}",
        _ => throw new ArgumentOutOfRangeException(nameof(node), node, "not a value"),
    };

    private readonly record struct Part(string Key, int Start, TextNode Value, TextNode.Scalar? Name);

    /// <summary>The lines of a text, taken from top to bottom.</summary>
    private sealed class Lines
    {
        private readonly string[] _lines;
        private readonly int[] _starts;
        private int _next;

        public Lines(string text)
        {
            _lines = text.Split('\n');
            _starts = new int[_lines.Length];
            for (int i = 1; i < _lines.Length; i++) _starts[i] = _starts[i - 1] + _lines[i - 1].Length + 1;
        }

        public ImmutableArray<string> Rest() => [.. _lines[_next..]];

        /// <summary>The nodes of siblings, or null where two of them share a line.</summary>
        /// <param name="parts">The siblings.</param>
        /// <param name="levels">How many levels of entries lie under them; null at the root, where that depends on the key.</param>
        public ImmutableArray<EntryNode>? Take(ImmutableArray<Part> parts, int? levels)
        {
            ImmutableArray<EntryNode>.Builder nodes = ImmutableArray.CreateBuilder<EntryNode>(parts.Length);
            foreach (Part part in parts)
            {
                if (Take(part, levels ?? (Nested.Contains(part.Key) ? 2 : 1)) is not { } node) return null;
                nodes.Add(node);
            }

            return nodes.DrainToImmutable();
        }

        private EntryNode? Take(Part part, int levels)
        {
            int first = LineOf(part.Start);
            if (first < _next) return null;
            ImmutableArray<string> lead = [.. _lines[_next..first]];
            ImmutableArray<Part> under = levels > 0 ? Under(part) : [];
            int last = under.IsEmpty ? LineOf(EndOf(part.Value, part.Name) - 1) : LineOf(part.Name!.End.Index);
            _next = Math.Max(first, last) + 1;
            ImmutableArray<string> body = [.. _lines[first.._next]];
            return Take(under, levels - 1) is not { } children ? null
                : new(part.Key, lead, body, under.IsEmpty ? Said(part.Value) : "", children, !under.IsEmpty && part.Value is TextNode.Sequence);
        }

        private static ImmutableArray<Part> Under(Part part) => part switch
        {
            { Name: null } => [],
            { Value: TextNode.Mapping { IsFlow: false, Entries.IsEmpty: false } mapping } =>
                [.. mapping.Entries.Select(entry => new Part(entry.Key.Value, entry.Key.Start.Index, entry.Value, entry.Key))],
            { Value: TextNode.Sequence { IsFlow: false, Items.IsEmpty: false } list } =>
                [.. list.Items.GroupBy(Said).SelectMany(same => same.Select((item, i) => new Part(i == 0 ? same.Key : $"{same.Key} #{i + 1}", item.Start.Index, item, null))).OrderBy(item => item.Start)],
            _ => [],
        };

        private int LineOf(int index)
        {
            int found = Array.BinarySearch(_starts, index);
            return found >= 0 ? found : ~found - 1;
        }

        /// <summary>The index behind the last character of a value; of one that is not there behind its key.</summary>
        private static int EndOf(TextNode value, TextNode.Scalar? key) => value switch
        {
            TextNode.Scalar { IsNull: true, Value: "" } => key?.End.Index ?? value.Start.Index + 1,
            TextNode.Mapping { IsFlow: false, Entries.IsEmpty: false } mapping => EndOf(mapping.Entries[^1].Value, mapping.Entries[^1].Key),
            TextNode.Sequence { IsFlow: false, Items.IsEmpty: false } list => EndOf(list.Items[^1], null),
            _ => Math.Max(value.End.Index, value.Start.Index + 1),
        };
    }
}
