using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace WireUp.Planning.Devices;

/// <summary>What the thin runs of a bus may add to one value at one place: the sum of what each adds is at most the room that is left.</summary>
/// <param name="Room">The room.</param>
/// <param name="ByRun">What each run adds at least if it is thin.</param>
internal sealed record ThinLimit(double Room, ImmutableArray<double> ByRun);

/// <summary>Which runs of a bus get the thinner of two sizes, as an exact choice: least cost, every limit kept, no run thicker than the one before it.</summary>
/// <param name="bus">The runs.</param>
/// <param name="thickCost">What a metre of the thicker size costs.</param>
/// <param name="thinCost">What a metre of the thinner size costs.</param>
internal sealed class SizePairModel(BusRuns bus, double thickCost, double thinCost)
{
    private const double Effort = 0.2, CostUnits = 1000, LimitUnits = 1e7;

    /// <summary>Chooses; null where no choice keeps the limits, or none was found.</summary>
    /// <param name="limits">The limits; they are rounded in favour of a choice, so that the bound holds.</param>
    /// <param name="failed">The thin runs of choices that failed: whatever has these thin fails too.</param>
    /// <returns>The thin runs, and what no choice can cost less than.</returns>
    public (ImmutableArray<int> Thin, double Bound)? Solve(IEnumerable<ThinLimit> limits, IEnumerable<ImmutableArray<int>> failed)
    {
        CpModel model = new();
        BoolVar[] isThin = [.. bus.Metres.Select(_ => model.NewBoolVar(""))];
        for (int run = 0; run < isThin.Length; run++)
        {
            if (bus.Parent[run] is >= 0 and var before)
            {
                model.AddImplication(isThin[before], isThin[run]);
            }
        }

        foreach (ThinLimit limit in limits)
        {
            model.Add(LinearExpr.WeightedSum(isThin, limit.ByRun.Select(adds => (long)Math.Floor(adds * LimitUnits))) <= (long)Math.Ceiling(limit.Room * LimitUnits));
        }

        foreach (ImmutableArray<int> thin in failed)
        {
            model.AddBoolOr(thin.Select(run => isThin[run].Not()));
        }

        double[] saved = [.. bus.Metres.Select(metres => metres * (thickCost - thinCost) * CostUnits)];
        model.Maximize(LinearExpr.WeightedSum(isThin, saved.Select(units => (long)Math.Round(units))));
        CpSolver solver = new()
        {
            StringParameters = SolverSettings.For(Effort),
        };
        double rounding = saved.Sum(units => Math.Abs(units - Math.Round(units)));
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? ([.. Enumerable.Range(0, isThin.Length).Where(run => solver.BooleanValue(isThin[run]))],
                (bus.Metres.Sum() * thickCost) - ((solver.BestObjectiveBound + rounding) / CostUnits))
            : null;
    }
}
