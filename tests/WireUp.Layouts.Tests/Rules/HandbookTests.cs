using System.Globalization;
using System.Text.RegularExpressions;
using WireUp.Layouts.Reading;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Tests.Rules;

/// <summary>The handbook's page on the layout file says what the reader does.</summary>
public sealed partial class HandbookTests
{
    private static readonly string Page = RepoFiles.ReadText("docs/layout-format.md");

    public static TheoryData<string> Mappings => [.. FormatKeys.All.Select(keys => keys.What)];

    [Theory]
    [MemberData(nameof(Mappings))]
    public void Every_key_of_a_mapping_has_its_row(string what)
    {
        KeySet keys = FormatKeys.All.First(keys => keys.What == what);
        Assert.Equal(keys.Keys.Order(StringComparer.Ordinal), FirstCells(Section(what)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Keys_that_belong_in_another_file_are_named() =>
        Assert.Contains("`readings`", Page, StringComparison.Ordinal);

    [Fact]
    public void Every_limit_is_stated() =>
        Assert.Equal(
            new[] { LayoutLimits.Characters, LayoutLimits.Depth, LayoutLimits.Parts, LayoutLimits.ScalarCharacters, LayoutLimits.Pieces, LayoutLimits.BenchworkPoints, LayoutLimits.NameCharacters, LayoutLimits.Problems },
            LimitRow().Matches(Section("limits")).Select(row => int.Parse(row.Groups["most"].Value, CultureInfo.InvariantCulture)));

    [Fact]
    public void Every_code_has_its_row() =>
        Assert.Equal(
            LayoutRules.All.Select(rule => $"| {rule.Code} | {rule.Title}{(rule.Severity == ProblemSeverity.Warning ? " (warning)" : "")} | {rule.Help} |"),
            Section("problems").Split('\n').Where(line => line.StartsWith("| WU", StringComparison.Ordinal)));

    [Fact]
    public void Codes_are_unique_and_of_the_file() =>
        Assert.All(LayoutRules.All.GroupBy(rule => rule.Code), group => Assert.Matches("^WU1[0-9]{3}$", Assert.Single(group).Code));

    [Fact]
    public void The_whole_file_of_the_page_is_read()
    {
        string file = Example().Match(Page).Groups["text"].Value;
        LayoutReading reading = LayoutFile.Read(file, "page");
        Assert.Equal([], reading.Problems);
        Assert.Equal(3, reading.Layout!.Track.Length);
    }

    [Fact]
    public void Words_of_the_reference_tables_are_all_listed()
    {
        Assert.Equal(ScaleTable.All.Select(scale => scale.Name), Words("the layout file", "scale"));
        Assert.Equal(RailTable.Alloys, Words("a rail", "alloy"));
    }

    [Fact]
    public void Defaults_that_are_stated_are_those_of_the_reader()
    {
        LayoutDefaults defaults = new();
        Assert.Equal("| `joiner` | resistance | `10 mohm` |", Row("the default resistances", "joiner"));
        Assert.Equal((0.01, 0.0005, 0.002, 0.05), (defaults.Joiner.Ohms, defaults.Soldered.Ohms, defaults.Tap.Ohms, defaults.Coin.Ohms));
        Assert.Equal((83, "nickel-silver"), (defaults.Rail.Code, defaults.Rail.Alloy));
        Assert.Equal("| `resistance` | resistance | `0.1 ohm` |", Row("a booster", "resistance"));
        Assert.Equal(0.1, DeviceTable.BoosterResistance.Ohms);
        Assert.Equal("| `resistance` | resistance | `0.05 ohm` |", Row("a district", "resistance"));
        Assert.Equal(0.05, DeviceTable.BreakerResistance.Ohms);
    }

    /// <summary>The text under a heading, to the next one.</summary>
    private static string Section(string heading)
    {
        Match start = Regex.Match(Page, $"^##+ {Regex.Escape(heading)}$", RegexOptions.Multiline | RegexOptions.IgnoreCase, TimeSpan.FromSeconds(1));
        Assert.True(start.Success, $"no heading \"{heading}\"");
        int from = start.Index + start.Length;
        int to = Page.IndexOf("\n#", from, StringComparison.Ordinal);
        return to < 0 ? Page[from..] : Page[from..to];
    }

    private static IEnumerable<string> FirstCells(string section) => KeyRow().Matches(section).Select(row => row.Groups["key"].Value);

    private static string Row(string heading, string key)
    {
        string row = Section(heading).Split('\n').First(line => line.StartsWith($"| `{key}` |", StringComparison.Ordinal));
        return string.Join('|', row.Split('|').Take(4)) + "|";
    }

    /// <summary>The words in the second cell of a row.</summary>
    private static IEnumerable<string> Words(string heading, string key) =>
        Row(heading, key).Split('|')[2].Split('`').Where((_, i) => i % 2 == 1);

    [GeneratedRegex(@"^\| `(?<key>[a-z-]+)` \|", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex KeyRow();

    [GeneratedRegex(@"\| (?<most>[0-9]+) \|$", RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex LimitRow();

    [GeneratedRegex(@"```yaml\n(?<text>wireup: 1\n.*?)```", RegexOptions.Singleline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Example();
}
