using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>The circuit is judged in positions without a short, and what cannot be judged so is said.</summary>
public sealed class SolvedPositionTests
{
    private static readonly string[] Limits = ["WU4001", "WU4002", "WU4003"];

    [Theory]
    [InlineData("straight", "diverging", "through")] // shorts in the second position
    [InlineData("branch", "through", "diverging")] // and in the first, in which all stands at first
    public void A_short_in_one_position_hides_no_figures_of_the_others(string fed, string shorted, string clear)
    {
        Layout layout = Layout(ties: "", fed);
        CheckReport report = Checker.Check(layout, TestContext.Current.CancellationToken);

        Assert.Equal(shorted, Assert.Single(report.Findings, finding => finding.Code == "WU3002").Turnouts[new("T1")]);
        Assert.DoesNotContain(report.Findings, finding => Limits.Contains(finding.Code));
        DistrictPower solved = Assert.Single(Solve(layout, clear).Districts);
        Assert.Equal(solved, Assert.Single(report.Power.Districts));
        Assert.True(Assert.Single(Solve(layout, shorted).Districts).LowestVolts.Volts < solved.LowestVolts.Volts / 2, "the short is not in the circuit");
    }

    [Theory]
    [InlineData("", true)]
    [InlineData(", { at: T1.through }", false)]
    public void Track_that_has_current_only_through_a_short_is_named(string gap, bool isShorted)
    {
        ImmutableArray<Finding> found = Checks.Of(Layout(
            ties: "", "straight", $"  f3: {{ at: branch@450, bus: P1, wire: 20 AWG, length: 200, when: T1.diverging }}\n  gaps: [ {{ at: T1.diverging }}{gap} ]"));

        Assert.Equal(isShorted, found.Any(finding => finding.Code == "WU3002" && finding.Turnouts[new("T1")] == "diverging"));
        Assert.Equal(
            isShorted ? ["Volts and fault currents of \"branch\" were not checked, because the positions that bring current there join rails of opposite polarity."] : [],
            found.Where(finding => finding.Code == "WU4010").Select(finding => finding.Message));
        Assert.DoesNotContain(found, finding => Limits.Contains(finding.Code));
    }

    [Theory]
    [InlineData(", swap: true", true)] // the wrong way round against the main line, to which the switch joins it
    [InlineData("", false)]
    public void Feeders_that_a_switch_joins_the_wrong_way_round_give_no_figures_of_their_short(string swap, bool isShorted)
    {
        ImmutableArray<Finding> found = Checks.Of(Checks.Read(
            $$"""
            wireup: 1
            name: Tern Sidings
            longest-train: 0.6 m
            track: { main: { length: 2 m }, yard: { length: 2 m }, far: { length: 2 m } }
            joined: [ main > yard > far ]
            wiring:
              boosters: { station: { amps: 3 A } }
              districts: { town: { booster: station, trip: 2.5 A } }
              bus: { town: { wire: 16 AWG, runs: [ station > P1 1 m ] } }
              switches: { S: [off, on] }
              gaps: [ { at: main.b, bridged-when: S.on }, { at: yard.b, bridged-when: S.on } ]
              feeders:
                f1: { at: main@1 m, bus: P1, wire: 20 AWG, length: 200 }
                f2: { at: yard@1 m, bus: P1, wire: 20 AWG, length: 200{{swap}} }
            """,
            "tern-sidings"));

        Assert.Equal(isShorted, found.Any(finding => finding.Code == "WU3005"));
        Assert.Equal(
            isShorted ? ["far"] : [],
            found.Where(finding => finding.Code == "WU4010").SelectMany(finding => finding.Places));
        Assert.DoesNotContain(found, finding => Limits.Contains(finding.Code));
    }

    [Theory]
    [InlineData("frog-left", false)]
    [InlineData("frog-right", false)]
    [InlineData("frog-left, frog-right", true)]
    public void Only_foil_that_shorts_in_every_position_hides_the_figures(string uncut, bool hides)
    {
        ImmutableArray<Finding> found = Checks.Of(Layout($", ties: copper-clad, uncut: [{uncut}]", "straight", "  f3: { at: branch@450, bus: P1, wire: 20 AWG, length: 200 }\n  gaps: [ { at: T1.through }, { at: T1.diverging } ]"));
        Assert.Contains(found, finding => finding.Code == "WU2008");
        Assert.Equal(hides, found.Any(finding => finding.Code == "WU4010" && finding.Places.IsEmpty));
        Assert.DoesNotContain(found, finding => Limits.Contains(finding.Code));
    }

    private static PowerReport Solve(Layout layout, string position) => PowerAnalysis.Solve(
        layout, PowerOptions.Default with { Turnouts = ImmutableSortedDictionary<PieceId, string>.Empty.Add(new("T1"), position) }, TestContext.Current.CancellationToken);

    private static Layout Layout(string ties, string fed, string more = "") => Checks.Read(
        $$"""
        wireup: 1
        name: Tern Junction
        longest-train: 0.6 m
        track:
          main: { length: 900 }
          T1: { turnout: left, frog: live, number: 6{{ties}} }
          straight: { length: 900 }
          branch: { length: 900 }
          main-end: { stop: true }
          straight-end: { stop: true }
          branch-end: { stop: true }
        joined:
          - main-end > main > T1.points
          - T1.through > straight > straight-end
          - T1.diverging > branch > branch-end
        wiring:
          boosters:
            station: { amps: 3 A }
          districts:
            town: { booster: station, trip: 2.5 A }
          bus:
            town: { wire: 16 AWG, runs: [ station > P1 1 m ] }
          feeders:
            f1: { at: main@450, bus: P1, wire: 20 AWG, length: 200 }
            f2: { at: {{fed}}@450, bus: P1, wire: 20 AWG, length: 200 }
          {{more}}
        """,
        "tern-junction");
}
