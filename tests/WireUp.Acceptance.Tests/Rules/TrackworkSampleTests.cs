using System.Text.RegularExpressions;
using WireUp.Checking;
using WireUp.Documents;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Acceptance.Tests.Rules;

/// <summary>The small samples of trackwork: listed, clean, drawn.</summary>
public sealed partial class TrackworkSampleTests
{
    public static TheoryData<string> Samples => [.. Files().Select(path => Path.GetFileName(path))];

    [Fact]
    public void The_list_of_samples_names_every_one_of_them() => Assert.Equal(
        Files().Select(path => Path.GetFileName(path)),
        ListedFile().Matches(RepoFiles.ReadText("docs/samples.md")).Select(row => row.Groups["file"].Value).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_of_trackwork_has_no_error_but_that_nothing_is_wired_yet(string file)
    {
        Layout layout = Read(file);
        string[] errors = [.. Checker.Check(layout, TestContext.Current.CancellationToken).Findings.Where(finding => finding.Severity == Severity.Error).Select(finding => finding.Code)];
        Assert.All(errors, code => Assert.True(code == "WU3010" && layout.Wiring.Feeders.IsEmpty, code));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_of_trackwork_is_drawn_from_above_and_below(string file)
    {
        foreach (DrawingView view in new[] { DrawingView.Above, DrawingView.Below })
        {
            Scene scene = LayoutDrawing.Draw(Read(file), new() { View = view }, TestContext.Current.CancellationToken);
            Assert.True(scene.Shapes.Length > 10);
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_of_trackwork_can_be_planned_to_the_end(string file)
    {
        PlanResult plan = Planner.Plan(Read(file), cancel: TestContext.Current.CancellationToken);
        Assert.Empty(plan.Findings.Where(finding => finding.Severity == Severity.Error));
        Assert.True(plan.IsFinished, string.Join("; ", plan.Remains));
        Assert.NotEmpty(WiringBook.Pages(plan, new(), TestContext.Current.CancellationToken));
    }

    private static IEnumerable<string> Files() =>
        Directory.EnumerateFiles(RepoFiles.PathOf("sample-layouts/trackwork"), "*.layout.yaml").Order(StringComparer.Ordinal);

    private static Layout Read(string file)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText($"sample-layouts/trackwork/{file}"), file);
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }

    [GeneratedRegex(@"^\| \[[^\]]+\]\(\.\./sample-layouts/trackwork/(?<file>[^)]+)\) \|", RegexOptions.Multiline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex ListedFile();
}
