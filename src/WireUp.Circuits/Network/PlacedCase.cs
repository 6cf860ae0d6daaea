using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Network;

/// <summary>The loads that somebody gave, and nothing else, on the rails.</summary>
internal sealed class PlacedCase
{
    private readonly NodalModel _model;
    private readonly PowerOptions _options;

    internal PlacedCase(NodalModel model, TrackSurvey survey, PowerOptions options)
    {
        (_model, _options) = (model, options);
        Loads = [.. options.Loads.Select(load => Load(load, survey)).Where(load => load.Amps != 0)];
        Potentials = model.Potentials(Loads);
    }

    /// <summary>Those of the loads that stand on fed track.</summary>
    internal NodeLoad[] Loads { get; }

    /// <summary>Potentials of the unknowns under <see cref="Loads"/>.</summary>
    internal double[] Potentials { get; }

    /// <summary>Volts at the places of loads and probes.</summary>
    internal ImmutableArray<PlaceVolts> Volts() => [.. _options.Places.Select(VoltsAt).OfType<PlaceVolts>()];

    private NodeLoad Load(PlacedLoad load, TrackSurvey survey)
    {
        (int first, int second) = Nodes(load.At);
        return new(first, second, survey.SignBetween(first, second) * load.Current.Amperes);
    }

    private PlaceVolts? VoltsAt(TrackPlace place)
    {
        (int first, int second) = Nodes(place);
        if (_model.Unknowns.IsRefused(_model.Unknowns.Part(first)))
        {
            return null;
        }

        double volts = _model.Unknowns.AreFedTogether(first, second)
            ? _model.PotentialOf(first, Potentials) - _model.PotentialOf(second, Potentials)
            : 0;
        return new(place, ElectricPotential.FromVolts(volts));
    }

    /// <summary>Where a conductor has a gap just here, the side towards the section's end b counts.</summary>
    private (int First, int Second) Nodes(TrackPlace place)
    {
        Station station = _model.Circuit.Graph.StationAt(place);
        return (station.FirstTowardsB, station.SecondTowardsB);
    }
}
