using System.Collections.Immutable;
using Google.OrTools.LinearSolver;

namespace WireUp.Planning.Districts;

/// <summary>The division with regions taken in fractions, a linear programme.</summary>
/// <param name="Value">What it costs; no division in whole regions costs less.</param>
/// <param name="Above">For each region what any division with it costs more than <see cref="Value"/> at least (its reduced cost).</param>
internal sealed record PartitionRelaxation(double Value, ImmutableArray<double> Above)
{
    /// <summary>Solves it; null where even fractions hold no division.</summary>
    public static PartitionRelaxation? Solve(PartitionProblem problem, ImmutableArray<Region> regions, IReadOnlyList<long> costs)
    {
        using Solver solver = Solver.CreateSolver("GLOP");
        Constraint[] rows = [.. problem.CellMillimetres.Select(_ => solver.MakeConstraint(1, 1))];
        Constraint count = solver.MakeConstraint(problem.OrdinaryCount, problem.OrdinaryCount);
        Google.OrTools.LinearSolver.Objective objective = solver.Objective();
        Variable[] take = [.. regions.Select(_ => solver.MakeNumVar(0, double.PositiveInfinity, ""))];
        for (int i = 0; i < take.Length; i++)
        {
            objective.SetCoefficient(take[i], costs[i]);
            count.SetCoefficient(take[i], regions[i].Wish is null ? 1 : 0);
            for (UInt128 left = regions[i].Cells; left != 0; left &= left - 1)
            {
                rows[(int)UInt128.TrailingZeroCount(left)].SetCoefficient(take[i], 1);
            }
        }

        return solver.Solve() == Solver.ResultStatus.OPTIMAL
            ? new(objective.Value(), [.. take.Select(variable => variable.ReducedCost())])
            : null;
    }
}
