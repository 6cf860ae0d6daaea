using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Which booster feeds which district, against every assignment there is.</summary>
public sealed class BoosterPlannerTests
{
    private const int Districts = 5;
    private const double SectionMetres = 4, BusOhmsPerMetre = 0.008;

    // Five sections of 4 m in a row, a district each, of any share of the load; boosters stand at middles of sections.
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void No_other_assignment_has_less_drop(int boosters)
    {
        Layout layout = TrackBuilder.Line(Districts, SectionMetres).Build();
        foreach (int seed in Enumerable.Range(1, 20))
        {
            (ImmutableArray<DistrictDemand> demands, PowerSizing sizing) = Demands(seed);
            BoosterPlan? plan = new BoosterPlanner(layout, sizing, BusOhmsPerMetre).Plan(demands, [], boosters);
            double? least = Every(boosters).Where(sites => Fits(sites, demands, sizing)).Select(sites => (double?)Cost(sites, demands)).Min();
            Assert.Equal(least is null, plan is null);
            if (plan is not null)
            {
                Dictionary<string, int> siteOf = plan.NewBoosters.ToDictionary(
                    booster => booster.Name, booster => int.Parse(booster.At.Section.Name[1..], System.Globalization.CultureInfo.InvariantCulture));
                int[] sites = [.. demands.Select(demand => siteOf[plan.BoosterOf[demand.Name]])];
                Assert.True(Fits(sites, demands, sizing));
                Assert.Equal(least!.Value, Cost(sites, demands), 0.05);
            }
        }
    }

    [Fact]
    public void Fewer_boosters_than_the_bound_carry_nothing()
    {
        Layout layout = TrackBuilder.Line(Districts, SectionMetres).Build();
        int refused = 0;
        foreach (int seed in Enumerable.Range(1, 20))
        {
            (ImmutableArray<DistrictDemand> demands, PowerSizing sizing) = Demands(seed);
            BoosterPlanner planner = new(layout, sizing, BusOhmsPerMetre);
            for (int boosters = 1; boosters < sizing.BoosterCount; boosters++)
            {
                Assert.Null(planner.Plan(demands, [], boosters));
                refused++;
            }
        }

        Assert.True(refused >= 20);
    }

    private static (ImmutableArray<DistrictDemand> Demands, PowerSizing Sizing) Demands(int seed)
    {
        Random chance = new(seed);
        double[] parts = [.. Enumerable.Range(0, Districts).Select(_ => 0.3 + chance.NextDouble())];
        PowerSizing sizing = new(new(5 + (3 * chance.NextDouble()), 5, 0.8), BoosterAmps: 5, MostTripAmps: 4, BreakerSizes.Usual);
        return ([.. parts.Select((part, i) => new DistrictDemand($"d{i}", part / parts.Sum(), sizing, [(Middle(i), SectionMetres)]))], sizing);
    }

    private static TrackPlace Middle(int section) => new(new($"s{section}"), SectionMetres / 2);

    /// <summary>Every way to give each district a site, so many sites in all.</summary>
    private static IEnumerable<int[]> Every(int boosters) => Enumerable.Range(0, (int)Math.Pow(Districts, Districts))
        .Select(code => Enumerable.Range(0, Districts).Select(district => code / (int)Math.Pow(Districts, district) % Districts).ToArray())
        .Where(sites => sites.Distinct().Count() == boosters);

    private static bool Fits(int[] sites, ImmutableArray<DistrictDemand> demands, PowerSizing sizing) =>
        demands.All(demand => demand.TripAmps <= sizing.MostTripAmps)
        && sites.Distinct().All(site => demands.Where((_, i) => sites[i] == site).Sum(demand => demand.Share) <= sizing.MostBoosterShare + 1e-5);

    /// <summary>What is made small, in millivolts: ten times the largest drop, and the drops on the way added up.</summary>
    private static double Cost(int[] sites, ImmutableArray<DistrictDemand> demands)
    {
        double[] way = [.. demands.Select((demand, i) => 1000 * demand.DesignAmps
            * ((2 * BusOhmsPerMetre * SectionMetres * Math.Abs(i - sites[i])) + DeviceTable.BreakerResistance.Ohms))];
        double worst = demands.Select((demand, i) => way[i] + (1000 * DeviceTable.BoosterResistance.Ohms
            * (demands.Where((_, other) => sites[other] == sites[i]).Sum(other => other.WorkingAmps) + demand.DesignAmps - demand.WorkingAmps))).Max();
        return (10 * worst) + way.Sum();
    }
}
