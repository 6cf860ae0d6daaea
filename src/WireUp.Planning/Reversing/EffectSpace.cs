using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>
/// What a candidate can do to the odd cycles. A spanning forest of the odd blocks leaves some runs over, and each of these closes one
/// cycle with the forest; swapping at a border flips the cycles that pass it. An effect is the set of cycles flipped, one bit each;
/// a set of sections cures the blocks when their effects together flip exactly the odd ones.
/// </summary>
internal sealed class EffectSpace
{
    private const int MostCandidates = 400;
    private const int FewestAlike = 6;
    private const int MostBorders = 10;
    private readonly Dictionary<int, BigInteger> _cyclesOver = [];
    private readonly BigInteger _odd;

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

                if (!cycle.IsEmpty)
                {
                    _odd |= BlockFinder.IsBalanced(map, cycle) ? BigInteger.Zero : BigInteger.One << bit;
                    bit++;
                }
            }
        }
    }

    /// <summary>Whether a candidate could cure every odd cycle by itself, if the borders that tie let it.</summary>
    internal bool CuresAll(Candidate candidate, double requiredMetres) => EffectsOf(candidate, requiredMetres).Contains(_odd);

    /// <summary>
    /// Leaves out what can flip nothing. Of very many candidates, leaves those that can do just what cutting some of the given runs
    /// would do, and of those that can do the same the best few.
    /// </summary>
    /// <param name="candidates">What was found.</param>
    /// <param name="requiredMetres">Length below which borders tie.</param>
    /// <param name="fewRuns">Few runs whose cutting would balance the blocks; asked for only when there are too many candidates.</param>
    internal IEnumerable<Candidate> Sift(IEnumerable<Candidate> candidates, double requiredMetres, Func<IEnumerable<int>> fewRuns)
    {
        var useful = candidates
            .Select(candidate => (Candidate: candidate, Effects: EffectsOf(candidate, requiredMetres).Remove(BigInteger.Zero)))
            .Where(pair => !pair.Effects.IsEmpty)
            .ToList();
        if (useful.Count <= MostCandidates)
        {
            return useful.Select(pair => pair.Candidate);
        }

        BitSpan span = new(fewRuns().Select(run => _cyclesOver[run]));
        var alike = useful
            .Select(pair => (pair.Candidate, Effects: pair.Effects.Where(span.Holds)))
            .Where(pair => pair.Effects.Any())
            .GroupBy(
                pair => string.Join(' ', pair.Effects.Select(effect => effect.ToString(CultureInfo.InvariantCulture))),
                pair => pair.Candidate)
            .ToList();
        return alike.SelectMany(some => some
            .OrderBy(one => one.ExtraRoads)
            .ThenBy(one => one.Gaps)
            .ThenBy(one => one.Penalty)
            .Take(Math.Max(FewestAlike, MostCandidates / alike.Count)));
    }

    /// <summary>Every effect a candidate can have, ascending: borders that are tied swap together, all others as they like.</summary>
    internal ImmutableSortedSet<BigInteger> EffectsOf(Candidate candidate, double requiredMetres)
    {
        ImmutableArray<Border> borders = candidate.Borders;
        SignUnionWorkspace tied = new(borders.Length);
        foreach (BorderPair pair in candidate.Pairs.Where(pair => pair.IsTied(requiredMetres)))
        {
            _ = tied.Join(pair.First, pair.Second, differ: false);
        }

        BigInteger[] classes =
        [
            .. Enumerable.Range(0, borders.Length)
                .GroupBy(border => tied.Find(border).Root)
                .Select(group => group.Select(border => _cyclesOver.GetValueOrDefault(borders[border].Spot.Run)))
                .Select(group => group.Aggregate(BigInteger.Zero, (sum, over) => sum ^ over)),
        ];
        ImmutableSortedSet<BigInteger> effects = [BigInteger.Zero];
        foreach (BigInteger one in classes.Skip(1).Take(MostBorders))
        {
            effects = effects.Union(effects.Select(effect => effect ^ one));
        }

        return effects;
    }
}

/// <summary>The sums, bit by bit and without carry, of some numbers: what can be reached from zero by switching with them.</summary>
internal sealed class BitSpan
{
    private readonly List<BigInteger> _basis = [];

    internal BitSpan(IEnumerable<BigInteger> numbers)
    {
        foreach (BigInteger number in numbers.Select(Reduce).Where(number => !number.IsZero))
        {
            _basis.Add(number);
        }
    }

    /// <summary>Whether a number is such a sum.</summary>
    internal bool Holds(BigInteger number) => Reduce(number).IsZero;

    private BigInteger Reduce(BigInteger number) =>
        _basis.Aggregate(number, (rest, one) => (rest ^ one) < rest ? rest ^ one : rest);
}
