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

    /// <summary>Every error and warning that the six faults bring about: the number of the fault, the code, the first place named.</summary>
    private static readonly ImmutableArray<(int Fault, string Code, string Place)> Expected =
    [
        (4, "WU3002", "Y7"),
        (4, "WU3008", "Y7.diverging"),
        (1, "WU3008", "T9.diverging"),
        (1, "WU3008", "xover.b"),
        (2, "WU3008", "fenn-8@0.7 m"),
        (2, "WU3009", "east"),
        (3, "WU3010", "elevator-1/left"),
        (6, "WU4001", "sedge-8@0.0922 m"),
        (6, "WU4003", "sedge-8@0.0922 m"),
        (5, "WU4004", "P77 > P83"),
        (6, "WU4004", "booster-1 > P190"),
        (6, "WU4013", "booster-1 > P190"),
    ];

    [Fact]
    public void Check_finds_the_six_faults_at_their_places_and_nothing_else()
    {
        Assert.Equal([1, 2, 3, 4, 5, 6], Expected.Select(finding => finding.Fault).Distinct().Order());
        Assert.Equal(
            Expected.Select(finding => $"{finding.Code} {finding.Place}").Order(StringComparer.Ordinal),
            Found(Built).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void With_the_faults_mended_nothing_is_found() => Assert.Empty(Found(Mended(Built)));

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

    /// <summary>Errors and warnings. Advice is left out: that the supplies are not energy-limited is so by plan, not by fault.</summary>
    private static IEnumerable<string> Found(Layout layout) =>
        Checker.Check(layout, TestContext.Current.CancellationToken).Findings
            .Where(finding => finding.Severity != Severity.Advice)
            .Select(finding => $"{finding.Code} {finding.Places.FirstOrDefault()}");

    private static Layout Mended(Layout layout)
    {
        Wiring wiring = layout.Wiring;
        return layout with
        {
            Wiring = wiring with
            {
                Districts = [.. wiring.Districts.Select(MendedTrip)],
                Buses = [.. wiring.Buses.Select(MendedBus)],
                Feeders =
                [
                    .. wiring.Feeders.Select(feeder => feeder.At.Section.Name == "xover" ? feeder with { Swap = false } : feeder),
                    ElevatorFeeder("elevator-1", "E1"), ElevatorFeeder("elevator-3", "E3"),
                ],
                Gaps =
                [
                    .. wiring.Gaps.Select(gap => gap.At.ToString() == "fenn-1@0.2 m" ? gap with { Rails = RailSet.Both } : gap),
                    new(new GapPlace.InJoint(new(new("Y7"), "through")), RailSet.Left),
                ],
            },
        };
    }

    private static District MendedTrip(District district) =>
        district.Name == "sedge-turn" ? district with { Trip = ElectricCurrent.FromAmperes(2.5) } : district;

    private static Bus MendedBus(Bus bus)
    {
        Wire thick = new Wire.Metric(4);
        IEnumerable<BusRun> runs = bus.Runs.Select(run => (run.From, run.To) is ("P77", "P83") or ("booster-1", "P190") ? run with { Wire = thick } : run);
        return bus.District != "west"
            ? bus with { Runs = [.. runs] }
            : bus with { Runs = [.. runs, new("P98", "E1", Length.FromMeters(0.5), thick), new("E1", "E3", Length.FromMeters(1.7), thick)] };
    }

    private static Feeder ElevatorFeeder(string section, string tap) =>
        new(section, new(new(section), 0.3), "west", tap, new Wire.Metric(0.5), Length.FromMillimeters(250));

    private static Layout Read(string file)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText(file), file);
        Assert.Empty(reading.Problems);
        return reading.Layout!;
    }

    [GeneratedRegex("^track:.*?^joined:", RegexOptions.Multiline | RegexOptions.Singleline, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Track();
}
