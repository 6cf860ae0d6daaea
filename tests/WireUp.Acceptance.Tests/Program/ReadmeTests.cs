using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>Every command that the README shows works as it is written there.</summary>
public partial class ReadmeTests
{
    [Fact]
    public async Task Every_command_of_the_README_runs()
    {
        string[][] commands = [.. Commands().Select(match => CommandWords.Of(match.Groups["arguments"].Value))];
        Assert.True(commands.Length >= 5, "the README's tour has lost its commands");
        using ScratchFolder folder = new();
        foreach (string[] command in commands)
        {
            Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, command);
            Assert.True(outcome.ExitCode is 0 or 1, $"{string.Join(' ', command)}\n{outcome}");
        }
    }

    [Fact]
    public void The_README_names_the_test_command_that_CI_calls()
    {
        const string TestCommand = "dotnet run tests/run-tests.cs";
        Assert.Contains(TestCommand, RepoFiles.ReadText("README.md"), StringComparison.Ordinal);
        Assert.Contains(TestCommand, RepoFiles.ReadText(".ci/run"), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_file_that_a_page_links_to_is_there()
    {
        string[] pages = ["README.md", "DEVELOPERS.md", "CHANGELOG.md", .. Directory.EnumerateFiles(RepoFiles.PathOf("docs"), "*.md", SearchOption.AllDirectories)];
        foreach (string page in pages.Select(RepoFiles.PathOf))
        {
            foreach (string target in Links().Matches(File.ReadAllText(page)).Select(link => link.Groups["target"].Value))
            {
                bool isThere = target.StartsWith("https://", StringComparison.Ordinal) || Path.Exists(Path.Combine(Path.GetDirectoryName(page)!, target));
                Assert.True(isThere, $"{page} links to {target}");
            }
        }
    }

    // The page runs until it is stopped: WireUp.Web.Tests starts it. The club is planned, with its papers, by SampleTests.
    private static IEnumerable<Match> Commands() => CommandLines().Matches(RepoFiles.ReadText("README.md"))
        .Where(match => match.Groups["arguments"].Value is var arguments && !arguments.StartsWith("serve ", StringComparison.Ordinal)
            && !arguments.StartsWith($"plan {SampleTests.Club} --out ", StringComparison.Ordinal));

    [GeneratedRegex(@"^(dotnet run --project src/WireUp --|wireup) (?<arguments>[^|>#\n]*)", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex CommandLines();

    [GeneratedRegex(@"\]\((?<target>[^)#]+)[^)]*\)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Links();
}
