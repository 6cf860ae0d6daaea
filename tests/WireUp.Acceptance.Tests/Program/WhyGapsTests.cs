using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>check --why-gaps</c> over the club sample as built, from the command line.</summary>
public class WhyGapsTests
{
    private const string Club = "sample-layouts/tarrow-valley-as-built.layout.yaml";

    [Fact]
    public async Task Table_names_every_gap_rail_by_rail_and_counts_those_that_are_needed()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", Club, "--why-gaps");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Matches(@"Y4\.diverging/right +yes +a short of f29/A and f29/B with Y4 set through", outcome.Output);
        Assert.Matches(@"[0-9]+ gaps, counted rail by rail: [0-9]+ needed", outcome.Output);
    }

    [Fact]
    public async Task Json_gives_use_positions_path_and_whether_it_is_needed()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", Club, "--why-gaps", "--json");
        JsonNode results = JsonNode.Parse(outcome.Output)!;
        JsonNode gap = Assert.Single(results["gaps"]!.AsArray(), node => node!["at"]!.ToString() == "Y4.diverging")!;
        Assert.Equal(
            ("right", "short", true, "through"),
            (gap["rail"]!.ToString(), gap["prevents"]!.ToString(), gap["needed"]!.GetValue<bool>(), gap["turnouts"]!["Y4"]!.ToString()));
        Assert.Contains("Y4/frog", gap["path"]!.AsArray().Select(node => node!.ToString()));
        Assert.NotNull(results["findings"]);
    }

    [Fact]
    public async Task Without_the_option_nothing_is_said_of_gaps()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", Club, "--json");
        Assert.Null(JsonNode.Parse(outcome.Output)!["gaps"]);
    }
}
