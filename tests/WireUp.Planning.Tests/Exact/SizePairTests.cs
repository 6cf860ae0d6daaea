using System.Collections.Immutable;
using WireUp.Planning.Devices;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Which runs get the thinner of two sizes, against every choice there is.</summary>
public sealed class SizePairTests
{
    private const int Runs = 8;
    private const double Thick = 5, Thin = 3;

    [Fact]
    public void No_choice_that_keeps_the_limits_is_cheaper()
    {
        int kept = 0;
        foreach (int seed in Enumerable.Range(1, 60))
        {
            Random chance = new(seed);
            BusRuns bus = Tree(chance);
            ThinLimit[] limits = [.. Enumerable.Range(0, 3).Select(_ => new ThinLimit(2 * chance.NextDouble(), [.. Enumerable.Range(0, Runs).Select(_ => chance.NextDouble())]))];
            ImmutableArray<int>[] failed = [[7], [0, 1, 2]];
            double? least = Every(bus)
                .Where(thin => limits.All(limit => thin.Sum(run => limit.ByRun[run]) <= limit.Room) && !failed.Any(each => each.All(run => thin.Contains(run))))
                .Select(thin => (double?)Cost(bus, thin))
                .Min();
            (ImmutableArray<int> Thin, double Bound)? found = new SizePairModel(bus, Thick, Thin).Solve(limits, failed);
            Assert.Equal(least, found is { } choice ? Cost(bus, choice.Thin) : null);
            Assert.True(found is null || (found.Value.Bound <= least + 1e-9 && found.Value.Bound > least - 0.01));
            kept += least < Cost(bus, []) ? 1 : 0;
        }

        Assert.InRange(kept, 20, 60);
    }

    [Fact]
    public void Where_thick_wire_costs_less_all_of_it_is_thick()
    {
        BusRuns bus = Tree(new(1));
        Assert.Empty(new SizePairModel(bus, thickCost: 1, thinCost: 2).Solve([], [])!.Value.Thin);
    }

    [Fact]
    public void Nothing_is_chosen_where_no_choice_keeps_a_limit() =>
        Assert.Null(new SizePairModel(Tree(new(1)), Thick, Thin).Solve([new(-0.1, [.. new double[Runs]])], []));

    // Main 0 feeds 1 and 2; 2 feeds 3 and 4; 3 feeds 5.
    [Fact]
    public void From_the_ends_each_run_comes_after_those_beyond_it_the_longest_branch_first()
    {
        BusRuns bus = new("d1", [-1, 0, 0, 2, 2, 3], [1, 1, 1, 1, 1, 1]) { BuiltCount = 2 };
        Assert.Equal([5, 3, 4, 2, 1, 0], bus.FromEnds(0));
        Assert.Equal([5, 3, 4, 2], bus.FromEnds(2));
        Assert.Equal([3, 2, 0], bus.Before(5));
        Assert.Equal([2, 1], bus.Branches[0]);
        Assert.Equal([0, 0, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5], bus.OhmsMore(0.5));
        Assert.Equal(7, bus.WithBuilt(5));
    }

    private static BusRuns Tree(Random chance) => new(
        "d1",
        [.. Enumerable.Range(0, Runs).Select(run => run == 0 ? -1 : chance.Next(-1, run))],
        [.. Enumerable.Range(0, Runs).Select(_ => Math.Round(1 + (9 * chance.NextDouble()), 2))]);

    private static double Cost(BusRuns bus, ImmutableArray<int> thin) => Math.Round(bus.Metres.Select((metres, run) => metres * (thin.Contains(run) ? Thin : Thick)).Sum(), 6);

    /// <summary>Every choice in which no run is thicker than the one before it.</summary>
    private static IEnumerable<ImmutableArray<int>> Every(BusRuns bus) => Enumerable.Range(0, 1 << Runs)
        .Select(bits => Enumerable.Range(0, Runs).Where(run => (bits & (1 << run)) != 0).ToImmutableArray())
        .Where(thin => thin.All(run => Enumerable.Range(0, Runs).All(beyond => bus.Parent[beyond] != run || thin.Contains(beyond))));
}
