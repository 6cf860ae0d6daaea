using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup wire</c>, and loads of every kind of <c>wireup power</c>, from the command line.</summary>
public class WireTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml";

    [Fact]
    public async Task Question_has_an_answer_a_table_and_sources()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "wire", "12 m", "5 A");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("Thinnest that will do: 12 AWG or 4 mm2.", outcome.Output, StringComparison.Ordinal);
        Assert.Matches(@"14 AWG +0\.199 Ω +6\.6 % +37\.6 A +12\.5 A +drops more than 5 %", outcome.Output);
        Assert.Contains("ASTM B258", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("no published source", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_size_that_will_do_is_a_finding_and_a_word_that_cannot_be_read_an_error()
    {
        using ScratchFolder folder = new();
        Assert.Equal(1, (await Wireup.RunAsync(folder.Path, "wire", "300 m", "5 A")).ExitCode);
        Wireup.Outcome wrong = await Wireup.RunAsync(folder.Path, "wire", "12 m", "5 V");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("5 V", wrong.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Json_has_every_size()
    {
        using ScratchFolder folder = new();
        JsonArray wires = JsonNode.Parse((await Wireup.RunAsync(folder.Path, "wire", "12 m", "5 A", "--json")).Output)!["wires"]!.AsArray();
        Assert.Equal(15, wires.Count);
        Assert.True(wires[0]!["will-do"]!.GetValue<bool>());
        Assert.Equal(["drops more than 5 %"], wires[2]!["broken"]!.AsArray().Select(text => text!.ToString()));
    }

    [Theory]
    [InlineData("main-2@0.7 m=0.5 A", "0.500 A")]
    [InlineData("main-2@0.7 m=7 W", "0.487 A")]
    [InlineData("main-2@0.7 m=30 ohm", "0.480 A")]
    [InlineData("main-2@0.7 m=switcher", "0.250 A")]
    public async Task Loads_are_currents_powers_or_resistances(string load, string drawn)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--load", load);
        Assert.Matches($@"main-2@0\.7 m +\d+\.\d+ V +{drawn}", outcome.Output);
    }

    [Fact]
    public async Task More_power_than_can_be_had_is_said_and_has_no_volts()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--load", "main-2@0.7 m=900 W");
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("the volts collapse", outcome.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("drawn", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_load_that_is_none_of_these_is_refused_with_what_would_do()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "power", Yard, "--load", "main-2@0.7 m=a lot");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("name of a locomotive or train", outcome.Error, StringComparison.Ordinal);
    }
}
