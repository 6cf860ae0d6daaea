using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>check --cabs</c> from the command line.</summary>
public class CabsTests
{
    private const string TwoCabs = "sample-layouts/two-cabs.layout.yaml";

    [Fact]
    public async Task Table_names_each_gap_with_the_pairs_of_cabs_and_the_positions()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", TwoCabs, "--cabs");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Matches(@"north\.b +cab-a +cab-b +B4 set cab-a, B5 set cab-b", outcome.Output);
        Assert.Contains("7 gaps with a cab on each side: at 1 of them never two different ones, at 0 always", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Json_gives_the_same_and_only_when_asked()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome asked = await Wireup.RunAsync(folder.Path, "check", TwoCabs, "--cabs", "--json");
        JsonNode gap = Assert.Single(JsonNode.Parse(asked.Output)!["cab-borders"]!.AsArray(), node => node!["at"]!.ToString() == "north.b")!;
        Assert.True(gap["common-cab"]!.GetValue<bool>());
        Assert.Equal(["cab-a cab-b", "cab-b cab-a"], gap["meetings"]!.AsArray().Select(pair => $"{pair!["near"]} {pair["far"]}"));
        Wireup.Outcome plain = await Wireup.RunAsync(folder.Path, "check", TwoCabs, "--json");
        Assert.Null(JsonNode.Parse(plain.Output)!["cab-borders"]);
    }

    [Fact]
    public async Task Command_control_has_no_cabs_and_that_is_said()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "check", "sample-layouts/home-yard.layout.yaml", "--cabs");
        Assert.Contains("no cabs to tell apart", outcome.Output, StringComparison.Ordinal);
    }
}
