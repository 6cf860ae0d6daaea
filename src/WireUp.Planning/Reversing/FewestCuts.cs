using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The fewest runs whose cutting would balance a block, however short they are: the frustration index of its signed graph. What cures
/// a block with little track lies near such runs. Source: F. Harary, On the measurement of structural balance, Behavioral
/// Science 4 (1959), pages 316–323 (from memory); solved as a constraint programme with a row for each odd cycle found.
/// </summary>
/// <param name="Runs">The runs, ascending.</param>
/// <param name="Bound">No fewer will do.</param>
internal sealed record FewestCuts(ImmutableArray<int> Runs, int Bound)
{
    /// <summary>Finds them within a budget of deterministic seconds; what the budget ends is still a cure.</summary>
    internal static FewestCuts Of(RunMap map, Block block, double budgetSeconds)
    {
        CpModel model = new();
        Dictionary<int, BoolVar> cut = block.Runs.ToDictionary(run => run, run => model.NewBoolVar($"y{run}"));
        Dictionary<int, BoolVar> sign = TurnoutSets.TurnoutsOf(map, block.Runs)
            .ToDictionary(junction => junction, junction => model.NewBoolVar($"x{junction}"));
        foreach (int run in block.Runs)
        {
            AddRun(model, cut[run], sign, map.Runs[run], Differs(map, run));
        }

        foreach (ImmutableHashSet<int> cycle in OddCycles.Of(map, block))
        {
            _ = model.Add(LinearExpr.Sum(cycle.Order().Select(run => cut[run])) >= 1);
        }

        model.Minimize(LinearExpr.Sum(block.Runs.Select(run => cut[run])));
        using CpSolver solver = new() { StringParameters = SolverSettings.For(budgetSeconds) };
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? new([.. block.Runs.Where(run => solver.BooleanValue(cut[run]))], (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : new(OddCycles.FewRunsToCut(map, block), 0);
    }

    /// <summary>Whether the frames of the junctions at a run's tips have left and right exchanged against each other.</summary>
    private static bool Differs(RunMap map, int run) => map.SameFrame(new(run, 0)) != map.SameFrame(new(run, 1));

    private static void AddRun(CpModel model, BoolVar cut, Dictionary<int, BoolVar> sign, Run run, bool differs)
    {
        (BoolVar one, BoolVar other) = (sign[run.Port0!.Value.Junction], sign[run.Port1!.Value.Junction]);
        if (differs)
        {
            _ = model.Add(one + other <= 1 + cut);
            _ = model.Add(one + other + cut >= 1);
        }
        else
        {
            _ = model.Add(one - other <= cut);
            _ = model.Add(other - one <= cut);
        }
    }
}
