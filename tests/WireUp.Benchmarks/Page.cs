using WireUp.Testing;

namespace WireUp.Benchmarks;

/// <summary>Pages of the documents on which a table stands between two marks.</summary>
internal static class Page
{
    /// <summary>Writes a table in place of what stands between its marks.</summary>
    internal static void Put(string table, string begin, string end, string page = "docs/performance.md")
    {
        string file = RepoFiles.PathOf(page), text = File.ReadAllText(file);
        int from = text.IndexOf(begin, StringComparison.Ordinal) + begin.Length, to = text.IndexOf(end, from, StringComparison.Ordinal);
        File.WriteAllText(file, $"{text[..from]}\n\n{table}\n{text[to..]}");
    }
}
