using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>What was found for one group of conflicts.</summary>
/// <param name="Blocks">The blocks of the group.</param>
/// <param name="Choice">The best choice, or null when there is none even for the shortest train.</param>
/// <param name="Clearances">The lengths it was made for; shorter than asked when the longest train does not fit.</param>
/// <param name="Proved">Whether the search for the asked length ended with an answer rather than at its budget.</param>
internal sealed record GroupResult(ImmutableArray<Block> Blocks, SectionChoice? Choice, Clearances Clearances, bool Proved);

/// <summary>Settles every odd block of a map, together where they could get in each other's way, else apart.</summary>
internal sealed class ReversingSearch(
    RunMap map, BuiltWiring built, ReversingOptions options, ImmutableArray<Block> blocks, CancellationToken cancellation)
{
    private const double LengthStepMetres = 0.01;
    private readonly ImmutableArray<Block> _odd = [.. blocks.Where(block => block.IsOdd)];

    /// <summary>The best choice for each group, in the order of their first blocks.</summary>
    internal ImmutableArray<GroupResult> Settle(Clearances clearances)
    {
        ImmutableArray<Candidate> candidates = CandidatesFor(_odd, clearances);
        List<GroupResult> results = [];
        foreach (ImmutableArray<Block> group in Groups(candidates))
        {
            ImmutableArray<Candidate> ofGroup = [.. candidates.Where(candidate => BlocksOf(candidate).Any(group.Contains))];
            (SectionChoice? choice, bool proved) = Choose(group, ofGroup, clearances);
            results.Add(new(group, choice, clearances, proved));
        }

        Candidate[] taken = [.. results.SelectMany(result => result.Choice?.Chosen ?? [])];
        return [.. results.Select(result => result.Choice is null ? Shorter(result, taken) : result)];
    }

    private ImmutableArray<Candidate> CandidatesFor(IReadOnlyCollection<Block> group, Clearances clearances) =>
        new CandidateFinder(map, built, clearances, options, blocks).Find(group, cancellation);

    private (SectionChoice? Choice, bool Proved) Choose(
        ImmutableArray<Block> group, ImmutableArray<Candidate> candidates, Clearances clearances)
    {
        HashSet<int> elsewhere = [.. _odd.Except(group).SelectMany(block => block.Runs)];
        // One section is the fewest there can be: where some candidate cures all by itself, only those need comparing.
        EffectSpace effects = new(map, group);
        ImmutableArray<Candidate> alone = [.. candidates.Where(candidate => effects.CuresAll(candidate, clearances.Required))];
        (SectionChoice? choice, bool proved) = Solve(alone, elsewhere, group, clearances);
        return choice is not null && choice[ChoiceLevel.WrongFeeders].Value == 0
            ? (choice, proved)
            : Solve(candidates, elsewhere, group, clearances);
    }

    private (SectionChoice? Choice, bool Proved) Solve(
        ImmutableArray<Candidate> candidates, HashSet<int> elsewhere, ImmutableArray<Block> group, Clearances clearances)
    {
        if (candidates.IsEmpty)
        {
            return (null, true);
        }

        ImmutableArray<Candidate> numbered = [.. candidates.Select((candidate, i) => candidate with { Index = i })];
        ChoiceModel? model = new ChoiceModelBuilder(map, built, numbered, clearances.Required).Build(elsewhere, group);
        return model?.Solve(options.SolverBudget, cancellation) ?? (null, true);
    }

    /// <summary>The longest train, to the centimetre, for which there is a choice, by halving the interval.</summary>
    private GroupResult Shorter(GroupResult failed, Candidate[] taken)
    {
        int low = 0, high = (int)Math.Ceiling(failed.Clearances.Train / LengthStepMetres) - 1;
        GroupResult best = failed;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            Clearances shorter = failed.Clearances.ForTrain(middle * LengthStepMetres);
            ImmutableArray<Candidate> candidates =
                [.. CandidatesFor(failed.Blocks, shorter).Where(candidate => !taken.Any(candidate.Touches))];
            (SectionChoice? choice, _) = Choose(failed.Blocks, candidates, shorter);
            if (choice is null)
            {
                high = middle - 1;
            }
            else
            {
                (low, best) = (middle, failed with { Choice = choice, Clearances = shorter });
            }
        }

        return best;
    }

    /// <summary>Blocks whose candidates share a block or touch each other belong together.</summary>
    private IEnumerable<ImmutableArray<Block>> Groups(ImmutableArray<Candidate> candidates)
    {
        SignUnionWorkspace together = new(_odd.Length);
        void Join(IEnumerable<Block> some)
        {
            int[] numbers = [.. some.Select(block => _odd.IndexOf(block))];
            for (int i = 1; i < numbers.Length; i++)
            {
                _ = together.Join(numbers[0], numbers[i], differ: false);
            }
        }

        foreach (Candidate candidate in candidates)
        {
            Join(BlocksOf(candidate));
        }

        foreach ((int one, int other) in Touching.PairsOf(candidates))
        {
            Join(BlocksOf(candidates[one]).Concat(BlocksOf(candidates[other])));
        }

        return _odd
            .GroupBy(block => together.Find(_odd.IndexOf(block)).Root)
            .OrderBy(group => group.Key)
            .Select(group => group.ToImmutableArray());
    }

    private IEnumerable<Block> BlocksOf(Candidate candidate)
    {
        HashSet<int> runs =
        [
            .. candidate.Borders.Select(border => border.Spot.Run),
            .. candidate.Junctions.SelectMany(junction => map.Junctions[junction].Tips).Select(tip => tip.Run),
        ];
        return _odd.Where(block => block.Runs.Any(runs.Contains));
    }
}
