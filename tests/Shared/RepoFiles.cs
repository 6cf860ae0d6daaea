namespace WireUp.Testing;

/// <summary>Finds files of the repository from wherever a test runs.</summary>
internal static class RepoFiles
{
    /// <summary>The folder that holds <c>WireUp.sln</c>.</summary>
    public static string Root { get; } = FindRoot(AppContext.BaseDirectory);

    /// <summary>Every sample layout, in ordinal order of file name.</summary>
    public static IReadOnlyList<string> SampleLayouts =>
        [.. Directory.EnumerateFiles(PathOf("sample-layouts"), "*.layout.yaml").Order(StringComparer.Ordinal)];

    /// <summary>The absolute path of a file given by its path from the root, with forward slashes.</summary>
    public static string PathOf(string relativePath) => Path.GetFullPath(Path.Combine(Root, relativePath));

    /// <summary>The text of a file given by its path from the root.</summary>
    public static string ReadText(string relativePath) => File.ReadAllText(PathOf(relativePath));

    private static string FindRoot(string start)
    {
        for (var folder = new DirectoryInfo(start); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "WireUp.sln"))) return folder.FullName;
        }

        throw new InvalidOperationException($"No WireUp.sln in \"{start}\" or any folder above it.");
    }
}
