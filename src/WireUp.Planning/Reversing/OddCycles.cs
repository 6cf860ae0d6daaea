using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>Walks round a block that come back with the rails exchanged.</summary>
internal static class OddCycles
{
    private const int MostRoots = 40;

    /// <summary>The odd cycles that one run closes with the shortest ways to its tips from some turnout, as sets of runs.</summary>
    internal static IEnumerable<ImmutableHashSet<int>> Of(RunMap map, Block block) => TurnoutsOfSome(map, block)
        .SelectMany(root => From(map, block, root))
        .DistinctBy(cycle => TurnoutSets.KeyOf(cycle.Order()));

    /// <summary>
    /// Few runs whose cutting would balance a block: of the spanning trees tried, the odd runs left over from the one that
    /// leaves the fewest. What cures the block with little track lies near them.
    /// </summary>
    internal static ImmutableArray<int> FewRunsToCut(RunMap map, Block block) => TurnoutsOfSome(map, block)
        .Select(root => WaysFrom(map, block, root))
        .Select(ways => block.Runs.Where(run => IsOdd(map, Closed(map, ways, run))).ToImmutableArray())
        .MinBy(runs => runs.Length);

    private static IEnumerable<int> TurnoutsOfSome(RunMap map, Block block) => TurnoutSets.TurnoutsOf(map, block.Runs).Take(MostRoots);

    private static IEnumerable<ImmutableHashSet<int>> From(RunMap map, Block block, int root)
    {
        Dictionary<int, ImmutableList<int>> ways = WaysFrom(map, block, root);
        return block.Runs.Select(run => Closed(map, ways, run)).Where(cycle => IsOdd(map, cycle));
    }

    private static bool IsOdd(RunMap map, ImmutableHashSet<int> cycle) => !cycle.IsEmpty && !BlockFinder.IsBalanced(map, cycle);

    /// <summary>The way with the fewest runs from one turnout of a block to each, along a tree.</summary>
    internal static Dictionary<int, ImmutableList<int>> WaysFrom(RunMap map, Block block, int root)
    {
        Dictionary<int, ImmutableList<int>> ways = new() { [root] = [] };
        Queue<int> open = new([root]);
        HashSet<int> inBlock = [.. block.Runs];
        while (open.TryDequeue(out int junction))
        {
            foreach (Tip tip in map.Junctions[junction].Tips.Where(tip => inBlock.Contains(tip.Run)))
            {
                if (map.PortAt(tip.Opposite) is { } port && ways.TryAdd(port.Junction, ways[junction].Add(tip.Run)))
                {
                    open.Enqueue(port.Junction);
                }
            }
        }

        return ways;
    }

    /// <summary>The cycle that a run closes with the tree; empty for a run of the tree.</summary>
    internal static ImmutableHashSet<int> Closed(RunMap map, Dictionary<int, ImmutableList<int>> ways, int run)
    {
        ImmutableHashSet<int> one = [.. ways[map.Runs[run].Port0!.Value.Junction]];
        ImmutableHashSet<int> round = one.SymmetricExcept(ways[map.Runs[run].Port1!.Value.Junction]);
        ImmutableHashSet<int> cycle = round.Add(run);
        return cycle.Count == round.Count ? [] : cycle;
    }
}
