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
    private readonly HashSet<int> _refusedParts = [];
    private readonly List<CircuitProblem> _problems = [];
    private readonly Dictionary<PlacedLoad, double> _drawn = new(ReferenceEqualityComparer.Instance);

    internal PlacedCase(NodalModel model, TrackSurvey survey, PowerOptions options)
    {
        (_model, _options) = (model, options);
        Ports = [.. options.Loads.Select(load => Port(load, survey)).OfType<LoadPort>()];
        Loads = [.. Ports.GroupBy(port => model.Unknowns.Part(port.High)).SelectMany(part => Draw([.. part], survey.Open))];
        Potentials = model.Potentials(Loads);
    }

    /// <summary>Those of the loads that stand on fed track.</summary>
    internal LoadPort[] Ports { get; }

    /// <summary>What they draw.</summary>
    internal NodeLoad[] Loads { get; }

    /// <summary>Potentials of the unknowns under <see cref="Loads"/>.</summary>
    internal double[] Potentials { get; }

    /// <summary>Parts in which the loads have no operating point.</summary>
    internal IReadOnlyList<CircuitProblem> Problems => _problems;

    /// <summary>Volts at the places of loads and probes.</summary>
    internal ImmutableArray<PlaceVolts> Volts() =>
    [
        .. _options.Loads.Select(load => VoltsAt(load.At) is { } volts
            ? volts with { Drawn = ElectricCurrent.FromAmperes(_drawn.GetValueOrDefault(load)) }
            : null).OfType<PlaceVolts>(),
        .. _options.Probes.Select(VoltsAt).OfType<PlaceVolts>(),
    ];

    private LoadPort? Port(PlacedLoad load, TrackSurvey survey)
    {
        (int first, int second) = Nodes(load.At);
        return survey.SignBetween(first, second) switch
        {
            > 0 => new(first, second, load),
            < 0 => new(second, first, load),
            _ => null,
        };
    }

    private IEnumerable<NodeLoad> Draw(LoadPort[] ports, double[] open)
    {
        (double[] amps, CircuitProblem? problem) = LoadPorts.Solve(_model, open, ports);
        if (problem is not null)
        {
            _problems.Add(problem);
            _refusedParts.Add(_model.Unknowns.Part(ports[0].High));
            yield break;
        }

        for (int i = 0; i < ports.Length; i++)
        {
            _drawn[ports[i].Load] = amps[i];
            if (amps[i] != 0)
            {
                yield return new(ports[i].High, ports[i].Low, amps[i]);
            }
        }
    }

    private PlaceVolts? VoltsAt(TrackPlace place)
    {
        (int first, int second) = Nodes(place);
        int part = _model.Unknowns.Part(first);
        if (_refusedParts.Contains(part) || _model.Unknowns.IsRefused(part))
        {
            return null;
        }

        double volts = _model.Unknowns.AreFedTogether(first, second)
            ? _model.VoltsBetween(first, second, Potentials)
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
