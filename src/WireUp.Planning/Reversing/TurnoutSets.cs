using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Planning.Reversing;

/// <summary>Sets of turnouts, each connected by runs, around which sections are tried.</summary>
internal static class TurnoutSets
{
    private const int MostTurnouts = 60;
    private const int MostJoined = 12;

    /// <summary>
    /// Every set of turnouts connected by the given runs with at least one of the seeds in it, the small ones first, until the
    /// budget is spent. On a small layout that is every set there is.
    /// </summary>
    internal static IEnumerable<ImmutableSortedSet<int>> Small(RunMap map, IEnumerable<int> seeds, HashSet<int> usable, int budget)
    {
        HashSet<string> seen = [];
        Queue<ImmutableSortedSet<int>> open = new(seeds.Select(junction => ImmutableSortedSet.Create(junction)));
        foreach (ImmutableSortedSet<int> single in open)
        {
            _ = seen.Add(KeyOf(single));
        }

        for (int left = budget; left > 0 && open.TryDequeue(out ImmutableSortedSet<int>? set); left--)
        {
            yield return set;
            foreach (int neighbour in Neighbours(map, set, usable))
            {
                ImmutableSortedSet<int> larger = set.Add(neighbour);
                if (open.Count < left && seen.Add(KeyOf(larger)))
                {
                    open.Enqueue(larger);
                }
            }
        }
    }

    /// <summary>
    /// Both sides of every two runs that part a block in two: a loop with its storage roads and ladders, one end of a folded oval.
    /// </summary>
    internal static IEnumerable<ImmutableSortedSet<int>> SidesOfTwoRunCuts(RunMap map, Block block)
    {
        foreach (int first in block.Runs)
        {
            int[] rest = [.. block.Runs.Where(run => run != first)];
            foreach (int second in BridgesAmong(map, rest).Where(second => second > first))
            {
                foreach (Port? start in new[] { map.Runs[second].Port0, map.Runs[second].Port1 })
                {
                    ImmutableSortedSet<int> side = Reach(map, start!.Value.Junction, [.. rest.Where(run => run != second)]);
                    if (side.Count <= MostTurnouts)
                    {
                        yield return side;
                    }
                }
            }
        }
    }

    /// <summary>A turnout with those it reaches first in one direction, one by one: how a section grows through a ladder.</summary>
    internal static IEnumerable<ImmutableSortedSet<int>> Growing(RunMap map, Tip away, Func<int, bool> canTakeIn, double enoughMetres)
    {
        ImmutableSortedSet<int> set = [map.PortAt(away)!.Value.Junction];
        PriorityQueue<Tip, (double Metres, int Run)> open = new();
        open.Enqueue(away, (map.Runs[away.Run].Length, away.Run));
        while (set.Count < MostTurnouts
            && open.TryDequeue(out Tip tip, out (double Metres, int Run) reached) && reached.Metres < enoughMetres)
        {
            if (!canTakeIn(tip.Run) || map.PortAt(tip.Opposite) is not { } port || set.Contains(port.Junction))
            {
                continue;
            }

            set = set.Add(port.Junction);
            yield return set;
            foreach (int way in map.Junctions[port.Junction].WaysFrom(port.Index))
            {
                Tip next = map.Junctions[port.Junction].Tips[way];
                open.Enqueue(next, (reached.Metres + map.Runs[next.Run].Length, next.Run));
            }
        }
    }

    /// <summary>
    /// Of every two blocks the turnouts on a way from one to the other with the fewest runs, and all such ways together: the main line between two
    /// loops, with whatever lies along it.
    /// </summary>
    internal static IEnumerable<ImmutableSortedSet<int>> Joining(RunMap map, IReadOnlyCollection<Block> blocks, Func<int, bool> canTakeIn)
    {
        ImmutableArray<ImmutableSortedSet<int>> ends = [.. blocks.Take(MostJoined).Select(block => TurnoutsOf(map, block.Runs).ToImmutableSortedSet())];
        List<ImmutableSortedSet<int>> ways =
        [
            .. from i in Enumerable.Range(0, ends.Length)
               from j in Enumerable.Range(i + 1, ends.Length - i - 1)
               let way = Way(map, ends[i], ends[j], canTakeIn)
               where way is { Count: <= MostTurnouts }
               select way,
        ];
        return ways.Count > 1 ? ways.Append(ways.Aggregate(ImmutableSortedSet<int>.Empty, (all, way) => all.Union(way))) : ways;
    }

    private static ImmutableSortedSet<int>? Way(RunMap map, ImmutableSortedSet<int> from, ImmutableSortedSet<int> to, Func<int, bool> canTakeIn)
    {
        Dictionary<int, ImmutableSortedSet<int>> ways = from.ToDictionary(junction => junction, junction => ImmutableSortedSet.Create(junction));
        Queue<int> open = new(from);
        while (open.TryDequeue(out int junction))
        {
            if (to.Contains(junction))
            {
                return ways[junction];
            }

            foreach (Tip tip in map.Junctions[junction].Tips.Where(tip => canTakeIn(tip.Run)))
            {
                if (map.PortAt(tip.Opposite) is { } port && ways.TryAdd(port.Junction, ways[junction].Add(port.Junction)))
                {
                    open.Enqueue(port.Junction);
                }
            }
        }

        return null;
    }

    /// <summary>The turnouts at the tips of runs, ascending.</summary>
    internal static IEnumerable<int> TurnoutsOf(RunMap map, IEnumerable<int> runs) => runs
        .SelectMany(run => new[] { map.Runs[run].Port0, map.Runs[run].Port1 })
        .OfType<Port>()
        .Select(port => port.Junction)
        .Distinct()
        .Order();

    /// <summary>A text that is the same for the same set.</summary>
    internal static string KeyOf(IEnumerable<int> set) =>
        string.Join(',', set.Select(member => member.ToString(CultureInfo.InvariantCulture)));

    private static IEnumerable<int> Neighbours(RunMap map, ImmutableSortedSet<int> set, HashSet<int> usable) => set
        .SelectMany(junction => map.Junctions[junction].Tips)
        .Where(tip => usable.Contains(tip.Run))
        .Select(tip => map.PortAt(tip.Opposite))
        .OfType<Port>()
        .Select(port => port.Junction)
        .Where(junction => !set.Contains(junction))
        .Distinct()
        .Order();

    private static ImmutableArray<int> BridgesAmong(RunMap map, int[] runs)
    {
        HashSet<int> kept = [.. runs];
        return [.. BlockFinder.Of(map, kept.Contains)
            .Where(block => block.Runs is [var only] && map.Runs[only].Port0!.Value.Junction != map.Runs[only].Port1!.Value.Junction)
            .Select(block => block.Runs[0])];
    }

    private static ImmutableSortedSet<int> Reach(RunMap map, int start, HashSet<int> runs)
    {
        SortedSet<int> reached = [start];
        Queue<int> open = new([start]);
        while (open.TryDequeue(out int junction) && reached.Count <= MostTurnouts)
        {
            foreach (Tip tip in map.Junctions[junction].Tips.Where(tip => runs.Contains(tip.Run)))
            {
                if (map.PortAt(tip.Opposite) is { } port && reached.Add(port.Junction))
                {
                    open.Enqueue(port.Junction);
                }
            }
        }

        return [.. reached];
    }
}
