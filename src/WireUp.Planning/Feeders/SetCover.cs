using System.Collections.Immutable;
using Google.OrTools.Sat;
using static System.FormattableString;

namespace WireUp.Planning.Feeders;

/// <summary>A choice of columns that covers every row, and what any such choice costs at least.</summary>
/// <param name="Chosen">The columns chosen, ascending.</param>
/// <param name="Bound">Fewest columns that any cover needs, as far as proved.</param>
internal sealed record Cover(ImmutableArray<int> Chosen, double Bound);

/// <summary>
/// Fewest columns so that every row has one: rows and columns that say nothing new are struck out, columns without an
/// alternative are taken, and what is left falls apart into independent parts that CP-SAT solves one by one.
/// </summary>
internal static class SetCover
{
    /// <summary>Solves a cover.</summary>
    /// <param name="rows">For each row the columns that cover it; none may be empty.</param>
    /// <param name="preference">For each column how unwelcome it is; decides between columns that cover the same.</param>
    /// <param name="effort">Deterministic time in seconds for each part.</param>
    /// <param name="cancel">Stops between parts.</param>
    public static Cover Solve(
        IReadOnlyList<ImmutableArray<int>> rows, IReadOnlyList<double> preference, double effort, CancellationToken cancel)
    {
        SetCoverReduction reduced = SetCoverReduction.Of(rows, preference);
        List<int> chosen = [.. reduced.Taken];
        double bound = reduced.Taken.Length;
        foreach (ImmutableArray<ImmutableArray<int>> part in reduced.Parts)
        {
            cancel.ThrowIfCancellationRequested();
            Cover solved = SolvePart(part, effort);
            chosen.AddRange(solved.Chosen);
            bound += solved.Bound;
        }

        return new([.. chosen.Order()], bound);
    }

    private static Cover SolvePart(ImmutableArray<ImmutableArray<int>> rows, double effort)
    {
        ImmutableArray<int> columns = [.. rows.SelectMany(row => row).Distinct().Order()];
        CpModel model = new();
        Dictionary<int, BoolVar> take = columns.ToDictionary(column => column, column => model.NewBoolVar(Invariant($"c{column}")));
        foreach (ImmutableArray<int> row in rows)
        {
            model.AddLinearConstraint(LinearExpr.Sum(row.Select(column => take[column])), 1, row.Length);
        }

        model.Minimize(LinearExpr.Sum(columns.Select(column => take[column])));
        CpSolver solver = new()
        {
            StringParameters = SolverSettings.For(effort),
        };
        CpSolverStatus status = solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? new([.. columns.Where(column => solver.BooleanValue(take[column]))], Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : new(Greedy(rows), 1);
    }

    /// <summary>A cover without a proof, for when the solver found none in its time: always the column that covers most of what is left.</summary>
    private static ImmutableArray<int> Greedy(ImmutableArray<ImmutableArray<int>> rows)
    {
        List<ImmutableArray<int>> left = [.. rows];
        List<int> chosen = [];
        while (left.Count > 0)
        {
            int best = left.SelectMany(row => row).GroupBy(column => column)
                .OrderByDescending(group => group.Count()).ThenBy(group => group.Key).First().Key;
            chosen.Add(best);
            left.RemoveAll(row => row.Contains(best));
        }

        return [.. chosen];
    }
}
