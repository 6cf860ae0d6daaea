using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>What a check came to.</summary>
/// <param name="Findings">Every finding, ordered by code, within a code in the order of the layout.</param>
/// <param name="Power">
/// The solved circuit: of each district and section the worst over the turnout positions that bring current to all its track without making a short.
/// </param>
public sealed record CheckReport(ImmutableArray<Finding> Findings, PowerReport Power)
{
    /// <summary>Where several cabs or controllers meet, finding or not; none under command control.</summary>
    public CabReport Cabs { get; init; } = CabReport.None;
}

/// <summary>Puts every rule to a layout.</summary>
public static class Checker
{
    /// <summary>Checks a layout.</summary>
    /// <param name="layout">A layout as the reader makes it: names are unique, and whatever is named exists.</param>
    /// <param name="cancellationToken">Stops between rules and within the long ones.</param>
    public static CheckReport Check(Layout layout, CancellationToken cancellationToken = default)
    {
        RailGraph graph = RailGraph.Build(layout);
        PolarityReport polarity = Polarity.Analyse(graph, cancellationToken: cancellationToken);
        PowerSurvey survey = PowerSurvey.Of(graph, polarity, cancellationToken);
        CheckContext context = new(graph, polarity, TrackGraph.Of(graph.Index), survey.Power)
        {
            Unsolved = survey.Unsolved,
            FedByShort = survey.FedByShort,
            HasNoClearPositions = survey.HasNoClearPositions,
        };
        context = context with { Cabs = Cabs.Analyse(graph, polarity, context.Ways) };

        ImmutableArray<Finding>.Builder findings = ImmutableArray.CreateBuilder<Finding>();
        foreach (Rule rule in FindingCatalogue.Rules)
        {
            cancellationToken.ThrowIfCancellationRequested();
            findings.AddRange(rule.Check(context).Select(finding => finding.Told(layout)));
        }

        return new(findings.ToImmutable(), survey.Power) { Cabs = context.Cabs };
    }
}
