using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup power --session</c>: the operated load.</summary>
public sealed class SessionTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml";

    [Fact]
    public async Task Rule_placed_and_operated_load_stand_side_by_side()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--session", "30 min", "--load", "main-2@0.4 m=0.7 A");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("the rule asks", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("100 % (largest seen)", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("0.70 A", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("sessions of 0.5 h, seed 1", outcome.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("coin test", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("choose at random", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_seed_prints_the_same_to_the_last_byte()
    {
        using ScratchFolder folder = new();
        string[] asked = ["power", Yard, "--session", "1h", "--seed", "7", "--json"];
        Wireup.Outcome one = await Wireup.RunAsync(folder.Path, asked), other = await Wireup.RunAsync(folder.Path, asked);
        Assert.Equal(one.Output, other.Output);
        JsonNode session = one.Json["session"]!;
        Assert.True((bool)session["sure"]!);
        foreach (JsonNode? row in session["districts"]!.AsArray().Concat(session["boosters"]!.AsArray()))
        {
            double[] percentiles = [.. row!["percentiles"]!.AsArray().Select(percentile => (double)percentile!["amps"]!), (double)row["largest-amps"]!];
            Assert.Equal(percentiles.Order(), percentiles);
            Assert.InRange((double)row["mean-amps"]!, 1e-3, percentiles[^1]);
        }
    }

    [Fact]
    public async Task The_currents_are_drawn_row_by_row()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--session", "30min", "--plot", "evening.svg", "--json");
        Assert.Equal(0, outcome.ExitCode);
        string svg = await File.ReadAllTextAsync(Path.Combine(folder.Path, "evening.svg"), TestContext.Current.CancellationToken);
        JsonNode session = outcome.Json["session"]!;
        foreach (JsonNode? row in session["districts"]!.AsArray().Concat(session["boosters"]!.AsArray()).Append(session["railway"]))
        {
            Assert.Contains($">{(string?)row!["name"]}</text>", svg, StringComparison.Ordinal);
        }

        Wireup.Outcome refused = await Wireup.RunAsync(folder.Path, "power", Yard, "--session", "30min", "--plot", "evening.txt");
        Assert.Equal(2, refused.ExitCode);
        Assert.Contains("should end in .svg, .png or .pdf", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_cab_layout_has_no_sessions_and_says_why()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", "sample-layouts/two-cabs.layout.yaml", "--session", "1h");
        Assert.Contains("a cab drives one train at a time", outcome.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("soon")]
    [InlineData("-1h")]
    [InlineData("0 min")]
    [InlineData("3")]
    [InlineData("25h")]
    public async Task A_time_that_is_none_is_refused(string time)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, $"--session={time}");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("expected a time of up to 24 h", outcome.Error, StringComparison.Ordinal);
    }
}
