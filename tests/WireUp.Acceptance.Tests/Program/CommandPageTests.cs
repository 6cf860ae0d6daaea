using System.Text;
using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>The page of commands is what <c>--help</c> prints, and says how each command ends.</summary>
public partial class CommandPageTests
{
    private const string Page = "docs/commands.md", Beside = "docs/commands.received.md", Mark = "\n## The program\n";

    [Fact]
    public async Task The_page_of_commands_is_what_help_prints()
    {
        using ScratchFolder folder = new();
        string program = await HelpAsync(folder);
        StringBuilder text = new($"{Mark}\n{Shown(program)}");
        foreach (string verb in Verbs().Matches(program[program.IndexOf("Commands:", StringComparison.Ordinal)..]).Select(match => match.Groups["verb"].Value))
        {
            text.Append($"\n## {verb}\n\n{Shown(await HelpAsync(folder, verb))}");
        }

        string page = RepoFiles.ReadText(Page);
        string expected = page[..page.IndexOf(Mark, StringComparison.Ordinal)] + text;
        if (page != expected)
        {
            await File.WriteAllTextAsync(RepoFiles.PathOf(Beside), expected, TestContext.Current.CancellationToken);
            Assert.Fail($"{Page} is not what help prints; what it should be lies in {Beside}");
        }

        File.Delete(RepoFiles.PathOf(Beside));
    }

    [Fact]
    public void The_page_names_every_exit_code()
    {
        string page = RepoFiles.ReadText(Page);
        foreach (int code in new[] { ExitCode.Fine, ExitCode.Findings, ExitCode.BadInput, ExitCode.Defect, ExitCode.Stopped })
        {
            Assert.Contains($"\n| {code} | ", page, StringComparison.Ordinal);
        }
    }

    private static async Task<string> HelpAsync(ScratchFolder folder, params string[] verb)
    {
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, [.. verb, "--help"]);
        Assert.Equal(0, outcome.ExitCode);
        return outcome.Output;
    }

    private static string Shown(string help) =>
        $"```text\n{string.Join('\n', help.ReplaceLineEndings("\n").TrimEnd().Split('\n').Select(line => line.TrimEnd()))}\n```\n";

    [GeneratedRegex(@"^  (?<verb>[a-z]+) ", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Verbs();
}
