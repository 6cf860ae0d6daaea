using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup import</c>, from the command line: the sample drawings become layouts that can be checked at once.</summary>
public class ImportTests
{
    [Theory]
    [InlineData("oval", 5, 3, 0, "--layer", "track")]
    [InlineData("ladder", 7, 3, 0, "--width", "10 ft", "--layer", "Yard tracks")]
    [InlineData("crossing", 7, 0, 2, "--unit", "1 = 1 cm")]
    [InlineData("figure-eight", 2, 0, 1, "--unit", "1 = 1 mm")]
    [InlineData("figure-eight", 1, 0, 0, "--unit", "1 = 1 mm", "--answer", "crossing-1=bridge")]
    public async Task A_sample_drawing_becomes_a_layout_that_can_be_checked(string drawing, int sections, int turnouts, int crossings, params string[] options)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, ["import", $"sample-drawings/{drawing}.svg", "-o", "new.layout.yaml", "--json", .. options]);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        JsonNode pieces = outcome.Json["pieces"]!;
        Assert.Equal((sections, turnouts, crossings), ((int)pieces["sections"]!, (int)pieces["turnouts"]!, (int)pieces["crossings"]!));
        Wireup.Outcome check = await Wireup.RunAsync(folder.Path, "check", "new.layout.yaml");
        Assert.True(check.ExitCode is 0 or 1, check.ToString());
    }

    [Fact]
    public async Task A_line_of_more_than_ten_kilometres_is_refused_in_words_and_nothing_is_written()
    {
        using ScratchFolder folder = new();
        await File.WriteAllTextAsync(folder.PathOf("far.svg"), """<svg xmlns="http://www.w3.org/2000/svg" width="12in" height="3in" viewBox="0 0 1200 300"><polyline fill="none" stroke="black" points="0,10 2400000,10 0,200"/></svg>""", TestContext.Current.CancellationToken);
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "import", "far.svg", "-o", "far.layout.yaml", "--width", "3 m");
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("the lines do not make a layout: the centre line is", outcome.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.PathOf("far.layout.yaml")));
    }

    [Fact]
    public async Task A_file_that_is_there_stays_unless_it_is_to_be_replaced()
    {
        using ScratchFolder folder = new();
        string[] import = ["import", "sample-drawings/oval.svg", "-o", "oval.layout.yaml", "--layer", "track"];
        Assert.Equal(0, (await Wireup.RunAsync(folder.Path, import)).ExitCode);
        string first = await File.ReadAllTextAsync(folder.PathOf("oval.layout.yaml"), TestContext.Current.CancellationToken);
        Assert.Equal(2, (await Wireup.RunAsync(folder.Path, import)).ExitCode);
        Assert.Equal(0, (await Wireup.RunAsync(folder.Path, [.. import, "--replace"])).ExitCode);
        Assert.Equal(first, await File.ReadAllTextAsync(folder.PathOf("oval.layout.yaml"), TestContext.Current.CancellationToken));
    }

    [Theory]
    [InlineData("nothing says how large", "sample-drawings/figure-eight.svg")]
    [InlineData("\"Yard tracks\", \"Notes\"", "sample-drawings/ladder.svg", "--width", "10 ft", "--layer", "yard")]
    [InlineData("--unit '1 = 1 A'", "sample-drawings/oval.svg", "--unit", "1 = 1 A")]
    [InlineData("give one of them", "sample-drawings/oval.svg", "--unit", "1 = 1 mm", "--width", "3 m")]
    [InlineData("--scale 'Q'", "sample-drawings/oval.svg", "--scale", "Q")]
    [InlineData("not XML", "sample-layouts/wye.layout.yaml", "--width", "3 m")]
    [InlineData("there is no file", "nowhere.svg", "--width", "3 m")]
    public async Task What_cannot_be_traced_is_said_and_nothing_is_written(string said, params string[] arguments)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, ["import", .. arguments, "-o", "new.layout.yaml"]);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.PathOf("new.layout.yaml")));
    }
}
