using System.Text.Json;
using CsCheck;
using Json.Schema;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Tests.Exact;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Rules;

/// <summary>The schema and the reader against each other: what one accepts the other does, as far as a schema can see.</summary>
public sealed class SchemaTests
{
    /// <summary>Codes for what lies in the shape of a file. The others need names looked up, or strings measured.</summary>
    private static readonly string[] SeenBySchema =
        ["WU1005", "WU1006", "WU1007", "WU1008", "WU1010", "WU1011", "WU1012", "WU1014"];

    /// <summary>Offending texts whose fault lies in another part of the file: names, the defaults, the control system.</summary>
    private static readonly string[] NotSeen = ["main", "left", "centre"];

    private static readonly string Text = RepoFiles.ReadText("docs/layout.schema.json");

    private static readonly JsonSchema Schema = JsonSchema.FromText(Text);

    public static TheoryData<string> Samples => SampleTests.Samples;

    public static TheoryData<string, string, string, string> Faults =>
        [.. ProblemTests.Cases.Where(row => SeenBySchema.Contains(row.Data.Item2) && !NotSeen.Contains(row.Data.Item3) && YamlAsJson.Convert(Marked.Parse(row.Data.Item1).Text) is not null)];

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_is_valid(string sample) => AssertValid(RepoFiles.ReadText($"sample-layouts/{sample}"));

    [Fact]
    public void Whatever_the_writer_writes_is_valid() =>
        Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Int[1, 12], RandomLayout.Make)
            .Sample(layout => AssertValid(LayoutFile.Write(layout)), iter: 100, threads: 1);

    public static TheoryData<string> Pieces => TrackworkReadingTests.Texts;

    [Theory]
    [MemberData(nameof(Pieces))]
    public void A_piece_of_any_kind_is_valid(string text) => AssertValid(EveryPiece.File(text));

    [Theory]
    [MemberData(nameof(Faults))]
    public void What_the_reader_refuses_in_shape_the_schema_refuses(string marked, string code, string text, string expected)
    {
        string file = Marked.Parse(marked).Text;
        Assert.Contains(LayoutFile.Read(file, "test").Problems, problem => problem.Code == code);
        Assert.False(IsValid(file), $"{text} ({expected}) is accepted by the schema:\n{file}");
    }

    [Theory]
    [InlineData("turnout: left, frog: insulated, frog-feed: contact")]
    [InlineData("turnout: left, frog: live, power-routing: true")]
    [InlineData("turnout: left, frog: insulated, stub: true, power-routing: true")]
    [InlineData("turnout: left, frog: live, heel: frog")]
    [InlineData("turnout: left, frog: isolated, contact: early")]
    [InlineData("turnout: left, ties: insulating, uncut: [switch]")]
    [InlineData("turnout: wye, curved: true")]
    [InlineData("turnout: three-way, legs: 4")]
    [InlineData("turnout: left, legs: 4")]
    [InlineData("turnout: multi, legs: 10")]
    [InlineData("turnout: three-way, frog: isolated, power-routing: true")]
    [InlineData("crossing: 30 deg, frog: isolated, phase: same")]
    [InlineData("slip: double, frog: live, frog-feed: sensor, frog-drive: route")]
    [InlineData("scissors: 20 deg, frog: insulated, frog-feed: sensor")]
    [InlineData("turntable: 1, length: 300")]
    [InlineData("turntable: 101, length: 300")]
    [InlineData("turntable: 24, length: 300, split-after: 12")]
    [InlineData("turntable: 24, length: 300, feed: split-ring, split-after: 0")]
    [InlineData("transfer-table: 0, length: 300")]
    [InlineData("transfer-table: 5, length: 300, feed: split-ring")]
    public void What_contradicts_itself_within_a_piece_both_refuse(string piece)
    {
        string file = $"wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  u: {{ {piece} }}\n";
        Assert.Contains(Assert.Single(LayoutFile.Read(file, "test").Problems).Rule, new[] { LayoutRules.Contradiction, LayoutRules.OutOfRange });
        Assert.False(IsValid(file));
    }

    [Fact]
    public void The_file_that_the_faults_are_put_into_is_valid() => AssertValid(ProblemTests.Base + ProblemTests.Wired);

    [Fact]
    public void Enough_faults_are_compared() => Assert.True(Faults.Count >= 60, $"{Faults.Count} of {ProblemTests.Cases.Count}");

    [Fact]
    public void The_schema_knows_every_unit_the_reader_knows()
    {
        AssertUnits(QuantityKinds.Length.Units.Keys, unit => $"longest-train: 1 {unit}");
        AssertUnits(QuantityKinds.Percent.Units.Keys, unit => $"max-drop: 5 {unit}");
        AssertUnits(QuantityKinds.Temperature.Units.Keys, unit => $"defaults: {{ temperature: 20 {unit} }}");
        AssertUnits(QuantityKinds.Ohms.Units.Keys, unit => $"defaults: {{ resistance: {{ coin: 5 {unit} }} }}");
        AssertUnits(QuantityKinds.Amps.Units.Keys, unit => $"wiring: {{ boosters: {{ b: {{ amps: 5 {unit} }} }} }}");
        AssertUnits(QuantityKinds.Volts.Units.Keys, unit => $"wiring: {{ boosters: {{ b: {{ amps: 5 A, volts: 1000 {unit} }} }} }}", 15);
        AssertUnits(QuantityKinds.Watts.Units.Keys, unit => $"wiring: {{ supplies: {{ b: {{ output: 15 V dc, rating: 90 {unit} }} }} }}");
        AssertUnits(QuantityKinds.Degrees.Units.Keys, unit => $"track: {{ s: {{ length: 1 m }}, X: {{ crossing: 30 {unit} }} }}");
    }

    [Theory]
    [InlineData("s: { length: 7 ft 6 in }")]
    [InlineData("s: { length: 1 1/2 in }")]
    [InlineData("s: { length: .5 m }")]
    [InlineData("s: { length: 1e3 mm }")]
    [InlineData("s: { length: '1200' }")]
    [InlineData("s: { length: +3 m, path: [[0, 0], [-1.5 m, 3 in]] }")]
    [InlineData("s: { length: 1 m, rail: }")]
    [InlineData("1: { length: 1 m }")]
    [InlineData("Ü_1-b: { length: 1 m, x-bought: yesterday }")]
    [InlineData("x-list: 12\n  s: { length: 1 m }")]
    [InlineData("T: { turnout: wye, length: 0, dead-length: 12 mm, number: 4.5, frog: isolated, frog-feed: contact }")]
    public void What_the_reader_accepts_the_schema_accepts(string piece)
    {
        string file = $"wireup: 1\nname: x\nlongest-train: 1 m\ntrack:\n  {piece}\n";
        Assert.Equal([], LayoutFile.Read(file, "test").Problems);
        AssertValid(file);
    }

    [Fact]
    public void Every_mapping_of_the_schema_has_exactly_the_keys_of_the_reader()
    {
        using JsonDocument document = JsonDocument.Parse(Text);
        foreach (KeySet keys in FormatKeys.All)
        {
            JsonElement mapping = keys == FormatKeys.Root ? document.RootElement : document.RootElement.GetProperty("$defs").GetProperty(DefinitionOf(keys));
            IEnumerable<string> properties = mapping.GetProperty("properties").EnumerateObject().Select(property => property.Name);
            Assert.Equal(keys.Keys.Order(StringComparer.Ordinal), properties.Order(StringComparer.Ordinal));
        }
    }

    [Fact]
    public void The_schema_and_the_page_know_every_kind_of_part_that_can_fail()
    {
        IEnumerable<string> kinds = Enum.GetValues<FaultElementKind>().Select(kind => kind.Word());
        using JsonDocument document = JsonDocument.Parse(Text);
        JsonElement chances = document.RootElement.GetProperty("$defs").GetProperty("fault-priors").GetProperty("properties").GetProperty("chances");
        Assert.Equal(kinds, chances.GetProperty("properties").EnumerateObject().Select(property => property.Name));
        string page = RepoFiles.ReadText("docs/layout-format.md");
        Assert.All(kinds, kind => Assert.Contains($"`{kind}`", page, StringComparison.Ordinal));
    }

    [Fact]
    public void Everything_in_the_schema_says_what_it_is()
    {
        using JsonDocument document = JsonDocument.Parse(Text);
        foreach (JsonProperty definition in document.RootElement.GetProperty("$defs").EnumerateObject())
        {
            foreach (JsonProperty property in PropertiesOf(definition.Value))
            {
                bool isSaid = property.Value.TryGetProperty("description", out _)
                    || (property.Value.TryGetProperty("$ref", out JsonElement reference)
                        && document.RootElement.GetProperty("$defs").GetProperty(reference.GetString()!.Split('/')[^1]).TryGetProperty("description", out _));
                Assert.True(isSaid, $"{definition.Name}.{property.Name} has no description");
            }
        }
    }

    private static IEnumerable<JsonProperty> PropertiesOf(JsonElement definition) =>
        definition.TryGetProperty("properties", out JsonElement properties) ? properties.EnumerateObject() : [];

    private static string DefinitionOf(KeySet keys) => keys.What switch
    {
        "a joint" => "long-joint",
        "the default resistances" => "default-resistance",
        "a turnout of three legs or more" => "multi-turnout",
        "a scissors crossover" => "scissors",
        "a transfer table" => "transfer-table",
        "the fault priors" => "fault-priors",
        { } what => what[(what.IndexOf(' ', StringComparison.Ordinal) + 1)..],
    };

    private static void AssertUnits(IEnumerable<string> units, Func<string, string> line, int number = 0)
    {
        foreach (string unit in units)
        {
            string written = number > 0 && !unit.StartsWith('m') ? line(unit).Replace("1000 ", $"{number} ", StringComparison.Ordinal) : line(unit);
            string file = "wireup: 1\nname: x\n" + (written.StartsWith("longest", StringComparison.Ordinal) ? "" : "longest-train: 1 m\n")
                + (written.StartsWith("track", StringComparison.Ordinal) ? "" : "track: { s: { length: 1 m } }\n") + written + "\n";
            Assert.Equal([], LayoutFile.Read(file, "test").Problems.Where(problem => problem.Rule != LayoutRules.OutOfRange));
            AssertValid(file);
        }
    }

    private static bool IsValid(string text) => Schema.Evaluate(YamlAsJson.Convert(text)!.Value).IsValid;

    private static void AssertValid(string text)
    {
        EvaluationResults results = Schema.Evaluate(YamlAsJson.Convert(text)!.Value, new EvaluationOptions { OutputFormat = OutputFormat.List });
        IEnumerable<string> errors = (results.Details ?? []).Where(detail => detail.Errors is not null)
            .SelectMany(detail => detail.Errors!.Select(error => $"{detail.InstanceLocation}: {error.Value}"));
        Assert.True(results.IsValid, string.Join('\n', errors.Take(12)) + "\n" + text);
    }
}
