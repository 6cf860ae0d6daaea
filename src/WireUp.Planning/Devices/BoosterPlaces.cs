using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Buses;

namespace WireUp.Planning.Devices;

/// <summary>
/// Moves new boosters, without changing what they feed, to where the volts of that ask for the fewest feeders: the drop on the way to each
/// length of track leaves so much for its rail, and the less it leaves the nearer together feeders must be.
/// </summary>
/// <param name="layout">The layout.</param>
/// <param name="demands">The new districts.</param>
/// <param name="drops">What current goes through on its way to the rails.</param>
internal sealed class BoosterPlaces(Layout layout, ImmutableArray<DistrictDemand> demands, DropModel drops)
{
    private const int MostRounds = 6, Neighbours = 24;
    private const double NearestApartMetres = 0.2, LeastFewer = 1e-3;

    private readonly ImmutableArray<TrackPlace> _pool = [.. demands.SelectMany(demand => demand.Track).Select(length => length.Middle).Distinct().Order()];

    /// <summary>The same plan with its new boosters at better places.</summary>
    public BoosterPlan Improve(BoosterPlan plan)
    {
        Corridor corridor = Corridor.Along(layout, _pool.Concat(plan.NewBoosters.Select(booster => booster.At)));
        return plan with { NewBoosters = [.. plan.NewBoosters.Select(booster => (booster.Name, Best(corridor, booster.At, FedBy(plan, booster.Name))))] };
    }

    private ImmutableArray<DistrictDemand> FedBy(BoosterPlan plan, string booster) => [.. demands.Where(demand => plan.BoosterOf[demand.Name] == booster)];

    private TrackPlace Best(Corridor corridor, TrackPlace start, ImmutableArray<DistrictDemand> fed)
    {
        (TrackPlace place, double feeders) = (start, Feeders(corridor, start, fed));
        HashSet<TrackPlace> seen = [start];
        for (int round = 0; round < MostRounds; round++)
        {
            (double[] metres, _) = corridor.From([corridor.PointAt(place)]);
            (TrackPlace next, double fewer) = _pool
                .OrderBy(each => metres[corridor.PointAt(each)]).ThenBy(each => each)
                .Take(Neighbours).Where(seen.Add)
                .Select(each => (each, Feeders: Feeders(corridor, each, fed)))
                .OrderBy(pair => pair.Feeders).ThenBy(pair => pair.each)
                .FirstOrDefault((place, feeders));
            if (fewer > feeders - LeastFewer)
            {
                break;
            }

            (place, feeders) = (next, fewer);
        }

        return place;
    }

    /// <summary>About how many feeders the volts ask for with the booster at a place: lengths of track over how far apart feeders on them may be.</summary>
    private double Feeders(Corridor corridor, TrackPlace at, ImmutableArray<DistrictDemand> fed)
    {
        (double[] metres, _) = corridor.From([corridor.PointAt(at)]);
        double working = fed.Sum(demand => demand.WorkingAmps);
        return Math.Round(fed.Sum(demand => demand.Track.Sum(length => length.Metres / Apart(demand, metres[corridor.PointAt(length.Middle)]))), 6);

        // In the middle between two feeders a quarter of the rail between them counts.
        double Apart(DistrictDemand demand, double way) => Math.Clamp(
            4 * drops.MetresOfRail(demand, working, way), NearestApartMetres, 2 * layout.MaxFeederDistance.Meters);
    }
}

/// <summary>What current goes through on its way from a booster to the rails, and how much of the volts that may take.</summary>
/// <param name="MostVolts">The largest drop allowed.</param>
/// <param name="BusOhmsPerMetre">One wire of the thickest bus.</param>
/// <param name="BusSlack">What is added to the way along the track, as a part of it.</param>
/// <param name="LeadMetres">Bus from the booster to the track.</param>
/// <param name="FeederOhms">Both wires of a feeder.</param>
/// <param name="RailOhmsPerMetre">One rail.</param>
internal sealed record DropModel(double MostVolts, double BusOhmsPerMetre, double BusSlack, double LeadMetres, double FeederOhms, double RailOhmsPerMetre)
{
    /// <summary>How many metres of track a train may be from a feeder that has a way of so many metres from the booster; below 0 where none.</summary>
    /// <param name="demand">The district.</param>
    /// <param name="boosterAmps">What all the booster's districts draw.</param>
    /// <param name="wayMetres">The way along the track.</param>
    public double MetresOfRail(DistrictDemand demand, double boosterAmps, double wayMetres)
    {
        double train = Math.Min(demand.Sizing.Load.Heaviest, demand.DesignAmps);
        double busOhms = 2 * BusOhmsPerMetre * ((wayMetres * (1 + BusSlack)) + LeadMetres);
        double volts = (DeviceTable.BoosterResistance.Ohms * (boosterAmps + demand.DesignAmps - demand.WorkingAmps))
            + (demand.DesignAmps * (DeviceTable.BreakerResistance.Ohms + busOhms)) + (train * FeederOhms);
        return (MostVolts - volts) / (train * 2 * RailOhmsPerMetre);
    }
}
