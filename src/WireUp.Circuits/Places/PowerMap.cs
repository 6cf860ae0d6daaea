using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Places;

/// <summary>Volts, loop and fault current of every place of a railway as closed forms, for drawing them and for following a route.</summary>
public sealed record PowerMap
{
    private readonly FrozenDictionary<PieceId, ImmutableArray<FedStretch>> _ofSection;

    internal PowerMap(ImmutableArray<FedStretch> stretches, ImmutableArray<CircuitProblem> problems)
    {
        (Stretches, Problems) = (stretches, problems);
        _ofSection = stretches.GroupBy(stretch => stretch.Section).ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray());
    }

    /// <summary>Every length of fed track, in the order of the layout, each section from its end a to its end b.</summary>
    public ImmutableArray<FedStretch> Stretches { get; }

    /// <summary>Parts of the circuit that have no figures, each with the reason; empty when all is well.</summary>
    public ImmutableArray<CircuitProblem> Problems { get; }

    /// <summary>Solves a layout for every place.</summary>
    /// <param name="graph">The rails; places of loads and probes must be stations of it.</param>
    /// <param name="options">Positions and design loads.</param>
    /// <exception cref="KeyNotFoundException">The place of a load or probe is no station of the graph.</exception>
    public static PowerMap Of(RailGraph graph, PowerOptions options)
    {
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, options.Turnouts));
        if (model.Outcome is FactorOutcome.NotDefinite failed)
        {
            return new([], [new CircuitProblem.NotDefinite(model.NameOfUnknown(failed.Unknown))]);
        }

        double[] open = model.Potentials([]);
        List<CircuitProblem> problems = [.. model.Unknowns.Problems, .. model.Audit(open, [])];
        TrackSurvey survey = new(model, open);
        DesignCase design = new(model, survey, DesignLoad.Of(graph.Layout), options);
        problems.AddRange(model.Audit(design.Potentials, design.Loads));
        return new([.. Stretched.Of(model, survey, design)], [.. problems]);
    }

    /// <summary>The lengths of fed track of a section, from its end a to its end b; none where it has no power.</summary>
    public ImmutableArray<FedStretch> Of(PieceId section) => _ofSection.GetValueOrDefault(section, []);

    /// <summary>The length of fed track at a place, or null where it has no power. Just at a gap it is the side towards end b, if that has power.</summary>
    public FedStretch? Find(TrackPlace place)
    {
        const double SamePlaceMetres = 1e-6;
        FedStretch? found = null;
        foreach (FedStretch stretch in Of(place.Section))
        {
            if (place.MetresFromA >= stretch.FromMetres - SamePlaceMetres && place.MetresFromA <= stretch.ToMetres + SamePlaceMetres)
            {
                found = stretch;
            }
        }

        return found;
    }
}
