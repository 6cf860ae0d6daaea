using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace WireUp.Planning.Devices;

/// <summary>
/// The fewest new boosters that can carry new districts, when no district may hang on two of them, wherever they stand and whatever the
/// wire: bin packing, in millionths of all fed track.
/// </summary>
/// <param name="demands">The new districts.</param>
/// <param name="built">The boosters that are there.</param>
/// <param name="sizing">The size of new boosters.</param>
internal sealed class BoosterPacking(ImmutableArray<DistrictDemand> demands, ImmutableArray<BuiltBooster> built, PowerSizing sizing)
{
    private const double Effort = 1, Units = 1e6;

    private readonly ImmutableArray<DistrictDemand> _demands = [.. demands.OrderByDescending(demand => demand.Share)];
    private readonly long _room = RoomUnits(sizing.MostBoosterShare);

    /// <summary>A share of all fed track as the packing counts it.</summary>
    public static long ShareUnits(double share) => (long)Math.Floor(share * Units);

    /// <summary>The room of a booster, as the packing counts it.</summary>
    public static long RoomUnits(double share) => Math.Max(0, ShareUnits(share));

    /// <summary>The fewest new boosters, as far as proved: no plan with fewer carries the districts.</summary>
    public int Fewest()
    {
        int fewest = Math.Max(ByLoad(), ByPairs());
        while (fewest < _demands.Length && Pack(fewest) == CpSolverStatus.Infeasible)
        {
            fewest++;
        }

        return fewest;
    }

    /// <summary>What the districts add up to, over what a new booster carries.</summary>
    private int ByLoad() => (int)Over(_demands.Sum(demand => ShareUnits(demand.Share)) - built.Sum(booster => RoomUnits(booster.RoomShare)));

    /// <summary>
    /// For any threshold up to half a booster, districts that leave less than the threshold have a booster of their own, districts above half of one
    /// do not share one, and what is not below the threshold has to find room beside these.
    /// Source: S. Martello and P. Toth, Knapsack Problems, Chichester 1990, chapter 8, bound L2 (from memory).
    /// </summary>
    private int ByPairs()
    {
        if (built.Any(booster => RoomUnits(booster.RoomShare) > _room))
        {
            return 0;
        }

        long[] shares = [.. _demands.Select(demand => ShareUnits(demand.Share))];
        return shares.Where(share => share <= _room / 2).Append(0).Distinct().Max(Bins) - built.Length;

        int Bins(long threshold)
        {
            int alone = shares.Count(share => share > _room - threshold);
            long[] large = [.. shares.Where(share => share <= _room - threshold && 2 * share > _room)];
            long small = shares.Where(share => 2 * share <= _room && share >= threshold).Sum();
            return alone + large.Length + (int)Over(small - large.Sum(share => _room - share));
        }
    }

    private long Over(long units) => units <= 0 ? 0 : ((units - 1) / Math.Max(1, _room)) + 1;

    /// <summary>Whether so many new boosters, with those that are there, can carry the districts.</summary>
    private CpSolverStatus Pack(int added)
    {
        CpModel model = new();
        BoolVar[][] on = [.. _demands.Select(_ => Enumerable.Range(0, built.Length + added).Select(_ => model.NewBoolVar("")).ToArray())];
        for (int district = 0; district < on.Length; district++)
        {
            model.AddExactlyOne(on[district]);
            for (int booster = 0; booster < on[district].Length; booster++)
            {
                // New boosters are alike: the first district may have the first of them only, the second one of two, and so on.
                bool isSpare = booster - built.Length > district;
                if (isSpare || !Takes(booster, _demands[district]))
                {
                    model.Add(on[district][booster] == 0);
                }
            }
        }

        for (int booster = 0; booster < built.Length + added; booster++)
        {
            model.Add(LinearExpr.WeightedSum(on.Select(row => row[booster]), _demands.Select(demand => ShareUnits(demand.Share)))
                <= (booster < built.Length ? RoomUnits(built[booster].RoomShare) : _room));
        }

        CpSolver solver = new()
        {
            StringParameters = SolverSettings.For(Effort),
        };
        return solver.Solve(model);
    }

    private bool Takes(int booster, DistrictDemand demand) => booster < built.Length
        ? demand.Fits(built[booster].RoomShare, built[booster].MostTripAmps)
        : demand.Fits(sizing.MostBoosterShare, sizing.MostTripAmps);
}
