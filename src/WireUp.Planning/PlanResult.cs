using System.Collections.Immutable;
using UnitsNet;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Planning;

/// <summary>What <c>plan</c> came to.</summary>
/// <param name="Before">The layout as it was given.</param>
/// <param name="After">The layout with every proposal added to its wiring.</param>
public sealed record PlanResult(Layout Before, Layout After)
{
    /// <summary>What was added, in the order of work.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>Value and bound of each thing that was minimised.</summary>
    public ImmutableArray<Objective> Objectives { get; init; } = [];

    /// <summary>What <c>check</c> says of <see cref="After"/>.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>The solved circuit of <see cref="After"/>.</summary>
    public PowerReport Power { get; init; } = new();

    /// <summary>Drop and fault current of each district for every gauge on hand.</summary>
    public ImmutableArray<GaugeRow> Gauges { get; init; } = [];

    /// <summary>What the plan could not mend, and why; empty when the plan is finished.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>The proposal of that id, which explains itself, or null.</summary>
    public Proposal? Find(string id) => Proposals.FirstOrDefault(proposal => string.Equals(proposal.Id, id, StringComparison.OrdinalIgnoreCase));

    /// <summary>What is said in place of values and bounds where there are no proposals.</summary>
    public const string NothingToCompare = "Nothing was proposed, so there is nothing to compare with the fewest possible.";

    /// <summary>What the plan came to, in a sentence.</summary>
    public string Verdict => !IsFinished ? "The plan is not finished."
        : Power.Districts.IsEmpty ? "No district feeds any rail: there is no wiring to check."
        : "The plan passes its own checks: no error, and a coin trips every breaker.";

    /// <summary>Whether the plan passes its own checks: no finding of severity error, every coin test passed, nothing remains.</summary>
    public bool IsFinished =>
        Remains.IsEmpty
        && Findings.All(finding => finding.Severity != Severity.Error)
        && Power.Districts.All(district => district.CoinTestPasses);
}

/// <summary>One district with all of its new bus in one gauge.</summary>
/// <param name="District">The district.</param>
/// <param name="Wire">The gauge.</param>
/// <param name="Drop">Largest drop under the design load.</param>
/// <param name="FaultCurrent">Lowest fault current.</param>
/// <param name="Verdict">Empty when every limit is kept; else the limits that are not.</param>
public sealed record GaugeRow(string District, Wire Wire, Ratio Drop, ElectricCurrent FaultCurrent, string Verdict)
{
    /// <summary>How much of the district's new bus the plan makes of this gauge.</summary>
    public Length Planned { get; init; }

    /// <summary>Whether the plan uses it.</summary>
    public bool Chosen => Planned.Meters > 0;
}
