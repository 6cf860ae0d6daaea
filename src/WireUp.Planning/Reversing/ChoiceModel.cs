using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace WireUp.Planning.Reversing;

/// <summary>A built model, solved level by level: each level's value becomes a ceiling for the next.</summary>
internal sealed class ChoiceModel(
    CpModel model, BoolVar[] chosen, ImmutableArray<Candidate> candidates, ImmutableArray<LinearExpr> objectives)
{
    /// <summary>The best choice, or null when none was found; and whether that is proved rather than the end of the budget.</summary>
    /// <param name="budgetSeconds">Deterministic seconds for all levels together.</param>
    /// <param name="cancellation">Stops the search.</param>
    internal (SectionChoice? Choice, bool Proved) Solve(double budgetSeconds, CancellationToken cancellation)
    {
        List<LevelValue> levels = [];
        ImmutableArray<int> best = [];
        foreach (LinearExpr objective in objectives)
        {
            cancellation.ThrowIfCancellationRequested();
            model.Minimize(objective);
            using CpSolver solver = new() { StringParameters = SolverSettings.For(budgetSeconds / objectives.Length) };
            using CancellationTokenRegistration stop = cancellation.Register(solver.StopSearch);
            CpSolverStatus status = solver.Solve(model);
            cancellation.ThrowIfCancellationRequested();
            if (status is CpSolverStatus.Optimal or CpSolverStatus.Feasible)
            {
                best = [.. Enumerable.Range(0, chosen.Length).Where(i => solver.BooleanValue(chosen[i]))];
                levels.Add(new(Math.Round(solver.ObjectiveValue), Math.Ceiling(solver.BestObjectiveBound - 1e-6)));
                _ = model.Add(objective <= (long)levels[^1].Value);
                Hint(best);
            }
            else if (levels.Count == 0)
            {
                return (null, status == CpSolverStatus.Infeasible);
            }
            else
            {
                levels.Add(new(double.NaN, double.NegativeInfinity));
            }
        }

        return (new([.. best.Select(i => candidates[i])], [.. levels]), true);
    }

    private void Hint(ImmutableArray<int> best)
    {
        model.ClearHints();
        for (int i = 0; i < chosen.Length; i++)
        {
            model.AddHint(chosen[i], best.Contains(i) ? 1 : 0);
        }
    }
}
