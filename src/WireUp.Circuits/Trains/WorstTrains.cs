using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Circuits.Numerics;
using WireUp.Layouts.Reference;
using WireUp.Rails;

namespace WireUp.Circuits.Trains;

/// <summary>
/// Where trains have to stand so that one of them gets the least volts that any placement can bring about: method, bound and limits are
/// in docs/physics.md.
/// </summary>
public static class WorstTrains
{
    /// <summary>Looks for the worst places of trains.</summary>
    /// <param name="graph">The rails; places of loads and probes must be stations of it.</param>
    /// <param name="options">Positions of turnouts and switches.</param>
    /// <param name="trains">The trains, one or more.</param>
    /// <param name="spacing">Least distance between two trains; null for the usual.</param>
    /// <param name="cancellation">Stops between the steps.</param>
    public static WorstTrainsReport Find(
        RailGraph graph, PowerOptions options, ImmutableArray<TrainDemand> trains, Length? spacing = null, CancellationToken cancellation = default)
    {
        Length apart = spacing ?? Length.FromMeters(Constants.Get("train-spacing").Value);
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(graph, options.Turnouts));
        if (trains.IsEmpty || model.Outcome is not FactorOutcome.Solved)
        {
            return new(trains, apart, []);
        }

        double[] open = model.Potentials([]);
        _ = model.Audit(open, []);
        StandingTrack track = new(model, new TrackSurvey(model, open).Live, options.Turnouts);
        TrainSet set = new(track, trains, apart.Meters);
        ImmutableArray<DistrictTrains>.Builder found = ImmutableArray.CreateBuilder<DistrictTrains>();
        for (int d = 0; d < model.Circuit.Districts.Length; d++)
        {
            cancellation.ThrowIfCancellationRequested();
            WorstTrainsWorkspace search = new(track, set, d);
            if (search.Run(cancellation) is { } worst)
            {
                DistrictStart start = model.Circuit.Districts[d];
                found.Add(Report(start.District.Name, model.Circuit.Sources[start.Source].Volts, search, worst, model));
            }
        }

        return new(trains, apart, found.ToImmutable());
    }

    private static DistrictTrains Report(string district, double sourceVolts, WorstTrainsWorkspace search, Arrangement worst, NodalModel model) => new(
        district,
        ElectricPotential.FromVolts(sourceVolts),
        [.. worst.Trains.Select(standing => One(search, worst, standing, model))],
        ElectricPotential.FromVolts(Math.Min(search.LeastVolts, worst.Volts)))
    {
        IsSearchCut = search.IsCut,
    };

    private static StandingTrainPower One(WorstTrainsWorkspace search, Arrangement worst, StandingTrain standing, NodalModel model)
    {
        LiveSpot spot = search.Track.SpotOf(standing);
        LiveSegment live = search.Track.Live[spot.Live];
        return new(
            search.Set.Trains[standing.Train].Name,
            search.Track.Segment(spot.Live).At(spot.Fraction),
            search.Track.SpanOf[spot.Live].Span.IsReversed != standing.Onward ? "b" : "a",
            model.Circuit.Districts[live.District].District.Name,
            ElectricPotential.FromVolts(search.VoltsAt(spot, worst)));
    }
}
