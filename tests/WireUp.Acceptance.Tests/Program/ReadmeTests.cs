using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>Every command that the README shows works as it is written there.</summary>
public partial class ReadmeTests
{
    [Fact]
    public async Task Every_command_of_the_README_runs()
    {
        string[][] commands = [.. Commands().Select(match => Words(match.Groups["arguments"].Value))];
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
    public void Every_file_the_README_and_the_guides_link_to_is_there()
    {
        foreach (string page in new[] { "README.md", "DEVELOPERS.md" })
        {
            foreach (Match link in Links().Matches(RepoFiles.ReadText(page)))
            {
                string target = link.Groups["target"].Value;
                Assert.True(
                    target.StartsWith("https://", StringComparison.Ordinal) || Path.Exists(RepoFiles.PathOf(target)),
                    $"{page} links to {target}");
            }
        }
    }

    // The page runs until it is stopped: WireUp.Web.Tests starts it.
    private static IEnumerable<Match> Commands() => CommandLines().Matches(RepoFiles.ReadText("README.md"))
        .Where(match => !match.Groups["arguments"].Value.StartsWith("serve ", StringComparison.Ordinal));

    private static string[] Words(string arguments) =>
        [.. Word().Matches(arguments).Select(word => word.Value.Trim('\''))];

    [GeneratedRegex(@"^(dotnet run --project src/WireUp --|wireup) (?<arguments>[^|>#\n]*)", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex CommandLines();

    [GeneratedRegex(@"'[^']*'|\S+", RegexOptions.None, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Word();

    [GeneratedRegex(@"\]\((?<target>[^)#]+)[^)]*\)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 5000)]
    private static partial Regex Links();
}
