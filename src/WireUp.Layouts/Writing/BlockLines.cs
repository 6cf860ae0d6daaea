namespace WireUp.Layouts.Writing;

/// <summary>Writes snippets in block style, one entry or item a line; a mapping without mappings in it stays on its line while it fits.</summary>
internal static class BlockLines
{
    private const int Step = 2;

    /// <summary>Longest line before a mapping is broken into lines.</summary>
    private const int Width = 120;

    /// <summary>The lines of the entries of a mapping, without line ends.</summary>
    public static IEnumerable<string> Of(Snippet.Map map, int indent) =>
        map.Entries.SelectMany(entry => Entry(entry.Key, entry.Value, indent));

    /// <summary>The lines of the items of a list.</summary>
    public static IEnumerable<string> Of(Snippet.List list, int indent) =>
        list.Items.Select(item => $"{Blanks(indent)}- {item}");

    private static IEnumerable<string> Entry(string key, Snippet value, int indent)
    {
        string head = $"{Blanks(indent)}{key}:";
        string line = $"{head} {value.Flow}";
        return value switch
        {
            Snippet.Leaf or Snippet.Map { Entries: [] } or Snippet.List { Items: [] } => [line],
            Snippet.Map map when indent > 0 && line.Length <= Width && map.Entries.All(entry => entry.Value is not Snippet.Map) => [line],
            Snippet.Map map => [head, .. Of(map, indent + Step)],
            Snippet.List list => [head, .. Of(list, indent + Step)],
            _ => throw new ArgumentOutOfRangeException(nameof(value), value, "not a snippet"),
        };
    }

    private static string Blanks(int count) => new(' ', count);
}
