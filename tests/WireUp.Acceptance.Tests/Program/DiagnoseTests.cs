using System.Text.Json.Nodes;

namespace WireUp.Acceptance.Tests.Program;

/// <summary><c>wireup diagnose</c> as a builder uses it, on the branch line with a joint gone bad.</summary>
public class DiagnoseTests
{
    private const string Branch = "sample-layouts/slate-branch.layout.yaml", Readings = "sample-layouts/slate-branch.readings.yaml";

    private const string Joint = "joint quarry-1.b–quarry-2.a, left rail";

    private const string Parting = "9.6 V from quarry-1.b/left to quarry-2.a/right under 0.5 A at quarry-3@0.5 m when T2.diverging";

    [Fact]
    public async Task The_joint_behind_the_sample_is_among_the_four_that_its_readings_leave()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--json");
        Assert.Equal(0, outcome.ExitCode);
        JsonNode[] faults = [.. outcome.Json["faults"]!.AsArray()!];
        JsonNode joint = faults.Single(fault => (string?)fault["element"] == Joint && (string?)fault["state"] == "high-resistance");
        Assert.Contains(joint, faults.Take(4));
        Assert.InRange((double)joint["ohms"]!, 50, 72);
        Assert.InRange(faults.Take(4).Sum(fault => (double)fault["probability"]!), 0.97, 1);
        Assert.Equal(4, faults.Count(fault => (int)fault["group"]! == (int)joint["group"]! && (double)fault["probability"]! > 0.01));
        Assert.Equal(4, joint["predicted"]!.AsArray().Count);
        JsonNode next = outcome.Json["next"]![0]!;
        Assert.True((double)next["gain-bits"]! > 0.5);
        Assert.Contains("quarry-", (string?)next["reading"], StringComparison.Ordinal);
        Assert.Empty(outcome.Json["unexplained"]!.AsArray());
    }

    [Fact]
    public async Task One_more_reading_makes_it_certain()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--reading", Parting);
        Assert.Equal(0, outcome.ExitCode);
        string first = outcome.Output.Split('\n').First(line => line.Contains(" A ", StringComparison.Ordinal));
        Assert.Contains(Joint, first, StringComparison.Ordinal);
        Assert.Matches(" 9[0-9]", first);
        foreach (string words in new[] { "mend       solder a short jumper", "beware     power off", "measure next", "never measure on mains", "nothing that rails and wires explain" })
        {
            Assert.Contains(words, outcome.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Readings_that_contradict_each_other_are_told_with_the_worst_of_them()
    {
        using ScratchFolder folder = new();
        const string Impossible = "2 V from quarry-2.b/left to quarry-3.a/right under 0.5 A at quarry-3@0.5 m when T2.diverging";
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--reading", Parting, "--reading", Impossible);
        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("No fault of the layout explains all readings", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("standard deviations off the best explanation", string.Join(' ', outcome.Output.Split(default(char[]), StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_symptom_that_a_bad_joint_explains_contradicts_nothing_though_nothing_wrong_may_be_as_likely()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--symptom", "stops at quarry-3@0.5 m when T2.diverging");
        Assert.Equal(0, outcome.ExitCode);
        Assert.DoesNotContain("explains all readings", outcome.Output, StringComparison.Ordinal);
        Assert.Matches("stops at quarry-3@0.5 m when T2.diverging +14.19 V +[0-9].[0-9]+ V +[01].[0-9] σ", outcome.Output);
    }

    [Fact]
    public async Task What_pairs_that_were_not_weighed_could_take_is_told_with_pairs_and_only_then()
    {
        using ScratchFolder folder = new();
        Assert.DoesNotContain("not weighed", (await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings)).Output, StringComparison.Ordinal);
        Assert.Matches("Pairs of faults that were not weighed would take (< )?[0-9.]+ % of these figures at most", (await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--pairs")).Output);
    }

    [Fact]
    public async Task A_healthy_railway_is_told_to_be_one()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--reading", "quarry-3@0.5 m=14.5 V when T2.diverging", "--reading", "quarry-3@0.5 m=14 V under 0.5 A when T2.diverging", "--json");
        Assert.Equal(1, outcome.ExitCode);
        Assert.True((double)outcome.Json["nothing-wrong"]! > 0.5, outcome.ToString());
    }

    [Fact]
    public async Task A_place_that_the_turnouts_cut_off_is_remarked_on()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--symptom", "dead at quarry-3@0.5 m");
        Assert.Contains("no power reaches this place even without a fault", outcome.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Symptoms_in_free_words_are_answered_from_the_list()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--symptom", "short while the turnout moves");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Contains("the contact changes before the blades have left", outcome.Output, StringComparison.Ordinal);
        Assert.Contains("common practice, no published source", outcome.Output, StringComparison.Ordinal);
        Wireup.Outcome json = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--symptom", "short while the turnout moves", "--json");
        Assert.Equal("common-practice", (string?)json.Json["advice"]![0]!["standing"]);
        Assert.Empty(json.Json["faults"]!.AsArray());
    }

    [Fact]
    public async Task Suspected_places_are_lettered_on_the_plan()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--picture", "a.svg");
        Assert.Equal(0, outcome.ExitCode);
        string svg = await File.ReadAllTextAsync(folder.PathOf("a.svg"), TestContext.Current.CancellationToken);
        Assert.Contains("suspected parts", svg, StringComparison.Ordinal);
        Assert.Matches("mark-A", svg);
        Assert.Equal(2, (await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--picture", "a.txt")).ExitCode);
    }

    [Fact]
    public async Task A_cure_is_logged_and_weighs_the_next_time()
    {
        using ScratchFolder folder = new();
        double before = await ProbabilityAsync(folder);
        Wireup.Outcome cured = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--cured", "joint quarry-1.b/left", "--cure", "soldered a jumper");
        Assert.Equal(0, cured.ExitCode);
        string log = await File.ReadAllTextAsync(folder.PathOf("sample-layouts/slate-branch.faults.yaml"), TestContext.Current.CancellationToken);
        Assert.Contains($"part: \"{Joint}\", kind: joiner, state: high-resistance, date: 2026-03-01, cure: soldered a jumper", log, StringComparison.Ordinal);
        Assert.Contains("stops at quarry-3@0.5 m with tank when T2.diverging", log, StringComparison.Ordinal);
        Assert.True(await ProbabilityAsync(folder) > 1.1 * before);
        Assert.Equal(2, (await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--cured", "joint quarry-1.b", "--cure", "x", "--date", "2026-03-02")).ExitCode);
    }

    [Fact]
    public async Task A_survey_lists_the_joints_most_worth_measuring()
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--survey", "5");
        Assert.Equal(0, outcome.ExitCode);
        Assert.Equal(5, outcome.Output.Split('\n').Count(line => line.Contains("[      ] mV", StringComparison.Ordinal)));
        Wireup.Outcome json = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--survey", "5", "--json");
        Assert.Equal(5, json.Json["survey"]!.AsArray().Count);
        Assert.Equal(2, (await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--survey", "0")).ExitCode);
    }

    [Theory]
    [InlineData("nothing was measured or seen", "diagnose", Branch)]
    [InlineData("expected a voltage such as 14.5 V", "diagnose", Branch, "--reading", "quarry-3@0.5 m=6")]
    [InlineData("is neither a reading nor one of the symptoms listed", "diagnose", Branch, "--symptom", "the kettle sings")]
    [InlineData("'hammer' is not a tool", "diagnose", Branch, "--symptom", "dead at bay@0.5 m", "--tools", "volts,hammer")]
    [InlineData("--cured needs --cure", "diagnose", Branch, "--cured", "f1")]
    [InlineData("needs the day", "diagnose", Branch, "--cured", "feeder f1, leg A", "--cure", "x")]
    [InlineData("is not a day", "diagnose", Branch, "--cured", "feeder f1, leg A", "--cure", "x", "--date", "1.3.2026")]
    [InlineData("there is no file", "diagnose", Branch, "--readings", "none.yaml")]
    [InlineData("it needs a booster", "diagnose", "sample-layouts/balloon-loop.layout.yaml", "--symptom", "dead at hill@0.5 m")]
    public async Task What_cannot_be_read_is_refused_and_says_why(string words, params string[] arguments)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, arguments);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(words, outcome.Error, StringComparison.Ordinal);
    }

    private static async Task<double> ProbabilityAsync(ScratchFolder folder)
    {
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, "diagnose", Branch, "--readings", Readings, "--json");
        return outcome.Json["faults"]!.AsArray().Where(fault => (string?)fault!["element"] == Joint).Sum(fault => (double)fault!["probability"]!);
    }
}
