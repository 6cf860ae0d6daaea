using System.Text.Json;
using System.Text.RegularExpressions;
using Json.Schema;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Tests.Exact;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Rules;

/// <summary>The schema and the handbook's page of the readings file against the reader.</summary>
public sealed partial class ReadingsRulesTests
{
    /// <summary>Codes for what lies in the shape of a file; the others need the layout.</summary>
    private static readonly string[] SeenBySchema = ["WU1005", "WU1006", "WU1007", "WU1008", "WU1010", "WU1011", "WU1012"];

    /// <summary>What is expected where the schema cannot see the fault: it does not know the layout's frogs and boosters.</summary>
    private static readonly string[] NotSeen = ["frog-1-2", "booster:"];

    private static readonly string[] Common = ["turnouts", "switches", "supply", "note"];

    private static readonly string Text = RepoFiles.ReadText("docs/readings.schema.json");

    private static readonly JsonSchema Schema = JsonSchema.FromText(Text);

    private static readonly string Page = RepoFiles.ReadText("docs/readings-format.md");

    public static TheoryData<string> Readings => [.. ReadingsFileTests.Readings.Select(row => row.Data.Item1)];

    public static TheoryData<string, string> Faults =>
        [.. ReadingsFileTests.Faults.Where(row => SeenBySchema.Contains(row.Data.Item2) && !NotSeen.Contains(row.Data.Item4) && row.Data.Item1.Length > 1)
            .Select(row => (Marked.Parse(row.Data.Item1).Text, row.Data.Item2))];

    public static TheoryData<string> Mappings => [.. ReadingKeys.All.Select(keys => keys.What)];

    [Theory]
    [MemberData(nameof(Readings))]
    public void What_the_reader_accepts_the_schema_accepts(string reading) => Assert.True(IsValid($"readings:\n  - {{ {reading} }}\n"));

    [Theory]
    [MemberData(nameof(Faults))]
    public void What_the_reader_refuses_in_shape_the_schema_refuses(string file, string code)
    {
        Assert.Contains(ReadingsFile.Read(MeasuredLayout.Layout, file, "test").Problems, problem => problem.Code == code);
        Assert.False(IsValid(file), file);
    }

    [Fact]
    public void Enough_faults_are_compared() => Assert.True(Faults.Count >= 20, $"{Faults.Count} of {ReadingsFileTests.Faults.Count}");

    [Theory]
    [MemberData(nameof(Mappings))]
    public void Every_key_of_a_mapping_is_in_the_schema_and_has_its_row(string what)
    {
        KeySet keys = ReadingKeys.All.Single(keys => keys.What == what);
        using JsonDocument document = JsonDocument.Parse(Text);
        JsonElement mapping = keys == ReadingKeys.Root ? document.RootElement : document.RootElement.GetProperty("$defs").GetProperty(DefinitionOf(keys));
        Assert.Equal(keys.Keys.Order(StringComparer.Ordinal), mapping.GetProperty("properties").EnumerateObject().Select(property => property.Name).Order(StringComparer.Ordinal));
        IEnumerable<string> own = ReadingKeys.Kinds.Contains(keys) ? keys.Keys.Except(Common) : keys.Keys;
        Assert.Equal(own.Order(StringComparer.Ordinal), FirstCells(Section(what)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Keys_that_any_reading_may_have_have_their_rows() =>
        Assert.Equal(Common.Order(StringComparer.Ordinal), FirstCells(Section("any reading")).Order(StringComparer.Ordinal));

    [Fact]
    public void Everything_in_the_schema_says_what_it_is()
    {
        using JsonDocument document = JsonDocument.Parse(Text);
        foreach (JsonProperty definition in document.RootElement.GetProperty("$defs").EnumerateObject())
        {
            Assert.True(definition.Value.TryGetProperty("description", out _), definition.Name);
        }
    }

    [Fact]
    public void The_whole_file_of_the_page_is_read_and_valid()
    {
        string file = Example().Match(Page).Groups["text"].Value;
        Layout layout = LayoutFile.Read("""
            wireup: 1
            name: Cold Ridge
            longest-train: 1 m
            track: { spur: { length: 1.2 m }, loop: { length: 1 m }, siding: { length: 1 m }, T1: { turnout: right, frog: live } }
            joined: [ loop > T1.through, T1.points > spur, T1.diverging > siding ]
            wiring:
              boosters: { main: { amps: 3 A } }
              districts: { yard: { booster: main, trip: 2 A } }
              bus: { yard: { wire: 14 AWG, runs: [ main > P1 1 m ] } }
              feeders: { f1: { at: loop@450, bus: P1, wire: 20 AWG, length: 250 } }
            stock: { locomotives: { switcher: { running: 0.25 A } } }
            """, "layout").Layout!;
        ReadingsReading read = ReadingsFile.Read(layout, file, "page");
        Assert.Equal([], read.Problems.Select(problem => problem.ToString()));
        Assert.Equal(9, read.Readings!.Readings.Length);
        Assert.True(IsValid(file));
    }

    private static bool IsValid(string text) => Schema.Evaluate(YamlAsJson.Convert(text)!.Value).IsValid;

    private static string DefinitionOf(KeySet keys) => keys.What switch
    {
        "a load" => "load-elsewhere",
        { } what when ReadingKeys.Kinds.Contains(keys) => keys.Keys[0],
        { } what => what[(what.IndexOf(' ', StringComparison.Ordinal) + 1)..].Replace(' ', '-'),
    };

    /// <summary>The text under a heading, to the next one.</summary>
    private static string Section(string heading)
    {
        Match start = Regex.Match(Page, $"^## {Regex.Escape(heading)}$", RegexOptions.Multiline | RegexOptions.IgnoreCase, TimeSpan.FromSeconds(1));
        Assert.True(start.Success, $"no heading \"{heading}\"");
        int to = Page.IndexOf("\n#", start.Index, StringComparison.Ordinal);
        return to < 0 ? Page[start.Index..] : Page[start.Index..to];
    }

    private static IEnumerable<string> FirstCells(string section) =>
        KeyRow().Matches(section).SelectMany(row => row.Groups["keys"].Value.Split(',')).Select(key => key.Trim(' ', '`'));

    [GeneratedRegex(@"^\| (?<keys>`[a-z-]+`(, `[a-z-]+`)*) \|", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex KeyRow();

    [GeneratedRegex(@"```yaml\n(?<text>wireup: 1\n.*?)```", RegexOptions.Singleline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Example();
}
