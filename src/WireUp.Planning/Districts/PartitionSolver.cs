using System.Collections.Immutable;
using Google.OrTools.Sat;
using static System.FormattableString;

namespace WireUp.Planning.Districts;

/// <summary>
/// Divides track into districts: chooses, from all regions, those that hold every cell exactly once at the least cost. Every
/// region is connected by construction, so the model is a plain set partition. Its linear relaxation is solved over all regions;
/// what a region then costs above its worth says how much dearer any division with it must be, so only a few need to be
/// decided by CP-SAT, and the answer is still the best of all.
/// </summary>
internal sealed class PartitionSolver
{
    /// <summary>How many connected sets of cells are looked at before the track has to be taken in larger cells.</summary>
    public const int MostRegions = 60_000;

    private const int FirstRegions = 500, LastRegions = 8_000;

    private readonly PartitionProblem _problem;
    private readonly double _effort;
    private readonly ImmutableArray<Region> _regions;
    private readonly long[] _costs;

    private PartitionSolver(PartitionProblem problem, double effort, ImmutableArray<Region> regions)
    {
        (_problem, _effort, _regions) = (problem, effort, regions);
        _costs = [.. regions.Select(region => problem.CostOf(region.Wish, region.Holds))];
    }

    /// <summary>Divides.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="effort">Deterministic seconds to spend on each choice.</param>
    /// <returns>The division, or why there is none.</returns>
    public static PartitionOutcome Solve(PartitionProblem problem, double effort) =>
        RegionsWorkspace.Of(problem, MostRegions) is { } regions
            ? new PartitionSolver(problem, effort, regions).Solve()
            : new PartitionOutcome.TooLarge();

    private PartitionOutcome Solve()
    {
        if (PartitionRelaxation.Solve(_problem, _regions, _costs) is not { } relaxed)
        {
            return new PartitionOutcome.Impossible();
        }

        int[] order = [.. Enumerable.Range(0, _regions.Length).OrderBy(i => Math.Round(relaxed.Above[i], 3)).ThenBy(i => i)];
        int count = Math.Min(FirstRegions, order.Length);
        while (true)
        {
            int most = Math.Min(LastRegions, order.Length);
            (ImmutableArray<Region> taken, double bound)? chosen = Choose([.. order.Take(count)]);
            int wanted = chosen is { } found
                ? order.TakeWhile(i => relaxed.Value + relaxed.Above[i] < CostOf(found.taken) - 0.5).Count()
                : 4 * count;
            if (wanted <= count || count == most)
            {
                double beyond = count < order.Length ? relaxed.Value + relaxed.Above[order[count]] : double.PositiveInfinity;
                return chosen is { } best
                    ? new PartitionOutcome.Divided(Result(best.taken, Math.Min(best.bound, Math.Ceiling(beyond - 1e-3))))
                    : new PartitionOutcome.Impossible();
            }

            count = Math.Min(most, wanted);
        }
    }

    private long CostOf(ImmutableArray<Region> taken) => taken.Sum(region => _problem.CostOf(region.Wish, region.Holds));

    /// <summary>The best division into some of the regions with its bound among them; null where there is none.</summary>
    private (ImmutableArray<Region> Taken, double Bound)? Choose(int[] among)
    {
        CpModel model = new();
        BoolVar[] take = [.. among.Select(i => model.NewBoolVar(Invariant($"r{i}")))];
        for (int cell = 0; cell < _problem.CellMillimetres.Length; cell++)
        {
            model.AddLinearConstraint(LinearExpr.Sum(take.Where((_, at) => _regions[among[at]].Holds(cell))), 1, 1);
        }

        model.AddLinearConstraint(
            LinearExpr.Sum(take.Where((_, at) => _regions[among[at]].Wish is null)), _problem.OrdinaryCount, _problem.OrdinaryCount);
        model.Minimize(LinearExpr.WeightedSum(take, among.Select(i => _costs[i])));
        CpSolver solver = new()
        {
            StringParameters = SolverSettings.For(_effort),
        };
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? ([.. among.Where((_, at) => solver.BooleanValue(take[at])).Select(i => _regions[i])], Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : null;
    }

    private PartitionResult Result(ImmutableArray<Region> taken, double bound)
    {
        int[] districtOf = new int[_problem.CellMillimetres.Length];
        int ordinary = _problem.Wishes.Length;
        foreach (Region region in taken.OrderBy(region => region.FirstCell))
        {
            int district = region.Wish ?? ordinary++;
            foreach (int cell in Enumerable.Range(0, districtOf.Length).Where(region.Holds))
            {
                districtOf[cell] = district;
            }
        }

        return new([.. districtOf], _problem.CostOf(districtOf), bound);
    }

}

/// <summary>What came of a division.</summary>
internal abstract record PartitionOutcome
{
    private PartitionOutcome()
    {
    }

    /// <summary>A division was found.</summary>
    internal sealed record Divided(PartitionResult Result) : PartitionOutcome;

    /// <summary>No division keeps all that is asked, or none was found in the time given.</summary>
    internal sealed record Impossible : PartitionOutcome;

    /// <summary>There are too many cells: take larger ones.</summary>
    internal sealed record TooLarge : PartitionOutcome;
}
