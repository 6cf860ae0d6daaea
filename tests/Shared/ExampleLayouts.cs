using System.Text.RegularExpressions;
using WireUp.Layouts;

namespace WireUp.Testing;

/// <summary>Layouts of the repository on which answers are looked at: the examples of the finding pages and the small sample layouts.</summary>
internal static partial class ExampleLayouts
{
    /// <summary>Sample layouts with more lines than this are left out: they take seconds, and their answers nobody reads.</summary>
    private const int MostLines = 120;

    /// <summary>The faulty and the corrected layout of each finding page, in order of code, each with a name.</summary>
    public static IEnumerable<(string Name, string Text)> OfPages =>
        from page in Directory.EnumerateFiles(RepoFiles.PathOf("docs/findings"), "WU*.md").Order(StringComparer.Ordinal)
        from example in Example().Matches(File.ReadAllText(page).ReplaceLineEndings("\n")).Select((match, i) => (match.Groups["text"].Value, IsFaulty: i == 0))
        select ($"{Path.GetFileNameWithoutExtension(page)} {(example.IsFaulty ? "faulty" : "corrected")}", example.Value);

    /// <summary>The small sample layouts, those about trackwork too.</summary>
    public static IEnumerable<(string Name, string Text)> Samples =>
        from file in RepoFiles.SampleLayouts.Concat(Directory.EnumerateFiles(RepoFiles.PathOf("sample-layouts/trackwork"), "*.layout.yaml").Order(StringComparer.Ordinal))
        let text = File.ReadAllText(file).ReplaceLineEndings("\n")
        where text.Count(letter => letter == '\n') <= MostLines
        select (Path.GetFileName(file), text);

    /// <summary>The layout in a text that must be readable.</summary>
    public static Layout Read(string text, string name)
    {
        LayoutReading reading = LayoutFile.Read(text, name);
        Assert.True(reading.Layout is not null, string.Join('\n', reading.Problems));
        return reading.Layout;
    }

    /// <summary>A sample layout by its name without ending.</summary>
    public static Layout Sample(string name) => Read(RepoFiles.ReadText($"sample-layouts/{name}.layout.yaml"), name);

    [GeneratedRegex("^```yaml\n(?<text>.*?)^```$", RegexOptions.Singleline | RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 2000)]
    private static partial Regex Example();
}
