using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Planning.Reversing;

/// <summary>Finds what could become a reversing section, for some odd blocks of a map.</summary>
internal sealed class CandidateFinder
{
    private const int SmallSet = 5;
    private const int MostRunsLeftOut = 8;
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

    /// <summary>Every candidate for these blocks, numbered in a fixed order.</summary>
    internal ImmutableArray<Candidate> Find(IReadOnlyCollection<Block> oddBlocks, CancellationToken cancellation)
    {
        IEnumerable<Candidate> ofRuns = oddBlocks.SelectMany(block => block.Runs).SelectMany(run => _shapes.Along(_map.Runs[run]));
        IEnumerable<Candidate> ofSets = CoresOf(oddBlocks).SelectMany(core =>
        {
            cancellation.ThrowIfCancellationRequested();
            return _shapes.Around(core);
        });
        return [.. ofRuns.Concat(ofSets).DistinctBy(KeyOf).Select((candidate, i) => candidate with { Index = i })];
    }

    private IEnumerable<Core> CoresOf(IReadOnlyCollection<Block> oddBlocks)
    {
        int[] runs = [.. oddBlocks.SelectMany(block => block.Runs).Distinct().Order()];
        IEnumerable<ImmutableSortedSet<int>> growing = TurnoutSets.TurnoutsOf(_map, runs)
            .SelectMany(junction => _map.Junctions[junction].Tips)
            .SelectMany(tip => TurnoutSets.Growing(_map, tip, _shapes.CanTakeIn, _clearances.Required));
        return TurnoutSets.Small(_map, runs, _shapes.CanTakeIn, _options.SetBudget)
            .Concat(oddBlocks.SelectMany(block => TurnoutSets.SidesOfTwoRunCuts(_map, block)))
            .Concat(growing)
            .DistinctBy(TurnoutSets.KeyOf)
            .SelectMany(CoresOn)
            .DistinctBy(core => $"{TurnoutSets.KeyOf(core.Junctions)}/{TurnoutSets.KeyOf(core.Runs)}");
    }

    /// <summary>
    /// The cores on one set of turnouts. Runs that lead from a turnout back to its like end can never lie inside; for small sets
    /// one or two further runs are left out by turns, for large ones only where the whole is not balanced.
    /// </summary>
    private IEnumerable<Core> CoresOn(ImmutableSortedSet<int> set)
    {
        int[] between = [.. _cores.RunsBetween(set)];
        int[] never = [.. between.Where(run => !BlocksWorkspace.IsBalanced(_map, [run]))];
        int[] optional = [.. between.Except(never)];
        foreach (TakeIn takeIn in Enum.GetValues<TakeIn>())
        {
            Core? whole = _cores.Build(set, never, takeIn);
            if (whole is not null)
            {
                yield return whole;
            }

            if ((whole is null || set.Count <= SmallSet) && optional.Length <= MostRunsLeftOut)
            {
                foreach (Core core in OneOrTwo(optional).Select(out2 => _cores.Build(set, [.. never, .. out2], takeIn)).OfType<Core>())
                {
                    yield return core;
                }
            }
        }
    }

    private static IEnumerable<int[]> OneOrTwo(int[] runs) =>
        from i in Enumerable.Range(0, runs.Length)
        from j in Enumerable.Range(i, runs.Length - i)
        select i == j ? new[] { runs[i] } : [runs[i], runs[j]];

    private static string KeyOf(Candidate candidate) =>
        TurnoutSets.KeyOf(candidate.Junctions) + "/" + string.Join(' ', candidate.Borders.Select(border =>
            string.Create(CultureInfo.InvariantCulture, $"{border.Spot.Run}:{border.Spot.Position:F5}:{border.InsideBefore}")).Order(StringComparer.Ordinal));
}
