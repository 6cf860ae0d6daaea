using System.Collections.Immutable;
using System.Globalization;
using Google.OrTools.Sat;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Feeders;

namespace WireUp.Planning.Devices;

/// <summary>A new district that needs a booster.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Share">Its part of all fed track, 0 to 1.</param>
/// <param name="Sizing">The railway's load, and the breakers to choose from.</param>
/// <param name="Track">Middle and length of each length of its track.</param>
internal sealed record DistrictDemand(
    string Name, double Share, PowerSizing Sizing, ImmutableArray<(TrackPlace Middle, double Metres)> Track)
{
    /// <summary>Its share of the railway's load, growth included.</summary>
    public double WorkingAmps { get; } = Share * Sizing.Load.Total;

    /// <summary>Its design load: that share, or the heaviest train.</summary>
    public double DesignAmps { get; } = Sizing.Load.ForShare(Share);

    /// <summary>What trains that meet in it draw.</summary>
    public double MeetingAmps { get; } = Sizing.Load.MeetingOn(Share);

    /// <summary>The setting of its breaker.</summary>
    public double TripAmps => Sizing.Breakers.For(DesignAmps, MeetingAmps);

    /// <summary>Whether a booster with that much room, and with breakers of that setting at most behind it, may feed it.</summary>
    public bool Fits(double roomShare, double mostTripAmps) => Share <= roomShare + 1e-9 && TripAmps <= mostTripAmps + 1e-9;
}

/// <summary>A booster that is there, with what it can still take.</summary>
/// <param name="Name">Its name.</param>
/// <param name="At">The place of the track where it stands.</param>
/// <param name="RoomShare">Part of all fed track that it can still carry; below 0 where it carries too much already.</param>
/// <param name="MostTripAmps">Highest breaker setting allowed behind it.</param>
/// <param name="Ohms">Its output resistance.</param>
internal sealed record BuiltBooster(string Name, TrackPlace At, double RoomShare, double MostTripAmps, double Ohms);

/// <summary>Which booster feeds which new district.</summary>
/// <param name="BoosterOf">For each new district its booster.</param>
/// <param name="NewBoosters">Boosters to add and the places where they stand.</param>
internal sealed record BoosterPlan(
    ImmutableSortedDictionary<string, string> BoosterOf, ImmutableArray<(string Name, TrackPlace At)> NewBoosters);

/// <summary>
/// Places boosters and assigns new districts to them, so that the largest drop that the way along the track, the breaker and the
/// booster's own resistance cause is as small as can be, and no booster carries more track than its rating allows.
/// </summary>
/// <param name="layout">The layout with the boosters and districts it has.</param>
/// <param name="sizing">The size of new boosters.</param>
/// <param name="busOhmsPerMetre">Resistance of one wire of the best usual bus.</param>
internal sealed class BoosterPlanner(Layout layout, PowerSizing sizing, double busOhmsPerMetre)
{
    private const double Effort = 3;
    private const int MostSites = 40;

    /// <summary>Assigns with a given number of new boosters; null where they cannot carry the districts.</summary>
    public BoosterPlan? Plan(ImmutableArray<DistrictDemand> demands, ImmutableArray<BuiltBooster> built, int added)
    {
        ImmutableArray<Site> sites =
        [
            .. built.Select(booster => new Site(booster.Name, booster.At, booster.RoomShare, booster.MostTripAmps, booster.Ohms, IsNew: false)),
            .. (added == 0 ? [] : Sites(demands)).Select(place =>
                new Site("", place, sizing.MostBoosterShare, sizing.MostTripAmps, DeviceTable.BoosterResistance.Ohms, IsNew: true)),
        ];
        return sites.IsEmpty ? null : new Choice(demands, sites, Drops(demands, sites)).Solve(added, [.. FreeNames().Take(added)]);
    }

    private sealed record Site(string Name, TrackPlace At, double RoomShare, double MostTripAmps, double Ohms, bool IsNew)
    {
        public bool Takes(DistrictDemand demand) => demand.Fits(RoomShare, MostTripAmps);
    }

    /// <summary>Places spread over the districts' track: a central one, then always the one farthest from those already taken.</summary>
    private ImmutableArray<TrackPlace> Sites(ImmutableArray<DistrictDemand> demands)
    {
        SolderSpots spots = new(layout);
        ImmutableArray<(TrackPlace Middle, double Metres)> all = [.. demands.SelectMany(demand => demand.Track)];
        ImmutableArray<(TrackPlace Middle, double Metres)> within = [.. all.Where(length => spots.IsWithinReach(length.Middle))];
        ImmutableArray<(TrackPlace Middle, double Metres)> track = within.IsEmpty ? all : within;
        Buses.Corridor corridor = Buses.Corridor.Along(layout, track.Select(length => length.Middle));
        List<TrackPlace> sites = [CentralPlace.Of(layout, track)];
        while (sites.Count < Math.Min(MostSites, track.Length))
        {
            (double[] metres, _) = corridor.From(sites.Select(corridor.PointAt));
            (TrackPlace place, double far) = track
                .Select(length => (length.Middle, Far: Math.Round(metres[corridor.PointAt(length.Middle)], 6)))
                .OrderByDescending(pair => pair.Far).ThenBy(pair => pair.Middle)
                .First();
            if (far <= 0)
            {
                break;
            }

            sites.Add(place);
        }

        return [.. sites];
    }

    /// <summary>For each district and site the drop in millivolts over the longest way and the breaker, at the design load.</summary>
    private long[,] Drops(ImmutableArray<DistrictDemand> demands, ImmutableArray<Site> sites)
    {
        Buses.Corridor corridor = Buses.Corridor.Along(
            layout, demands.SelectMany(demand => demand.Track.Select(length => length.Middle)).Concat(sites.Select(site => site.At)));
        long[,] drops = new long[demands.Length, sites.Length];
        for (int site = 0; site < sites.Length; site++)
        {
            (double[] metres, _) = corridor.From([corridor.PointAt(sites[site].At)]);
            for (int district = 0; district < demands.Length; district++)
            {
                double farthest = demands[district].Track.Max(length => Math.Min(metres[corridor.PointAt(length.Middle)], 1e3));
                double ohms = (2 * busOhmsPerMetre * farthest) + DeviceTable.BreakerResistance.Ohms;
                drops[district, site] = (long)Math.Round(1000 * demands[district].DesignAmps * ohms);
            }
        }

        return drops;
    }

    private IEnumerable<string> FreeNames()
    {
        HashSet<string> taken = [.. layout.Wiring.Boosters.Select(booster => booster.Name), .. layout.Wiring.Supplies.Select(supply => supply.Name)];
        return Enumerable.Range(1, int.MaxValue - 1)
            .Select(number => string.Create(CultureInfo.InvariantCulture, $"booster-{number}"))
            .Where(name => !taken.Contains(name));
    }

    /// <summary>The choice as a CP-SAT model.</summary>
    private sealed class Choice(ImmutableArray<DistrictDemand> demands, ImmutableArray<Site> sites, long[,] dropMillivolts)
    {
        private readonly CpModel _model = new();

        public BoosterPlan? Solve(int added, ImmutableArray<string> names)
        {
            BoolVar[] open = [.. sites.Select(_ => _model.NewBoolVar(""))];
            BoolVar[][] on = [.. demands.Select(demand => Assign(demand, open))];
            _model.AddLinearConstraint(LinearExpr.Sum(open.Where((_, site) => sites[site].IsNew)), added, added);
            IntVar worst = _model.NewIntVar(0, 1_000_000, "");
            for (int site = 0; site < sites.Length; site++)
            {
                LinearExpr milliamps = LinearExpr.WeightedSum(
                    on.Select(row => row[site]), demands.Select((_, district) => Working(district)));
                _model.Add(LinearExpr.WeightedSum(on.Select(row => row[site]), demands.Select(demand => BoosterPacking.ShareUnits(demand.Share)))
                    <= BoosterPacking.RoomUnits(sites[site].RoomShare));
                for (int district = 0; district < demands.Length; district++)
                {
                    // The booster's resistance carries the train here and what the other districts draw; in microvolts.
                    _model.Add((1000 * worst) >= (milliamps * MilliOhms(site)) + (1000 * dropMillivolts[district, site]) + (BeyondShare(district) * MilliOhms(site)))
                        .OnlyEnforceIf(on[district][site]);
                }
            }

            // What holds at every site holds summed over them, with no more on the booster than the district itself: that is what the bound needs.
            for (int district = 0; district < demands.Length; district++)
            {
                _model.Add((1000 * worst) >= LinearExpr.WeightedSum(
                    on[district], sites.Select((_, site) => (1000 * dropMillivolts[district, site]) + ((Working(district) + BeyondShare(district)) * MilliOhms(site)))));
            }

            IEnumerable<LinearExpr> drops = demands.SelectMany((_, district) => sites.Select((_, site) => dropMillivolts[district, site] * (LinearExpr)on[district][site]));
            _model.Minimize((10 * worst) + LinearExpr.Sum(drops));
            CpSolver solver = new()
            {
                StringParameters = SolverSettings.For(Effort),
            };
            return solver.Solve(_model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
                ? Read(solver, on, names)
                : null;

            long Working(int district) => (long)Math.Round(demands[district].WorkingAmps * 1000);

            long BeyondShare(int district) => (long)Math.Round((demands[district].DesignAmps - demands[district].WorkingAmps) * 1000);

            long MilliOhms(int site) => (long)Math.Round(sites[site].Ohms * 1000);
        }

        private BoolVar[] Assign(DistrictDemand demand, BoolVar[] open)
        {
            BoolVar[] row = [.. sites.Select(_ => _model.NewBoolVar(""))];
            _model.AddExactlyOne(row);
            for (int site = 0; site < sites.Length; site++)
            {
                _model.AddImplication(row[site], open[site]);
                if (!sites[site].Takes(demand))
                {
                    _model.Add(row[site] == 0);
                }
            }

            return row;
        }

        private BoosterPlan Read(CpSolver solver, BoolVar[][] on, ImmutableArray<string> names)
        {
            // New boosters are numbered in the order of the districts they feed.
            int[] siteOf = [.. on.Select(row => Array.FindIndex(row, solver.BooleanValue))];
            int[] added = [.. siteOf.Where(site => sites[site].IsNew).Distinct()];
            return new(
                demands.Select((demand, i) => (demand.Name, Site: siteOf[i])).ToImmutableSortedDictionary(
                    pair => pair.Name,
                    pair => sites[pair.Site].IsNew ? names[Array.IndexOf(added, pair.Site)] : sites[pair.Site].Name,
                    StringComparer.Ordinal),
                [.. added.Select((site, i) => (names[i], sites[site].At))]);
        }
    }
}
