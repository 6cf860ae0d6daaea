using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>Every sample through every command.</summary>
public class SampleTests
{
    public static TheoryData<string> Samples =>
        [.. RepoFiles.SampleLayouts.Select(file => "sample-layouts/" + Path.GetFileName(file))];

    [Theory]
    [MemberData(nameof(Samples))]
    public async Task Every_sample_can_be_checked_solved_drawn_and_exported(string sample)
    {
        using ScratchFolder folder = new();
        string[][] commands =
        [
            ["check", sample], ["check", sample, "--json"],
            ["power", sample], ["power", sample, "--json"],
            ["draw", sample, "--out", "a.svg"], ["draw", sample, "--out", "a.png"], ["draw", sample, "--out", "b.pdf", "--from", "below"],
            ["export", sample, "--format", "spice", "--out", "a.cir"],
            ["export", sample, "--format", "csv", "--out", "a.csv"],
            ["export", sample, "--format", "json", "--out", "a.json"],
        ];
        foreach (string[] command in commands)
        {
            Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, command);
            Assert.True(outcome.ExitCode is 0 or 1, $"{string.Join(' ', command)}\n{outcome}");
            if (command.Contains("--json"))
            {
                Assert.NotEmpty(outcome.Json);
            }
        }

        foreach (string file in new[] { "a.svg", "a.png", "b.pdf", "a.cir", "a.csv", "a.json" })
        {
            Assert.True(new FileInfo(folder.PathOf(file)).Length > 40, file);
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public async Task The_plan_of_every_sample_without_faults_passes_its_own_checks(string sample)
    {
        Assert.SkipWhen(sample.Contains("as-built", StringComparison.Ordinal), "this sample is faulty on purpose");
        using ScratchFolder folder = new();
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", sample, "--json", "--write");
        Assert.True(plan.ExitCode == 0, plan.ToString());
        Assert.True((bool)plan.Json["finished"]!);
        Assert.Empty(plan.Json["remains"]!.AsArray());
        Wireup.Outcome check = await Wireup.RunAsync(folder.Path, "check", sample, "--json");
        Assert.Equal(0, (int)check.Json["summary"]!["errors"]!);
        Wireup.Outcome power = await Wireup.RunAsync(folder.Path, "power", sample, "--json");
        JsonArray islands = power.Json["islands"]!.AsArray();
        Assert.NotEmpty(islands);
        Assert.All(islands, island => Assert.Equal("pass", (string?)island!["coin-test"]));
    }

    [Fact]
    public async Task The_plan_of_the_club_writes_its_papers_and_the_same_bytes_every_time()
    {
        using ScratchFolder folder = new();
        const string Club = "sample-layouts/tarrow-valley.layout.yaml";
        Wireup.Outcome first = await Wireup.RunAsync(folder.Path, "plan", Club, "--out", "first", "--json");
        Assert.True(first.ExitCode == 0, first.ToString());
        Wireup.Outcome second = await Wireup.RunAsync(folder.Path, "plan", Club, "--out", "second", "--json");
        Assert.Equal(first.Output, second.Output);
        string[] papers = [.. Directory.EnumerateFiles(folder.PathOf("first")).Select(Path.GetFileName).Order(StringComparer.Ordinal)!];
        Assert.Equal(
            [
                "tarrow-valley-above.png", "tarrow-valley-above.svg", "tarrow-valley-below.png", "tarrow-valley-below.svg",
                "tarrow-valley-lists.xlsx", "tarrow-valley-schedule.csv", "tarrow-valley-wired.layout.yaml", "tarrow-valley-wiring-book.html",
                "tarrow-valley-wiring-book.pdf",
            ],
            papers);
        foreach (string paper in papers)
        {
            Assert.Equal(
                await File.ReadAllBytesAsync(folder.PathOf($"first/{paper}"), TestContext.Current.CancellationToken),
                await File.ReadAllBytesAsync(folder.PathOf($"second/{paper}"), TestContext.Current.CancellationToken));
        }

        Wireup.Outcome check = await Wireup.RunAsync(folder.Path, "check", "first/tarrow-valley-wired.layout.yaml", "--json");
        Assert.Equal(0, (int)check.Json["summary"]!["errors"]!);
    }
}
