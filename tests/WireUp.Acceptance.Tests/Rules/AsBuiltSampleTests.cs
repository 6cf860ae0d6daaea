using System.Collections.Immutable;
using System.Text.RegularExpressions;
using UnitsNet;
using WireUp.Checking;
using WireUp.Layouts;

namespace WireUp.Acceptance.Tests.Rules;

/// <summary>The club sample as built: six faults are in it, <c>check</c> finds these and no other.</summary>
public sealed partial class AsBuiltSampleTests
{
    private const string File = "sample-layouts/tarrow-valley-as-built.layout.yaml";

    private static readonly Layout Built = Read(File);

    /// <summary>Every error that the six faults bring about: the number of the fault, the code, the first place named.</summary>
    private static readonly ImmutableArray<(int Fault, string Code, string Place)> Errors =
    [
        (4, "WU3002", "Y7"),
        (4, "WU3008", "Y7.diverging"),
        (1, "WU3008", "T9.diverging"),
        (1, "WU3008", "xover.b"),
        (2, "WU3008", "fenn-8@0.7 m"),
        (2, "WU3009", "east"),
        (3, "WU3010", "elevator-1/left"),
    ];

    [Fact]
    public void Check_finds_the_faults_at_their_places_and_no_other_error() =>
        Assert.Equal(
            Errors.Select(error => $"{error.Code} {error.Place}").Order(StringComparer.Ordinal),
            Found(Built, Severity.Error).Order(StringComparer.Ordinal));

    [Fact]
    public void With_the_faults_mended_nothing_is_found() =>
        Assert.Empty(Found(Mended(Built), Severity.Error));

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public void A_fault_is_named_in_the_head_and_marked_at_its_place(int fault)
    {
        string[] lines = RepoFiles.ReadText(File).Split('\n');
        Assert.Single(lines.TakeWhile(line => line.StartsWith('#')), line => line.StartsWith($"#   {fault}. ", StringComparison.Ordinal));
        Assert.Single(lines, line => line.Contains($" # Fault {fault},", StringComparison.Ordinal));
    }

    [Fact]
    public void The_track_is_that_of_the_club_sample()
    {
        Layout club = Read("sample-layouts/tarrow-valley.layout.yaml");
        Assert.Equal(Track().Match(RepoFiles.ReadText("sample-layouts/tarrow-valley.layout.yaml")).Value, Track().Match(RepoFiles.ReadText(File)).Value);
        Assert.Equal(club.Joints, Built.Joints);
        Assert.Equivalent(club.Stock, Built.Stock, strict: true);
    }

    private static IEnumerable<string> Found(Layout layout, Severity severity) =>
        Checker.Check(layout, TestContext.Current.CancellationToken).Findings
            .Where(finding => finding.Severity == severity)
            .Select(finding => $"{finding.Code} {finding.Places.FirstOrDefault()}");

    private static Layout Mended(Layout layout)
    {
        Wiring wiring = layout.Wiring;
        Gap forgotten = new(new GapPlace.InJoint(new(new("Y7"), "through")), RailSet.Left);
        return layout with
        {
            Wiring = wiring with
            {
                Feeders = [.. wiring.Feeders.Select(feeder => feeder.At.Section.Name == "xover" ? feeder with { Swap = false } : feeder)],
                Gaps =
                [
                    .. wiring.Gaps
                        .Where(gap => gap.At.ToString() != "T4.diverging")
                        .Select(gap => gap.At.ToString() == "fenn-1@0.2 m" ? gap with { Rails = RailSet.Both } : gap),
                    forgotten,
                ],
                Buses =
                [
                    .. wiring.Buses.Select(bus => bus with { Runs = [.. bus.Runs.Select(run => run with { Wire = new Wire.Metric(4) })] }),
                ],
                Districts =
                [
                    .. wiring.Districts.Select(district => district.Name == "sedge-turn"
                        ? district with { Trip = ElectricCurrent.FromAmperes(2.5) }
                        : district),
                ],
            },
        };
    }

    private static Layout Read(string file)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText(file), file);
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }

    [GeneratedRegex("^track:.*?^joined:", RegexOptions.Multiline | RegexOptions.Singleline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Track();
}
