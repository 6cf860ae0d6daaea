using System.Text;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Tests.Support;

/// <summary>The same layout file as different people and programs would write it.</summary>
internal static class TextStyles
{
    public static string[] Names { get; } = ["plain", "commented", "windows", "flow", "json", "no last line end", "byte order mark", "deep indent"];

    public static string Rewrite(string text, string style, int seed) => style switch
    {
        "plain" => text,
        "commented" => Commented(text, new Random(seed)),
        "windows" => Commented(text, new Random(seed)).Replace("\n", "\r\n", StringComparison.Ordinal),
        "flow" => Flow(Tree(text), quoted: false),
        "json" => Flow(Tree(text), quoted: true) + "\n",
        "no last line end" => text.TrimEnd('\n'),
        "byte order mark" => '\uFEFF' + text,
        "deep indent" => string.Join('\n', text.Split('\n').Select(DoubleIndent)),
        _ => throw new ArgumentOutOfRangeException(nameof(style), style, "no such style"),
    };

    private static TextNode Tree(string text) => TextTreeBuilder.Build(text, new ProblemList(""))!;

    private static string DoubleIndent(string line)
    {
        int blanks = line.Length - line.TrimStart(' ').Length;
        return new string(' ', blanks) + line;
    }

    /// <summary>Comments behind lines and between them, empty lines, and keys of the person's own.</summary>
    private static string Commented(string text, Random random)
    {
        StringBuilder commented = new("# head\n\n");
        int n = 0;
        foreach (string line in text.TrimEnd('\n').Split('\n'))
        {
            commented.Append(line).Append(line.Length > 0 && random.Next(3) == 0 ? $"   # comment {n++}: [not, a: list]" : "").Append('\n');
            if (random.Next(6) == 0)
            {
                commented.Append(' ', random.Next(6)).Append($"# comment {n++}\n");
            }

            if (random.Next(12) == 0)
            {
                commented.Append('\n');
            }
        }

        return commented.Append("x-own: |\n  some text\n  # not a comment\nx-more: [1, 2]\n# tail\n").ToString();
    }

    private static string Flow(TextNode node, bool quoted) => node switch
    {
        TextNode.Mapping map => $"{{{string.Join(", ", map.Entries.Select(entry => $"{Scalar(entry.Key, quoted)}: {Flow(entry.Value, quoted)}"))}}}",
        TextNode.Sequence list => $"[ {string.Join(",\n    ", list.Items.Select(item => Flow(item, quoted)))} ]",
        TextNode.Scalar scalar => Scalar(scalar, quoted),
        _ => throw new ArgumentOutOfRangeException(nameof(node)),
    };

    private static string Scalar(TextNode.Scalar scalar, bool quoted) => quoted || !scalar.IsPlain
        ? "\"" + scalar.Value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
            .Replace("\t", "\\t", StringComparison.Ordinal) + "\""
        : scalar.Value;
}
