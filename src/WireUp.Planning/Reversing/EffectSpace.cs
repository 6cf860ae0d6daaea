using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;

namespace WireUp.Planning.Reversing;

/// <summary>
/// What a candidate can do to the odd cycles. A spanning forest of the odd blocks leaves some runs over, and each of these closes one
/// cycle with the forest; swapping at a border flips the cycles that pass it. An effect is the set of cycles flipped, one bit each;
/// a set of sections cures the blocks when their effects together flip exactly the odd ones.
/// </summary>
internal sealed class EffectSpace
{
    private const int MostCandidates = 400;
    private const int MostAlike = 16;
    private const int MostBorders = 10;
    private readonly Dictionary<int, BigInteger> _cyclesOver = [];

    internal EffectSpace(RunMap map, IReadOnlyCollection<Block> oddBlocks)
    {
        int bit = 0;
        foreach (Block block in oddBlocks)
        {
            Dictionary<int, ImmutableList<int>> ways = OddCycles.WaysFrom(map, block, map.Runs[block.Runs[0]].Port0!.Value.Junction);
            foreach (int run in block.Runs)
            {
                ImmutableHashSet<int> cycle = OddCycles.Closed(map, ways, run);
                foreach (int passed in cycle)
                {
                    _cyclesOver[passed] = _cyclesOver.GetValueOrDefault(passed) | (BigInteger.One << bit);
                }

                bit += cycle.IsEmpty ? 0 : 1;
            }
        }
    }

    /// <summary>Leaves out what can flip nothing; of very many, leaves the best few of those that can do the same.</summary>
    internal IEnumerable<Candidate> Sift(IEnumerable<Candidate> candidates, double requiredMetres)
    {
        var useful = candidates
            .Select(candidate => (Candidate: candidate, Effects: EffectsOf(candidate, requiredMetres)))
            .Where(pair => pair.Effects.Any(effect => !effect.IsZero))
            .ToList();
        if (useful.Count <= MostCandidates)
        {
            return useful.Select(pair => pair.Candidate);
        }

        return useful
            .GroupBy(pair => string.Join(' ', pair.Effects.Select(effect => effect.ToString(CultureInfo.InvariantCulture))), pair => pair.Candidate)
            .SelectMany(alike => alike.OrderBy(one => one.ExtraRoads).ThenBy(one => one.Gaps).ThenBy(one => one.Penalty).Take(MostAlike));
    }

    /// <summary>Every effect a candidate can have, ascending: borders that are tied swap together, all others as they like.</summary>
    internal ImmutableSortedSet<BigInteger> EffectsOf(Candidate candidate, double requiredMetres)
    {
        ImmutableArray<Border> borders = candidate.Borders;
        ParityUnionWorkspace tied = new(borders.Length);
        foreach (BorderPair pair in candidate.Pairs.Where(pair => pair.IsTied(requiredMetres)))
        {
            _ = tied.Join(pair.First, pair.Second, differ: false);
        }

        BigInteger[] classes =
        [
            .. Enumerable.Range(0, borders.Length)
                .GroupBy(border => tied.Find(border).Root)
                .Select(group => group.Aggregate(BigInteger.Zero, (sum, border) => sum ^ _cyclesOver.GetValueOrDefault(borders[border].Spot.Run))),
        ];
        ImmutableSortedSet<BigInteger> effects = [BigInteger.Zero];
        foreach (BigInteger one in classes.Skip(1).Take(MostBorders))
        {
            effects = effects.Union(effects.Select(effect => effect ^ one));
        }

        return effects;
    }
}
