using System.Text.RegularExpressions;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>Lengths in a person's units, from the command line.</summary>
public partial class LengthTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml", Wharf = "sample-layouts/cinder-wharf.layout.yaml";

    [Fact]
    public async Task Asked_for_feet_an_answer_has_no_metre_and_its_places_can_be_typed_back()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome feet = await Wireup.RunAsync(folder.Path, "power", Yard, "--lengths", "feet", "--at", "main-2@0.5 m", "--route", "main-1 > main-2");
        Assert.Contains("main-2@1 ft 7 5/8 in", feet.Output, StringComparison.Ordinal);
        Assert.DoesNotMatch(Metric(), feet.Output);
        Wireup.Outcome again = await Wireup.RunAsync(folder.Path, "power", Yard, "--at", "main-2@1 ft 7 5/8 in");
        Assert.Contains("main-2@0.4985 m", again.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Layouts_in_inches_are_told_in_feet_unless_metric_is_asked_for()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome drawn = await Wireup.RunAsync(folder.Path, "draw", Wharf, "--out", "wharf.svg");
        Assert.Equal(0, drawn.ExitCode);
        Assert.Contains("ft on the railway", await File.ReadAllTextAsync(Path.Combine(folder.Path, "wharf.svg"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await Wireup.RunAsync(folder.Path, "draw", Wharf, "--out", "wharf.svg", "--lengths", "metric");
        Assert.Contains("mm on the railway", await File.ReadAllTextAsync(Path.Combine(folder.Path, "wharf.svg"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Findings_and_faults_are_told_in_feet_too_and_results_for_programs_keep_to_metres()
    {
        using ScratchFolder folder = new();
        string[] asked = ["diagnose", "sample-layouts/slate-branch.layout.yaml", "--symptom", "stops at quarry-3@0.5 m when T2.diverging", "--lengths", "feet"];
        Wireup.Outcome told = await Wireup.RunAsync(folder.Path, asked);
        Assert.Contains("quarry-3@1 ft 7 5/8 in", told.Output, StringComparison.Ordinal);
        Assert.DoesNotMatch(Metric(), told.Output);
        Assert.Contains("quarry-3@0.5 m", (await Wireup.RunAsync(folder.Path, [.. asked, "--json"])).Output, StringComparison.Ordinal);
        Assert.Contains(",length-in,cut-in,", (await Wireup.RunAsync(folder.Path, "export", Wharf, "--format", "csv")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_question_about_wire_is_repeated_in_the_units_in_which_it_was_typed()
    {
        using ScratchFolder folder = new();
        Assert.Contains("a pair 40 ft long, 80 ft of wire", (await Wireup.RunAsync(folder.Path, "wire", "40 ft", "3 A")).Output, StringComparison.Ordinal);
        Assert.Contains("a pair 12.00 m long", (await Wireup.RunAsync(folder.Path, "wire", "12 m", "3 A")).Output, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\b[0-9.]+ (?:m|mm)\b", RegexOptions.None, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Metric();
}
