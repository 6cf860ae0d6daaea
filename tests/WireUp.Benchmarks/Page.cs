using WireUp.Testing;

namespace WireUp.Benchmarks;

/// <summary>The page docs/performance.md, on which each table stands between two marks.</summary>
internal static class Page
{
    /// <summary>Writes a table in place of what stands between its marks.</summary>
    internal static void Put(string table, string begin, string end)
    {
        string file = RepoFiles.PathOf("docs/performance.md"), page = File.ReadAllText(file);
        int from = page.IndexOf(begin, StringComparison.Ordinal) + begin.Length, to = page.IndexOf(end, from, StringComparison.Ordinal);
        File.WriteAllText(file, $"{page[..from]}\n\n{table}\n{page[to..]}");
    }
}
