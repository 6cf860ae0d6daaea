using System.Text.RegularExpressions;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking.Tests.Rules;

/// <summary>The pages in docs/findings: each is about a rule there is, and its examples do what it says.</summary>
public sealed partial class FindingPageTests
{
    /// <summary>Rules that no file on a page can bring about, and why; each has a test of its own below.</summary>
    private static readonly Dictionary<string, string> s_withoutExample = new()
    {
        ["WU3012"] = "takes more live frogs in rings without gaps than a page can hold",
    };

    /// <summary>Findings about shorts: one fault is told once.</summary>
    private static readonly HashSet<string> s_toldOnce = ["WU2004", "WU3001", "WU3002", "WU3003", "WU3004", "WU3005"];

    /// <summary>The one page whose faulty example the reader warns of as well, and that warning.</summary>
    private const string RingCode = "WU5002", RingWarning = "WU1025";

    /// <summary>Sections of a page, in this order.</summary>
    private static readonly string[] s_headings =
    [
        "What is checked", "Why it matters", "Faulty layout", "Corrected layout", "How to mend it", "When to ignore it",
        "Limits of this check", "Source",
    ];

    public static TheoryData<string> Codes => [.. FindingCatalogue.All.Select(descriptor => descriptor.Code)];

    public static TheoryData<string> CodesWithExamples =>
        [.. FindingCatalogue.All.Select(descriptor => descriptor.Code).Where(code => !s_withoutExample.ContainsKey(code))];

    [Theory]
    [MemberData(nameof(Codes))]
    public void Page_agrees_with_its_rule(string code)
    {
        FindingDescriptor descriptor = FindingCatalogue.Find(code)!;
        string[] lines = Page(code).Split('\n');
        Assert.Equal($"# {code}: {descriptor.Title}", lines[0]);
        Assert.Equal($"Severity: {descriptor.Severity.ToString().ToLowerInvariant()}", lines[2]);
        Assert.Equal(s_headings, lines.Where(line => line.StartsWith("## ", StringComparison.Ordinal)).Select(line => line[3..]));
        bool isPractice = descriptor.Source == FindingDescriptor.CommonPractice;
        Assert.Equal(isPractice, Page(code).Contains("\nCommon practice, no published source.", StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(CodesWithExamples))]
    public void Faulty_layout_has_the_finding_and_the_corrected_one_has_not(string code)
    {
        string[] examples = [.. Example().Matches(Page(code)).Select(match => match.Groups["text"].Value)];
        Assert.Equal(2, examples.Length);
        List<Finding> faulty = Findings(code, examples[0]), corrected = Findings(code, examples[1]);
        int told = faulty.Count(finding => finding.Code == code);
        Assert.True(told > 0, $"{code} is not found; found are: {Say(faulty)}");
        Assert.True(told == 1 || !s_toldOnce.Contains(code), $"{code} is told {told} times: {Say(faulty)}");
        Assert.True(corrected.TrueForAll(finding => finding.Code != code), $"{code} is still there: {Say(corrected)}");
        Assert.True(corrected.TrueForAll(finding => finding.Severity != Severity.Error), $"corrected layout of {code} has: {Say(corrected)}");
    }

    [Fact]
    public void Every_page_has_a_rule_and_no_rule_without_example_has_one()
    {
        string[] pages = [.. Directory.EnumerateFiles(RepoFiles.PathOf("docs/findings"), "WU*.md").Select(page => Path.GetFileNameWithoutExtension(page)!)];
        Assert.Equal(FindingCatalogue.All.Select(descriptor => descriptor.Code).Order(StringComparer.Ordinal), pages.Order(StringComparer.Ordinal));
        Assert.All(s_withoutExample.Keys, code => Assert.Empty(Example().Matches(Page(code))));
    }

    [Fact]
    public void Codes_are_unique_in_range_and_in_order()
    {
        string[] codes = [.. FindingCatalogue.All.Select(descriptor => descriptor.Code)];
        Assert.Equal(codes.Distinct().Order(StringComparer.Ordinal), codes);
        Assert.All(codes, code => Assert.Matches("^WU[2-5][0-9]{3}$", code));
    }

    [Fact]
    public void Search_stopped_after_one_step_is_told_with_its_turnouts()
    {
        RailGraph graph = RailGraph.Build(HardPlans.Clauses(4, [[1, 2], [3, 4], [-1, -2]]));
        PolarityReport cut = Polarity.Analyse(graph, new() { SearchBudget = 1 }, TestContext.Current.CancellationToken);
        CheckContext context = new(graph, cut, TrackGraph.Of(graph.Index), new PowerReport());
        Finding found = Assert.Single(new Checking.Rules.SearchGivenUp().Check(context));
        Assert.Equal("WU3012", found.Code);
        Assert.NotEmpty(cut.Undecided);
        Assert.Equal(cut.Undecided.Select(turnout => turnout.ToString()), found.Places);
        Assert.DoesNotContain(new Checking.Rules.OneSidedTrackRule().Check(context), _ => true);

        // Sections whose feed was not searched to the end are told apart.
        Finding[] both = [.. new Checking.Rules.SearchGivenUp().Check(context with { Polarity = cut with { UndecidedFeed = [new("c1")] } })];
        Assert.Equal(["WU3012", "WU3012"], both.Select(finding => finding.Code));
        Assert.Equal(["c1"], both[1].Places);

        PolarityReport full = Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Empty(new Checking.Rules.SearchGivenUp().Check(context with { Polarity = full }));
    }

    private static string Page(string code) => RepoFiles.ReadText($"docs/findings/{code}.md").ReplaceLineEndings("\n");

    private static List<Finding> Findings(string code, string text)
    {
        LayoutReading reading = LayoutFile.Read(text, code);
        Assert.All(reading.Problems, problem => Assert.Equal((RingCode, RingWarning), (code, problem.Code)));
        return [.. Checker.Check(reading.Layout!, TestContext.Current.CancellationToken).Findings];
    }

    private static string Say(List<Finding> findings) =>
        string.Join("\n", findings.Select(finding => $"{finding.Code} {finding.Severity} {finding.Message}"));

    [GeneratedRegex("^```yaml\n(?<text>.*?)^```$", RegexOptions.Singleline | RegexOptions.Multiline | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 2000)]
    private static partial Regex Example();
}
