using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>All the track that is reached over one run and by no other way: a tail, a siding, a whole branch.</summary>
/// <param name="Junctions">Its turnouts, ascending.</param>
/// <param name="Runs">Its runs with the one that leads to it, ascending.</param>
/// <param name="Roads">How many of them end in a buffer stop or open end.</param>
internal sealed record HangingPart(ImmutableArray<int> Junctions, ImmutableArray<int> Runs, int Roads);

/// <summary>Finds the parts of a map that hang on a single run and could be taken whole into a section.</summary>
internal sealed class HangingParts
{
    private const int MostJunctions = 60;
    private readonly ImmutableDictionary<Tip, HangingPart> _parts;

    internal HangingParts(RunMap map, IEnumerable<Block> blocks, Func<int, bool> canTakeIn)
    {
        HashSet<int> onCycle =
            [.. blocks.Where(block => block.Runs.Length > 1 || IsLoop(map, block.Runs[0])).SelectMany(block => block.Runs)];
        _parts = map.Runs
            .Where(run => !onCycle.Contains(run.Index))
            .SelectMany(run => new Tip[] { new(run.Index, 0), new(run.Index, 1) })
            .Where(tip => map.PortAt(tip) is not null)
            .Select(tip => (tip, part: Beyond(map, tip)))
            .Where(pair => pair.part.Junctions.Length <= MostJunctions)
            .Where(pair => pair.part.Runs.All(canTakeIn) && BlockFinder.IsBalanced(map, pair.part.Runs))
            .ToImmutableDictionary(pair => pair.tip, pair => pair.part);
    }

    /// <summary>What hangs on the run of a tip, seen from the turnout at that tip; null where nothing does that can be taken in.</summary>
    internal HangingPart? From(Tip tip) => _parts.GetValueOrDefault(tip);

    private static bool IsLoop(RunMap map, int run) =>
        map.Runs[run] is { Port0: { } first, Port1: { } second } && first.Junction == second.Junction;

    private static HangingPart Beyond(RunMap map, Tip tip)
    {
        SortedSet<int> junctions = [];
        SortedSet<int> runs = [tip.Run];
        Queue<Tip> open = new([tip]);
        while (open.TryDequeue(out Tip next) && junctions.Count <= MostJunctions)
        {
            if (map.PortAt(next.Opposite) is { } port && junctions.Add(port.Junction))
            {
                foreach (Tip onward in map.Junctions[port.Junction].Tips.Where(onward => runs.Add(onward.Run)))
                {
                    open.Enqueue(onward);
                }
            }
        }

        return new([.. junctions], [.. runs], runs.Count(run => !map.Runs[run].IsThrough && map.Runs[run].Length > 0));
    }
}
