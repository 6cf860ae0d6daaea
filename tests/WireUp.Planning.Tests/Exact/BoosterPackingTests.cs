using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Devices;

namespace WireUp.Planning.Tests.Exact;

/// <summary>The fewest boosters that carry whole districts, against every way to share them out.</summary>
public sealed class BoosterPackingTests
{
    private const int Seeds = 200;

    [Fact]
    public void The_fewest_boosters_are_what_trying_every_way_to_share_districts_out_finds()
    {
        int moreThanTheLoad = 0;
        foreach (int seed in Enumerable.Range(1, Seeds))
        {
            (ImmutableArray<DistrictDemand> demands, ImmutableArray<BuiltBooster> built, PowerSizing sizing) = Case(new(seed));
            int fewest = Fewest(demands, 0, [.. built.Select(booster => BoosterPacking.RoomUnits(booster.RoomShare))], built.Length, sizing);
            Assert.True(fewest == new BoosterPacking(demands, built, sizing).Fewest(), $"seed {seed}: {fewest} by trying all");
            double load = demands.Sum(demand => demand.Share) - built.Sum(booster => Math.Max(0, booster.RoomShare));
            moreThanTheLoad += fewest > Math.Ceiling((load / sizing.MostBoosterShare) - 1e-6) ? 1 : 0;
        }

        Assert.InRange(moreThanTheLoad, 20, Seeds);
    }

    // Sixteen districts of 0.06 do not go in pairs into boosters of 0.11, and one of the small ones fits beside each of them: the load asks for 10.
    [Fact]
    public void Districts_of_more_than_half_a_booster_have_one_each()
    {
        PowerSizing sizing = Sizing(0.11);
        ImmutableArray<DistrictDemand> demands = Demands(sizing, [.. Enumerable.Repeat(0.06, 16), .. Enumerable.Repeat(0.0025, 16)]);
        Assert.Equal(0.11, sizing.MostBoosterShare, 6);
        Assert.Equal(16, new BoosterPacking(demands, [], sizing).Fewest());
    }

    private static (ImmutableArray<DistrictDemand> Demands, ImmutableArray<BuiltBooster> Built, PowerSizing Sizing) Case(Random chance)
    {
        double[] parts = [.. Enumerable.Range(0, chance.Next(2, 8)).Select(_ => 0.1 + chance.NextDouble())];
        PowerSizing sizing = Sizing(Math.Min(1, (parts.Max() / parts.Sum()) + (0.4 * chance.NextDouble())));
        ImmutableArray<BuiltBooster> built = [.. Enumerable.Range(0, chance.Next(0, 3)).Select(i =>
            new BuiltBooster($"b{i}", default, (0.6 * chance.NextDouble()) - 0.1, sizing.MostTripAmps, 0.1))];
        return (Demands(sizing, [.. parts.Select(part => part / parts.Sum())]), built, sizing);
    }

    private static PowerSizing Sizing(double mostShare) => new(new(4 / mostShare, 4 / mostShare, 0.1), BoosterAmps: 5, MostTripAmps: 10, BreakerSizes.Usual);

    private static ImmutableArray<DistrictDemand> Demands(PowerSizing sizing, ImmutableArray<double> shares) =>
        [.. shares.Select((share, i) => new DistrictDemand($"d{i}", share, sizing, [(new TrackPlace(new($"s{i}"), 1), 2)]))];

    /// <summary>New boosters needed for the districts from one on, when boosters have so much room left.</summary>
    private static int Fewest(ImmutableArray<DistrictDemand> demands, int next, ImmutableArray<long> rooms, int built, PowerSizing sizing)
    {
        if (next == demands.Length)
        {
            return rooms.Length - built;
        }

        long share = BoosterPacking.ShareUnits(demands[next].Share);
        ImmutableArray<long> wider = rooms.Add(BoosterPacking.RoomUnits(sizing.MostBoosterShare));
        return Enumerable.Range(0, wider.Length)
            .Where(booster => wider[booster] >= share)
            .Select(booster => Fewest(demands, next + 1, (booster < rooms.Length ? rooms : wider).SetItem(booster, wider[booster] - share), built, sizing))
            .Min();
    }
}
