using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup compare</c> from the command line, on a layout and its plan.</summary>
public class CompareTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml";
    private const string Wired = "book/home-yard-wired.layout.yaml";

    [Fact]
    public async Task A_plan_only_adds_and_its_papers_show_what()
    {
        using ScratchFolder folder = new();
        Assert.Equal(0, (await Wireup.RunAsync(folder.Path, "plan", Yard, "--out", "book")).ExitCode);
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "compare", Yard, Wired, "--json", "--out", "change");
        Assert.Equal(1, outcome.ExitCode);
        JsonArray changes = outcome.Json["changes"]!.AsArray();
        Assert.NotEmpty(changes);
        Assert.All(changes, change => Assert.Equal("new", change!["kind"]!.ToString()));
        int planned = changes.Count(change => change!["part"]!.ToString() == "feeder");
        Assert.Equal(2 * planned, (await File.ReadAllLinesAsync(folder.PathOf("change/home-yard-wired-new-wires.csv"), TestContext.Current.CancellationToken)).Count(line => line.Contains(",feeder,", StringComparison.Ordinal)));
        Assert.All(["-changes.svg", "-changes.png", "-changes.pdf", "-new-wires.csv"], end => Assert.True(new FileInfo(folder.PathOf($"change/home-yard-wired{end}")).Length > 0));

        Wireup.Outcome table = await Wireup.RunAsync(folder.Path, "compare", Wired, Yard);
        Assert.Equal(1, table.ExitCode);
        Assert.Matches(@"T +feeder +f7 +take away", table.Output);
        Assert.Contains("0 wires to lay", table.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_does_not_differ_from_itself_and_one_that_is_not_there_is_an_error()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome same = await Wireup.RunAsync(folder.Path, "compare", Yard, Yard);
        Assert.Equal(0, same.ExitCode);
        Assert.Contains("the same", same.Output, StringComparison.Ordinal);
        Assert.Equal(2, (await Wireup.RunAsync(folder.Path, "compare", Yard, "nowhere.layout.yaml")).ExitCode);
    }
}
