using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>Finds what could become a reversing section, for some odd blocks of a map.</summary>
internal sealed class CandidateFinder
{
    private const int MostRunsLeftOut = 8;
    private const int SmallBlock = 12;
    private readonly RunMap _map;
    private readonly CandidateShapes _shapes;
    private readonly CoreBuilder _cores;
    private readonly Clearances _clearances;
    private readonly ReversingOptions _options;

    internal CandidateFinder(RunMap map, BuiltWiring built, Clearances clearances, ReversingOptions options, ImmutableArray<Block> blocks)
    {
        _map = map;
        _clearances = clearances;
        _options = options;
        _shapes = new(map, built, clearances, options);
        _cores = new(map, new(map, blocks, _shapes.CanTakeIn), _shapes.CanTakeIn, options.DeadEndRoads);
    }

    /// <summary>Every candidate for these blocks that could change anything in them, numbered in a fixed order.</summary>
    internal ImmutableArray<Candidate> Find(IReadOnlyCollection<Block> oddBlocks, CancellationToken cancellation)
    {
        HashSet<string> seenCores = [];
        List<Candidate> found = [.. oddBlocks.SelectMany(block => block.Runs).SelectMany(run => _shapes.Along(_map.Runs[run]))];
        foreach (ImmutableSortedSet<int> set in SetsOf(oddBlocks).DistinctBy(TurnoutSets.KeyOf))
        {
            cancellation.ThrowIfCancellationRequested();
            foreach (TakeIn takeIn in Enum.GetValues<TakeIn>())
            {
                found.AddRange(On(set, takeIn, seenCores));
            }
        }

        IEnumerable<Candidate> distinct = found.DistinctBy(candidate => $"{TurnoutSets.KeyOf(candidate.Junctions)}/{candidate.PlacesKey}");
        return
        [
            .. new EffectSpace(_map, oddBlocks)
                .Sift(distinct, _clearances.Required, () => FewRuns(oddBlocks))
                .Select((candidate, i) => candidate with { Index = i }),
        ];
    }

    private IEnumerable<int> FewRuns(IEnumerable<Block> oddBlocks) => oddBlocks.SelectMany(block => block.Runs.Length <= SmallBlock
        ? block.Runs
        : FewestCuts.Of(_map, block, _options.SolverBudget / 5).Runs);

    private IEnumerable<ImmutableSortedSet<int>> SetsOf(IReadOnlyCollection<Block> oddBlocks)
    {
        int[] runs = [.. oddBlocks.SelectMany(block => block.Runs).Distinct().Order()];
        IEnumerable<ImmutableSortedSet<int>> growing = TurnoutSets.TurnoutsOf(_map, runs)
            .SelectMany(junction => _map.Junctions[junction].Tips)
            .SelectMany(tip => TurnoutSets.Growing(_map, tip, _shapes.CanTakeIn, _clearances.Required));
        int[] turnouts = [.. TurnoutSets.TurnoutsOf(_map, runs)];
        bool JoinsThem(Run run) =>
            run is { Port0: { } one, Port1: { } other } && turnouts.Contains(one.Junction) && turnouts.Contains(other.Junction);
        HashSet<int> usable = [.. runs.Concat(_map.Runs.Where(JoinsThem).Select(run => run.Index)).Where(_shapes.CanTakeIn)];
        int[] nearOdd = [.. TurnoutSets.TurnoutsOf(_map, FewRuns(oddBlocks))];
        return TurnoutSets.Small(_map, nearOdd, usable, _options.SetBudget / 2)
            .Concat(TurnoutSets.Small(_map, turnouts, usable, _options.SetBudget / 2))
            .Concat(oddBlocks.SelectMany(block => TurnoutSets.SidesOfTwoRunCuts(_map, block)))
            .Concat(TurnoutSets.Joining(_map, oddBlocks, _shapes.CanTakeIn))
            .Concat(growing);
    }

    /// <summary>
    /// The candidates on one set of turnouts. Runs that lead from a turnout back to its like end can never lie inside; one or
    /// two further runs are left out by turns where nothing comes of the whole.
    /// </summary>
    private List<Candidate> On(ImmutableSortedSet<int> set, TakeIn takeIn, HashSet<string> seenCores)
    {
        int[] between = [.. _cores.RunsBetween(set)];
        int[] never = [.. between.Where(run => !BlockFinder.IsBalanced(_map, [run]))];
        int[] optional = [.. between.Except(never)];
        List<Candidate> found = Around(_cores.Build(set, never, takeIn), seenCores);
        if (found.Count == 0 && optional.Length <= MostRunsLeftOut)
        {
            found.AddRange(OneOrTwo(optional).SelectMany(some => Around(_cores.Build(set, [.. never, .. some], takeIn), seenCores)));
        }

        return found;
    }

    /// <summary>A split ring ties its roads to its own two halves; with its bridge in a section the ring would be of no use.</summary>
    private bool MayHold(Core core) => !core.Junctions.Any(junction => _map.Junctions[junction].Piece is Piece.Turntable);

    private List<Candidate> Around(Core? core, HashSet<string> seenCores) =>
        core is not null && MayHold(core) && seenCores.Add($"{TurnoutSets.KeyOf(core.Junctions)}/{TurnoutSets.KeyOf(core.Runs)}")
            ? [.. _shapes.Around(core)]
            : [];

    private static IEnumerable<int[]> OneOrTwo(int[] runs) =>
        from i in Enumerable.Range(0, runs.Length)
        from j in Enumerable.Range(i, runs.Length - i)
        select i == j ? new[] { runs[i] } : [runs[i], runs[j]];
}
