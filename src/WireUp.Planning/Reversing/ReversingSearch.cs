using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>What was found for one group of conflicts.</summary>
/// <param name="Blocks">The blocks of the group.</param>
/// <param name="Choice">The best choice, or null when there is none even for the shortest train.</param>
/// <param name="Clearances">The lengths it was made for; shorter than asked when the longest train does not fit.</param>
/// <param name="Proved">Whether the search for the asked length ended with an answer rather than at its budget.</param>
internal sealed record GroupResult(ImmutableArray<Block> Blocks, SectionChoice? Choice, Clearances Clearances, bool Proved)
{
    /// <summary>A single section that would do in place of several, but on which more than one train has to be reckoned with; or null.</summary>
    public Candidate? Instead { get; init; }

    /// <summary>For each section chosen the best choice that can be had without the track it takes in; empty unless asked for.</summary>
    public ImmutableArray<NextBest> NextBest { get; init; } = [];
}

/// <summary>What would be chosen were one section not to be had.</summary>
/// <param name="Without">The section.</param>
/// <param name="Choice">The best choice without it, or null where there is none.</param>
internal sealed record NextBest(Candidate Without, SectionChoice? Choice);

/// <summary>Settles every odd block of a map, together where they could get in each other's way, else apart.</summary>
internal sealed class ReversingSearch(
    RunMap map, BuiltWiring built, ReversingOptions options, ImmutableArray<Block> blocks, CancellationToken cancellation)
{
    private const double LengthStepMetres = 0.01;
    private const int MostTried = 5;
    private const int MostTold = 12;
    private readonly ImmutableArray<Block> _odd = [.. blocks.Where(block => block.IsOdd)];

    /// <summary>The best choice for each group, in the order of their first blocks.</summary>
    internal ImmutableArray<GroupResult> Settle(Clearances clearances)
    {
        ImmutableArray<Candidate> candidates = CandidatesFor(_odd, clearances);
        List<GroupResult> results = [];
        foreach (ImmutableArray<Block> group in Groups(_odd, candidates))
        {
            results.AddRange(Settle(group, [.. candidates.Where(candidate => BlocksOf(candidate).Any(group.Contains))], clearances));
        }

        Candidate[] taken = [.. results.SelectMany(result => result.Choice?.Chosen ?? [])];
        return [.. results.Select(result => result.Choice is null ? Shorter(result, taken) : result)];
    }

    /// <summary>
    /// The best choice for a group; where it has none, because one conflict lacks room, the best for each part of it that need not be
    /// settled together with the others.
    /// </summary>
    private IEnumerable<GroupResult> Settle(ImmutableArray<Block> group, ImmutableArray<Candidate> candidates, Clearances clearances)
    {
        (SectionChoice? choice, bool proved) = Choose(group, candidates, clearances);
        ImmutableArray<Candidate> ofOneBlock = [.. candidates.Where(candidate => !BlocksOf(candidate).Skip(1).Any()).Select((candidate, i) => candidate with { Index = i })];
        ImmutableArray<Block>[] parts = choice is null && group.Length > 1 ? [.. Groups(group, ofOneBlock)] : [];
        return parts.Length > 1
            ? parts.SelectMany(part => Settle(part, [.. ofOneBlock.Where(candidate => BlocksOf(candidate).Any(part.Contains))], clearances))
            :
            [
                new(group, choice, clearances, proved)
                {
                    Instead = choice?.Chosen.Length > 1 ? Instead(group, candidates, clearances) : null,
                    NextBest = options.NextBest ? [.. (choice?.Chosen ?? []).Select(section => Without(section, group, candidates, clearances))] : [],
                },
            ];
    }

    private NextBest Without(Candidate section, ImmutableArray<Block> group, ImmutableArray<Candidate> candidates, Clearances clearances) =>
        new(section, Choose(group, [.. candidates.Where(candidate => !candidate.IsSameTrack(section))], clearances).Choice);

    private ImmutableArray<Candidate> CandidatesFor(IReadOnlyCollection<Block> group, Clearances clearances) =>
        new CandidateFinder(map, built, clearances, options, blocks).Find(group, cancellation);

    /// <summary>Sections that hold the ways between several conflicts and trains besides are a last resort.</summary>
    private (SectionChoice? Choice, bool Proved) Choose(
        ImmutableArray<Block> group, ImmutableArray<Candidate> candidates, Clearances clearances)
    {
        ImmutableArray<Candidate> spared = [.. candidates.Where(candidate => !IsCrowded(candidate))];
        (SectionChoice? choice, bool proved) = ChooseAmong(group, spared, clearances);
        if (choice is null)
        {
            return spared.Length < candidates.Length ? ChooseAmong(group, candidates, clearances) : (choice, proved);
        }

        ImmutableArray<Candidate> apart = choice.Chosen.Any(Joins) ? [.. spared.Where(candidate => !Joins(candidate))] : [];
        (SectionChoice? Choice, bool Proved) without = apart.IsEmpty ? (null, true) : ChooseAmong(group, apart, clearances);
        return IsNoWorse(without.Choice, choice) ? without : (choice, proved);
    }

    /// <summary>A section that joins conflicts with further junctions between them saves a device; it is not worth more cuts.</summary>
    private static bool IsNoWorse(SectionChoice? apart, SectionChoice joined) =>
        apart is not null
        && apart[ChoiceLevel.WrongFeeders].Value <= joined[ChoiceLevel.WrongFeeders].Value
        && apart[ChoiceLevel.Gaps].Value < joined[ChoiceLevel.Gaps].Value;

    /// <summary>Whether a section takes in two conflicts and junctions that lie in neither.</summary>
    private bool Joins(Candidate candidate)
    {
        Block[] conflicts = [.. BlocksOf(candidate)];
        return conflicts.Length > 1 && candidate.Junctions.Except(TurnoutSets.TurnoutsOf(map, conflicts.SelectMany(block => block.Runs))).Any();
    }

    /// <summary>
    /// Whether a section takes in the track between two conflicts together with passing roads or more dead-end roads than allowed: trains
    /// would wait on it while another makes it swap.
    /// </summary>
    private bool IsCrowded(Candidate candidate) =>
        (candidate.ExtraRoads > 0 || candidate.PassingRoads > 0) && BlocksOf(candidate).Skip(1).Any();

    private Candidate? Instead(ImmutableArray<Block> group, ImmutableArray<Candidate> candidates, Clearances clearances)
    {
        EffectSpace effects = new(map, group);
        return candidates
            .Where(candidate => candidate.Junctions.Length <= MostTold && IsCrowded(candidate) && effects.CuresAll(candidate, clearances.Required))
            .OrderBy(candidate => candidate.ExtraRoads).ThenBy(candidate => candidate.Gaps).ThenBy(candidate => candidate.Penalty)
            .Take(MostTried)
            .FirstOrDefault(candidate => ChooseAmong(group, [candidate], clearances).Choice is not null);
    }

    private (SectionChoice? Choice, bool Proved) ChooseAmong(
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
    private IEnumerable<ImmutableArray<Block>> Groups(ImmutableArray<Block> blocks, ImmutableArray<Candidate> candidates)
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

        return blocks
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
