using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup power</c> asked about places and routes.</summary>
public class PlacesTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml";

    [Fact]
    public async Task A_place_is_told_in_one_block()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--at", "main-2@0.4 m", "--at", "yard-4@0.4 m");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("main-line, from booster main", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("feeder f2 after 0.35 m", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("no source reaches this place", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_route_is_followed_with_its_turnouts_set()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--json", "--route", "siding-1@100 > main-4", "--at", "main-2@0.4 m");
        Assert.Equal(0, outcome.ExitCode);
        JsonNode route = outcome.Json["routes"]![0]!;
        Assert.Equal("diverging", (string?)route["turnouts"]!["T2"]);
        double metres = (double)route["length-metres"]!;
        Assert.Equal(0.65 + 0.75 + 0.24 + 1.2 + 2.4, metres, 1e-9);
        double[] along = [.. route["points"]!.AsArray().Select(point => (double)point!["metres"]!)];
        Assert.Equal(along.Order(), along);
        Assert.Equal((0, metres), (along[0], along[^1]));
        Assert.Equal((double)route["worst"]!["volts"]!, route["points"]!.AsArray().Min(point => (double)point!["volts"]!));
        Assert.Equal("main-2@0.4 m", (string?)outcome.Json["at"]![0]!["at"]);
    }

    [Fact]
    public async Task A_route_is_drawn_as_the_file_name_says()
    {
        using ScratchFolder folder = new();
        string[] asked = ["power", Yard, "--route", "siding-1 > yard-4", "--plot"];
        foreach ((string file, string begin) in new[] { ("a.svg", "<svg"), ("a.png", "\u0089PNG"), ("a.pdf", "%PDF") })
        {
            Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, [.. asked, file]);
            Assert.Equal(0, outcome.ExitCode);
            byte[] bytes = await File.ReadAllBytesAsync(folder.PathOf(file), TestContext.Current.CancellationToken);
            Assert.StartsWith(begin, System.Text.Encoding.Latin1.GetString(bytes, 0, 8), StringComparison.Ordinal);
        }

        Wireup.Outcome wrong = await Wireup.RunAsync(folder.Path, [.. asked, "a.txt"]);
        Assert.Equal(2, wrong.ExitCode);
        Wireup.Outcome none = await Wireup.RunAsync(folder.Path, "power", Yard, "--plot", "a.svg");
        Assert.Equal(2, none.ExitCode);
        Assert.Contains("say which with --route", none.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_worst_places_of_trains_are_told_with_their_bound()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--json", "--trains", "3");
        JsonNode trains = outcome.Json["trains"]!, district = trains["districts"]![0]!;
        Assert.Equal(3, trains["trains"]!.AsArray().Count);
        Assert.Equal(3, district["places"]!.AsArray().Count);
        Assert.Equal("complete", (string?)district["search"]);
        Assert.InRange((double)district["drop-volts-at-most"]!, (double)district["drop-volts-at-least"]!, 1.2 * (double)district["drop-volts-at-least"]!);
        Assert.Equal((double)district["lowest-volts"]!, district["places"]!.AsArray().Min(place => (double)place!["volts"]!), 1e-9);
        Wireup.Outcome text = await Wireup.RunAsync(folder.Path, "power", Yard, "--trains", "3");
        Assert.Contains("Worst places of 3 trains", text.Output, StringComparison.Ordinal);
        Wireup.Outcome wrong = await Wireup.RunAsync(folder.Path, "power", Yard, "--trains", "0");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("a number from 1 to 60", wrong.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("main-1 > yard-2b > siding-1", "coming to 'yard-2b' this way, no train can go on to 'siding-1' without changing direction")]
    [InlineData("main-1 > nowhere", "there is no piece \"nowhere\"")]
    public async Task A_route_that_cannot_be_driven_is_refused_and_says_where(string route, string words)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--route", route);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(words, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_turnout_that_a_route_needs_both_ways_has_to_be_set()
    {
        using ScratchFolder folder = new();
        string[] asked = ["power", "sample-layouts/tarrow-valley-as-built.layout.yaml", "--route", "bog-1 > sedge-5 > bog-1"];
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, asked);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("say for which to solve, such as --set 'T1=", outcome.Error, StringComparison.Ordinal);
        Wireup.Outcome set = await Wireup.RunAsync(folder.Path, [.. asked, "--set", "T1=through"]);
        Assert.Equal(1, set.ExitCode);
        Wireup.Outcome wrong = await Wireup.RunAsync(folder.Path, "power", Yard, "--route", "main-1 > main-2", "--set", "T1=diverging");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("passes 'T1' set to through, but --set says diverging", wrong.Error, StringComparison.Ordinal);
    }
}
