using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace WireUp.Acceptance.Tests.Program;

/// <summary>What <c>--json</c> prints is what <c>docs/results.schema.json</c> says, key by key: a key that is not there, or is missing, fails.</summary>
public class ResultSchemaTests
{
    private const string Yard = "sample-layouts/home-yard.layout.yaml", Branch = "sample-layouts/slate-branch.layout.yaml";

    public static TheoryData<string, string[]> Results => new()
    {
        { "check", ["check", "sample-layouts/two-cabs.layout.yaml", "--why-gaps", "--cabs"] },
        { "check", ["check", "sample-layouts/tarrow-valley-as-built.layout.yaml"] },
        { "plan", ["plan", Yard] },
        { "plan", ["plan", "sample-layouts/three-rail.layout.yaml"] },
        { "what-if", ["plan", "sample-layouts/balloon-loop.layout.yaml", "--what-if", "longest-train 2.4 m"] },
        { "power", ["power", Yard, "--at", "main-2@0.4 m", "--route", "main-1 > main-3"] },
        { "power", ["power", "sample-layouts/balloon-loop.layout.yaml"] },
        { "session", ["power", Yard, "--session", "30min"] },
        { "wire", ["wire", "12 m", "5 A"] },
        { "diagnose", ["diagnose", Branch, "--readings", "sample-layouts/slate-branch.readings.yaml"] },
        { "diagnose", ["diagnose", Branch, "--symptom", "short while the turnout moves"] },
        { "survey", ["diagnose", Branch, "--survey", "3"] },
        { "compare", ["compare", "sample-layouts/tarrow-valley.layout.yaml", "sample-layouts/tarrow-valley-as-built.layout.yaml"] },
    };

    [Theory]
    [MemberData(nameof(Results))]
    public async Task What_is_printed_is_what_the_schema_says(string definition, string[] question)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome outcome = await Wireup.RunAsync(folder.Path, [.. question, "--json"]);
        EvaluationResults results = Held(definition, outcome.Output);
        Assert.True(results.IsValid, string.Join('\n', (results.Details ?? []).Where(detail => detail.Errors is not null)
            .SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}")).Take(20)));
    }

    [Theory]
    [InlineData("""{ "findings": [], "summary": { "errors": 0, "warnings": 0, "advice": 0 } }""", true)]
    [InlineData("""{ "findings": [], "summary": { "errors": 0, "warnings": 0, "advice": 0, "more": 0 } }""", false)]
    [InlineData("""{ "findings": [], "summary": { "errors": 0, "warnings": 0 } }""", false)]
    [InlineData("""{ "findings": [], "summary": { "errors": "none", "warnings": 0, "advice": 0 } }""", false)]
    public void A_key_too_many_or_too_few_and_a_wrong_kind_are_noticed(string result, bool fits) => Assert.Equal(fits, Held("check", result).IsValid);

    private static EvaluationResults Held(string definition, string result)
    {
        JsonNode schema = JsonNode.Parse(RepoFiles.ReadText("docs/results.schema.json"))!;
        schema["$ref"] = $"#/$defs/{definition}";
        return JsonSchema.FromText(schema.ToJsonString()).Evaluate(JsonDocument.Parse(result).RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
    }
}
