using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits;

/// <summary>
/// Solves a layout as a circuit: loop resistance, volts and fault current at every place of every rail. Model, formulas and limits
/// are in docs/physics.md.
/// </summary>
public static class PowerAnalysis
{
    /// <summary>Solves a layout.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="options">What to ask.</param>
    /// <param name="cancellation">Stops between the steps.</param>
    /// <exception cref="ArgumentOutOfRangeException">A place of a load or probe lies outside its section.</exception>
    public static PowerReport Solve(Layout layout, PowerOptions options, CancellationToken cancellation = default) =>
        Solve(RailGraph.Build(layout, options.Places), options, cancellation);

    /// <summary>Solves a layout whose rails are a graph already.</summary>
    /// <param name="graph">The rails; the places of loads and probes must be stations of it (<see cref="PowerOptions.Places"/>).</param>
    /// <param name="options">What to ask.</param>
    /// <param name="cancellation">Stops between the steps.</param>
    /// <exception cref="KeyNotFoundException">The place of a load or probe is no station of the graph.</exception>
    public static PowerReport Solve(RailGraph graph, PowerOptions options, CancellationToken cancellation = default)
    {
        Circuit circuit = CircuitBuilder.Build(graph, options.Turnouts);
        cancellation.ThrowIfCancellationRequested();
        NodalModel model = NodalModel.Of(circuit);
        cancellation.ThrowIfCancellationRequested();
        return model.Outcome switch
        {
            FactorOutcome.Solved => Survey(model, options, cancellation),
            FactorOutcome.NotDefinite failed => new() { Problems = [new CircuitProblem.NotDefinite(model.NameOfUnknown(failed.Unknown))] },
            _ => throw new InvalidOperationException($"not an outcome: {model.Outcome}"),
        };
    }

    private static PowerReport Survey(NodalModel model, PowerOptions options, CancellationToken cancellation)
    {
        DesignLoad load = DesignLoad.Of(model.Circuit.Graph.Layout);
        double[] open = model.Potentials([]);
        List<CircuitProblem> problems = [.. model.Unknowns.Problems, .. model.Audit(open, [])];
        TrackSurvey survey = new(model, open);
        cancellation.ThrowIfCancellationRequested();

        DesignCase design = new(model, survey, load, options);
        problems.AddRange(model.Audit(design.Potentials, design.Loads));
        PlacedCase placed = new(model, survey, options);
        problems.AddRange(placed.Problems);
        problems.AddRange(model.Audit(placed.Potentials, placed.Loads));
        cancellation.ThrowIfCancellationRequested();

        PowerReportBuilder report = new(model, survey, design);
        return report.Build() with { Places = placed.Volts(), DesignLoad = load, Problems = [.. problems] };
    }
}
