using UnitsNet;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Tests;

/// <summary>Results of planning, made by hand so that the tests of the papers do not hang on the planner.</summary>
internal static class TestPlans
{
    /// <summary>The balloon as if everything had been planned, with one gauge table, one warning and no error.</summary>
    public static PlanResult Balloon { get; } = Of(TestLayouts.Balloon) with
    {
        Proposals =
        [
            new("gap-1", ProposalKind.Gap, "T1.diverging", "Without it rail A meets rail B round the loop “loop”: 4.2 m, both rails.", "A reversing section is bounded by double gaps", 2),
            new("gap-2", ProposalKind.Gap, "loop@4.05 m", "The other end of the reversing section.", "A reversing section is bounded by double gaps", 2),
            new("turn", ProposalKind.ReversingSection, "loop", "4.05 m long, the longest train 1.8 m.", "Longest train and one tenth; common practice, no published source", 12),
        ],
        Objectives = [new("reversing sections", 1, 1), new("feeders", 3, 2)],
        Gauges =
        [
            new("east", new Wire.Metric(1.5), Ratio.FromPercent(2.1), ElectricCurrent.FromAmperes(41), string.Empty),
            new("east", new Wire.Metric(2.5), Ratio.FromPercent(1.7), ElectricCurrent.FromAmperes(46), string.Empty) { Planned = Length.FromMeters(3.2) },
            new("turn", new Wire.Metric(1.5), Ratio.FromPercent(4.4), ElectricCurrent.FromAmperes(26), string.Empty) { Planned = Length.FromMeters(3.2) },
            new("turn", new Wire.Awg(22), Ratio.FromPercent(9.8), ElectricCurrent.FromAmperes(9), "drop 9.8 % over 5 %; 22 AWG carries less than the trip current"),
        ],
        Findings = [new("WU4002", Severity.Warning, "Feeder “f3” is longer than 300 mm.", "Shorten it or use thicker wire.") { Places = ["f3"] }],
    };

    /// <summary>A plan whose wiring is all new, with its circuit solved.</summary>
    public static PlanResult Of(Layout wired) => new(wired with { Wiring = Wiring.None }, wired)
    {
        Power = PowerAnalysis.Solve(wired, PowerOptions.Default),
    };
}
