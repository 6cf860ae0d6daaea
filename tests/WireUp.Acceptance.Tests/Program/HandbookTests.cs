using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>The pages that show commands and what they print: each runs from top to bottom in a folder of its own, and prints what it says.</summary>
public partial class HandbookTests
{
    public static TheoryData<string> Pages =>
    [
        .. Directory.EnumerateFiles(RepoFiles.PathOf("docs/handbook"), "*.md").Select(page => "docs/handbook/" + Path.GetFileName(page))
            .Concat(["docs/faults.md", "README.md"])
            .Where(page => Examples(page).Any())
            .Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task A_page_of_the_handbook_runs_and_prints_what_it_says(string page)
    {
        using ScratchFolder folder = new();
        foreach (Match example in Examples(page))
        {
            List<string> printed = [];
            foreach (string command in example.Groups["commands"].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries))
            {
                Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, [.. CommandWords.Of(command).Skip(1)]);
                Assert.True(outcome.ExitCode is 0 or 1, $"{command}\n{outcome}");
                printed.Add(Plain(outcome.Output));
            }

            string all = string.Join(' ', printed);
            Assert.All(
                example.Groups["output"].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries),
                line => Assert.Contains(Plain(line), all, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Every_task_of_the_handbook_shows_commands_and_what_they_print()
    {
        string index = RepoFiles.ReadText("docs/handbook/index.md");
        string[] tasks = [.. Tasks().Matches(index).Select(match => "docs/handbook/" + match.Groups["page"].Value)];
        Assert.Equal(6, tasks.Length);
        Assert.All(tasks, task => Assert.Contains(Examples(task), example => example.Groups["output"].Length > 0));
    }

    /// <summary>Commands with or without what they print; of the README, whose commands all run elsewhere, only the former.</summary>
    private static IEnumerable<Match> Examples(string page) => Example().Matches(RepoFiles.ReadText(page)).Where(example => page != "README.md" || example.Groups["output"].Success);

    private static string Plain(string text) => string.Join(' ', text.Split(default(char[]), StringSplitOptions.RemoveEmptyEntries));

    [GeneratedRegex(@"```sh\n(?<commands>(wireup [^\n]*\n)+)```(\n\n```text\n(?<output>[^`]*?)```)?", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Example();

    [GeneratedRegex(@"^\| [^|]+ \| \[[^\]]+\]\((?<page>[a-z-]+\.md)\) \|$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Tasks();
}
