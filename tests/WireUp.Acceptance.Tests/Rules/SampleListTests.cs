using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Rules;

/// <summary>Whoever opens the samples finds out what each is for, in the list and in the file itself.</summary>
public sealed partial class SampleListTests
{
    private const int FewestLettersOfAPurpose = 60;

    public static TheoryData<string> Samples => [.. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path))];

    [Fact]
    public void The_list_of_samples_names_every_file_once_and_no_other() =>
        Assert.Equal(
            RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path)),
            ListedFile().Matches(RepoFiles.ReadText("docs/samples.md")).Select(row => row.Groups["file"].Value).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_begins_with_a_comment_that_says_what_it_is_for(string file)
    {
        IEnumerable<string> head = RepoFiles.ReadText($"sample-layouts/{file}").Split('\n').TakeWhile(line => line.StartsWith('#'));
        Assert.True(head.Sum(line => line.Count(char.IsLetter)) >= FewestLettersOfAPurpose, $"\"{file}\" does not say what it is for");
    }

    /// <summary>A row of the table: the file's name as a link to it, first cell of its row.</summary>
    [GeneratedRegex(@"^\| \[(?<file>[^\]]+\.layout\.yaml)\]\(\.\./sample-layouts/\k<file>\) \|", RegexOptions.Multiline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex ListedFile();
}
