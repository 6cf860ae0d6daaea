using System.Diagnostics;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>How the program behaves among other programs: pipes, colours, quiet and verbose, completion.</summary>
public class MannersTests
{
    private const string Balloon = "sample-layouts/balloon-loop.layout.yaml";

    [Fact]
    public async Task A_layout_that_is_piped_in_is_checked_as_the_file_is()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome piped = await Wireup.RunAsync(folder.Path, RepoFiles.ReadText(Balloon), ["check", "-"]);
        Assert.Equal((await Wireup.RunAsync(folder.Path, "check", Balloon)).Output, piped.Output);
        Assert.Equal(1, piped.ExitCode);
    }

    [Fact]
    public async Task Problems_of_a_layout_that_is_piped_in_name_standard_input()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "wireup: 1\ntrack: 5\n", ["check", "-", "--quiet"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("standard input:2:", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_piped_in_cannot_be_written_to_and_is_called_layout_in_a_folder()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome refused = await Wireup.RunAsync(folder.Path, RepoFiles.ReadText(Balloon), ["plan", "-", "--write"]);
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("--write", refused.Error, StringComparison.Ordinal);
        await Wireup.RunAsync(folder.Path, RepoFiles.ReadText(Balloon), ["plan", "-", "--out", "book"]);
        Assert.True(File.Exists(folder.PathOf("book/layout-wired.layout.yaml")));
    }

    [Fact]
    public async Task Quiet_leaves_out_remarks_and_verbose_tells_each_step_and_the_time()
    {
        using ScratchFolder folder = new();
        Assert.NotEmpty((await Wireup.RunAsync(folder.Path, "check", Balloon)).Error);
        Assert.Empty((await Wireup.RunAsync(folder.Path, "check", Balloon, "-q")).Error);
        string[] steps = (await Wireup.RunAsync(folder.Path, "plan", Balloon, "--verbose")).Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Contains(steps, step => step.StartsWith("feeders (", StringComparison.Ordinal));
        Assert.Matches(@"^took [0-9]+\.[0-9] s\s*$", steps[^1]);
    }

    [Fact]
    public async Task A_path_with_a_NUL_character_from_a_file_of_arguments_is_refused_in_words()
    {
        using ScratchFolder folder = new();
        await File.WriteAllTextAsync(folder.PathOf("arguments"), "check\na\0b.layout.yaml\n", TestContext.Current.CancellationToken);
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "@arguments");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Matches("^wireup: Null character in path", outcome.Error);
    }

    [Theory]
    [InlineData("bash", "complete -o default")]
    [InlineData("zsh", "compdef")]
    [InlineData("fish", "complete -c wireup")]
    [InlineData("powershell", "Register-ArgumentCompleter")]
    public async Task Completion_is_there_for_each_shell(string shell, string registers)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "completion", shell);
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains(registers, outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task In_bash_the_beginning_of_a_command_and_of_an_option_is_completed()
    {
        using ScratchFolder folder = new();
        string bash = Tool("bash");
        string program = $"wireup() {{ dotnet '{Path.Combine(AppContext.BaseDirectory, "wireup.dll")}' \"$@\"; }}; source <(wireup completion bash);";
        Assert.Equal("check", await PrintedAsync(bash, "-c", $"{program} COMP_LINE='wireup ch' COMP_POINT=9 COMP_WORDS=(wireup ch) COMP_CWORD=1; _wireup; echo ${{COMPREPLY[@]}}"));
        Assert.Equal("--paper", await PrintedAsync(bash, "-c", $"{program} COMP_LINE='wireup plan x --pap' COMP_POINT=19 COMP_WORDS=(wireup plan x --pap) COMP_CWORD=3; _wireup; echo ${{COMPREPLY[@]}}"));
    }

    [Fact]
    public async Task Colours_are_for_terminals_and_not_for_pipes_nor_against_NO_COLOR()
    {
        using ScratchFolder folder = new();
        Assert.DoesNotContain('\u001b', (await Wireup.RunAsync(folder.Path, "check", Balloon)).Output);
        string command = $"dotnet '{Path.Combine(AppContext.BaseDirectory, "wireup.dll")}' check '{RepoFiles.PathOf(Balloon)}'";
        string script = Tool("script");
        Assert.Contains("\u001b[1;38;5;9m", await PrintedAsync(script, "-qec", $"env -u NO_COLOR TERM=xterm-256color {command} || true", "/dev/null"), StringComparison.Ordinal);
        Assert.DoesNotContain("38;5", await PrintedAsync(script, "-qec", $"env NO_COLOR=1 TERM=xterm-256color {command} || true", "/dev/null"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Volts_below_nothing_are_not_shown_as_a_number()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", "sample-layouts/tarrow-valley-as-built.layout.yaml");
        Assert.Matches("sedge-turn +none left +sedge-", outcome.Output);
        Assert.DoesNotMatch(" -[0-9.]+ V", outcome.Output);
    }

    private static string Tool(string name)
    {
        string? found = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(folder => Path.Combine(folder, name)).FirstOrDefault(File.Exists);
        Assert.SkipWhen(found is null, $"needs {name}");
        return found!;
    }

    private static async Task<string> PrintedAsync(string tool, params string[] arguments)
    {
        ProcessStartInfo start = new(tool, arguments) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardInput = true };
        using Process process = Process.Start(start)!;
        process.StandardInput.Close();
        string printed = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return printed.Trim();
    }
}
