namespace WireUp.Acceptance.Tests.Program;

/// <summary>Manners of the command line: help, errors, exit codes, streams.</summary>
public class CommandLineTests
{
    private const string Balloon = "sample-layouts/balloon-loop.layout.yaml";

    public static TheoryData<string> Verbs => ["check", "plan", "power", "draw", "compare", "export", "new", "import", "explain"];

    [Theory]
    [MemberData(nameof(Verbs))]
    public async Task Every_verb_has_help_with_an_example(string verb)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, verb, "--help");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains($"wireup {verb}", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("Examples:", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_wrong_option_ends_with_two_and_says_where_help_is()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", Balloon, "--colour");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains("--colour", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("wireup check --help", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_file_ends_with_two_and_names_it()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", "nowhere.layout.yaml");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("nowhere.layout.yaml", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_problem_of_a_bad_file_is_listed_with_line_and_column()
    {
        using ScratchFolder folder = new();
        await File.WriteAllTextAsync(
            folder.PathOf("bad.layout.yaml"),
            """
            wireup: 1
            name: Bad
            scale: HO
            longest-train: 1 m
            shortest-pickup: 40
            track:
              main: { length: minus }
              T1: { turnout: rigth }
            joined:
              - T1.through > nowhere
            """,
            TestContext.Current.CancellationToken);
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", "bad.layout.yaml");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Empty(outcome.Output);
        Assert.Contains("bad.layout.yaml:7:", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("bad.layout.yaml:8:", outcome.Error, StringComparison.Ordinal);
        Assert.Contains("bad.layout.yaml:10:", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_of_an_unwired_balloon_finds_the_short_and_ends_with_one()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", Balloon, "--json");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains(outcome.Json["findings"]!.AsArray(), finding => (string?)finding!["severity"] == "error");
        Assert.Equal(
            outcome.Json["findings"]!.AsArray().Count(finding => (string?)finding!["severity"] == "error"),
            (int)outcome.Json["summary"]!["errors"]!);
    }

    [Fact]
    public async Task New_writes_a_layout_that_plan_can_finish_and_never_overwrites()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome made = await Wireup.RunAsync(folder.Path, "new", "mine.layout.yaml", "--name", "Tom's \"line\": #1");
        Assert.Equal(0, made.ExitCode);
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", "mine.layout.yaml", "--write");
        Assert.True(plan.ExitCode == 0, plan.ToString());
        Wireup.Outcome check = await Wireup.RunAsync(folder.Path, "check", "mine.layout.yaml");
        Assert.True(check.ExitCode == 0, check.ToString());
        string before = await File.ReadAllTextAsync(folder.PathOf("mine.layout.yaml"), TestContext.Current.CancellationToken);
        Wireup.Outcome again = await Wireup.RunAsync(folder.Path, "new", "mine.layout.yaml");
        Assert.Equal(2, again.ExitCode);
        Assert.Equal(before, await File.ReadAllTextAsync(folder.PathOf("mine.layout.yaml"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Plan_takes_the_wire_that_is_on_hand_and_its_price()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--json", "--wire", "12 AWG=0.8, 16 AWG=0.5");
        Assert.Equal(0, plan.ExitCode);
        Assert.NotNull(plan.Json["objective"]!["bus-price"]);
        Assert.Equal(["16 AWG", "12 AWG"], plan.Json["gauges"]!.AsArray().Select(row => (string?)row!["wire"]).Distinct());
    }

    [Theory]
    [InlineData("2.5 mm2=0.8, 4 mm2", "a price for each, or for none")]
    [InlineData("2.5 mm2=cheap", "is no price of a metre")]
    [InlineData("2.5", "expected")]
    public async Task Wire_that_cannot_be_read_is_refused_with_what_would_be_right(string wire, string words)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--wire", wire);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(words, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rework_changes_what_is_built_in_the_layout_of_the_folder_and_never_in_the_file_itself()
    {
        const string Mixed = """
            wireup: 1
            name: Two wires mixed up
            longest-train: 500
            track: { a: { length: 2 m }, b: { length: 2 m } }
            joined: [ a > b ]
            wiring:
              boosters: { main: { volts: 15 V, amps: 3 A } }
              districts: { all: { booster: main, trip: 2 A } }
              bus: { all: { wire: 2.5 mm2, runs: [ main > P1 1 m, P1 > P2 1 m ] } }
              feeders:
                f1: { at: a@500, bus: P1, wire: 0.5 mm2, length: 200 }
                f2: { at: a@1.5 m, bus: P1, wire: 0.5 mm2, length: 200 }
                f3: { at: b@1 m, bus: P2, wire: 0.5 mm2, length: 200, swap: true }

            """;
        using ScratchFolder folder = new();
        await File.WriteAllTextAsync(folder.PathOf("mine.layout.yaml"), Mixed, TestContext.Current.CancellationToken);
        Assert.Equal(1, (await Wireup.RunAsync(folder.Path, "plan", "mine.layout.yaml")).ExitCode);
        Wireup.Outcome both = await Wireup.RunAsync(folder.Path, "plan", "mine.layout.yaml", "--rework", "--write");
        Assert.Equal(2, both.ExitCode);
        Assert.Contains("--write only adds", both.Error, StringComparison.Ordinal);
        Wireup.Outcome rework = await Wireup.RunAsync(folder.Path, "plan", "mine.layout.yaml", "--rework", "--out", "out", "--json");
        Assert.True(rework.ExitCode == 0, rework.ToString());
        Assert.Equal("rework-f3", (string?)rework.Json["proposals"]![0]!["id"]);
        string wired = await File.ReadAllTextAsync(folder.PathOf("out/mine-wired.layout.yaml"), TestContext.Current.CancellationToken);
        Assert.Contains("f3:", wired, StringComparison.Ordinal);
        Assert.DoesNotContain("swap:", wired, StringComparison.Ordinal);
        Assert.Equal(Mixed, await File.ReadAllTextAsync(folder.PathOf("mine.layout.yaml"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Explain_prints_the_page_of_a_finding_and_the_working_of_a_proposal()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome page = await Wireup.RunAsync(folder.Path, "explain", "wu3001");
        Assert.Equal(0, page.ExitCode);
        Assert.Equal(RepoFiles.ReadText("docs/findings/WU3001.md"), page.Output);
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", Balloon, "--json");
        string proposal = (string)plan.Json["proposals"]![0]!["id"]!;
        Wireup.Outcome why = await Wireup.RunAsync(folder.Path, "explain", proposal, "--layout", Balloon);
        Assert.Equal(0, why.ExitCode);
        Assert.Contains("rule:", why.Output, StringComparison.Ordinal);
        Wireup.Outcome unknown = await Wireup.RunAsync(folder.Path, "explain", "WU9999");
        Assert.Equal(2, unknown.ExitCode);
    }

    [Theory]
    [InlineData("T1", "names no position")]
    [InlineData("T1=sideways", "has no position 'sideways'; expected through, diverging")]
    [InlineData("T9=through", "there is no piece and no switch 'T9'")]
    [InlineData("loop-1=through", "nothing of it moves")]
    public async Task A_wrong_position_is_refused_with_what_would_be_right(string set, string words)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Balloon, "--set", set);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(words, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_load_off_the_track_is_refused_with_what_would_be_right()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Balloon, "--load", "nowhere@1 m=0.5 A");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("nowhere", outcome.Error, StringComparison.Ordinal);
    }
}
