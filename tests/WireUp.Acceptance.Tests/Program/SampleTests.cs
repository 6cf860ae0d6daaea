using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>The plan of every sample, planned through the program. <c>tests/samples.sh</c> takes them through every other command.</summary>
public class SampleTests
{
    internal const string Club = "sample-layouts/tarrow-valley.layout.yaml";

    /// <summary>All but the club's, which is planned below.</summary>
    public static TheoryData<string> Samples =>
        [.. RepoFiles.SampleLayouts.Select(file => "sample-layouts/" + Path.GetFileName(file)).Where(file => file != Club)];

    [Theory]
    [MemberData(nameof(Samples))]
    public async Task The_plan_of_every_sample_without_faults_passes_its_own_checks(string sample)
    {
        Assert.SkipWhen(sample.Contains("as-built", StringComparison.Ordinal), "this sample is faulty on purpose");
        using ScratchFolder folder = new();
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", sample, "--json", "--write");
        await Passes(folder, plan, sample);
    }

    // That the same bytes are written every time is tried by samples.sh, for every sample.
    [Fact]
    public async Task The_plan_of_the_club_writes_its_papers()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome plan = await Wireup.RunAsync(folder.Path, "plan", Club, "--out", "papers", "--json");
        Assert.Equal(
            [
                "tarrow-valley-above.png", "tarrow-valley-above.svg", "tarrow-valley-below.png", "tarrow-valley-below.svg",
                "tarrow-valley-lists.xlsx", "tarrow-valley-schedule.csv", "tarrow-valley-wired.layout.yaml", "tarrow-valley-wiring-book.html",
                "tarrow-valley-wiring-book.pdf",
            ],
            Directory.EnumerateFiles(folder.PathOf("papers")).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        await Passes(folder, plan, "papers/tarrow-valley-wired.layout.yaml");
    }

    private static async Task Passes(ScratchFolder folder, Wireup.Outcome plan, string wired)
    {
        Assert.True(plan.ExitCode == 0, plan.ToString());
        Assert.True((bool)plan.Json["finished"]!);
        Assert.Empty(plan.Json["remains"]!.AsArray());
        Wireup.Outcome check = await Wireup.RunAsync(folder.Path, "check", wired, "--json");
        Assert.Equal(0, (int)check.Json["summary"]!["errors"]!);
        Wireup.Outcome power = await Wireup.RunAsync(folder.Path, "power", wired, "--json");
        JsonArray islands = power.Json["islands"]!.AsArray();
        Assert.NotEmpty(islands);
        Assert.All(islands, island => Assert.Equal("pass", (string?)island!["coin-test"]));
    }
}
