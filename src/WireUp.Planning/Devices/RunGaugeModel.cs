using System.Collections.Immutable;
using Google.OrTools.Sat;

namespace WireUp.Planning.Devices;

/// <summary>
/// What must not be exceeded at one place of a district, as far as the wire of its new runs goes: a value with the bus as it is taken
/// to be, and by how much it grows for each ohm more in both wires of a run. A drop in volts, or a resistance in ohm.
/// </summary>
/// <param name="Value">The value where every run has the resistance in <paramref name="Ohms"/>.</param>
/// <param name="Limit">The largest that is allowed.</param>
/// <param name="PerOhm">Its growth, by new run.</param>
/// <param name="Ohms">Resistance of one wire of each new run at which <paramref name="Value"/> holds.</param>
internal sealed record GaugeLimit(double Value, double Limit, ImmutableArray<double> PerOhm, ImmutableArray<double> Ohms);

/// <summary>
/// The sizes of the runs of one district as an exact choice: least cost with every limit kept, no run thicker than the one it hangs on, and
/// no more sizes than somebody wants to buy for one district.
/// </summary>
/// <param name="runs">The runs.</param>
/// <param name="stock">The sizes.</param>
/// <param name="ohmsPerMetre">Resistance of one wire of each size.</param>
/// <param name="thinnest">The thinnest size that may be used.</param>
internal sealed class RunGaugeModel(BusRuns runs, WireStock stock, ImmutableArray<double> ohmsPerMetre, int thinnest)
{
    /// <summary>How many sizes one district may use.</summary>
    public const int MostSizes = 2;

    private const double Effort = 0.2, CostUnits = 1000, LimitUnits = 1e7;

    /// <summary>Chooses; null where no choice keeps the limits, or none was found.</summary>
    /// <param name="limits">The limits.</param>
    /// <param name="failed">Choices that failed: whatever is nowhere thicker than one of them fails too.</param>
    /// <param name="roundUp">
    /// True: what the limits say is rounded against the choice, so that a choice keeps them. False: in favour of it, so that the bound holds.
    /// </param>
    /// <returns>Size of each run, and what no choice can cost less than.</returns>
    public (ImmutableArray<int> Sizes, double Bound)? Solve(IEnumerable<GaugeLimit> limits, IEnumerable<ImmutableArray<int>> failed, bool roundUp)
    {
        CpModel model = new();
        BoolVar[][] has = [.. runs.Metres.Select(_ => stock.Sizes.Select(_ => model.NewBoolVar("")).ToArray())];
        Shape(model, has);
        foreach (GaugeLimit limit in limits.Where(CanBeBroken))
        {
            double room = (limit.Limit - limit.Value) * LimitUnits;
            LinearExpr grows = LinearExpr.WeightedSum(
                has.SelectMany(row => row), has.SelectMany((row, run) => row.Select((_, size) => Round(limit.PerOhm[run] * (Ohms(run, size) - limit.Ohms[run])))));
            model.Add(grows <= (long)Math.Clamp(roundUp ? Math.Floor(room) : Math.Ceiling(room), -1e15, 1e15));
        }

        foreach (ImmutableArray<int> sizes in failed)
        {
            model.AddBoolOr(has.SelectMany((row, run) => row[(sizes[run] + 1)..]));
        }

        model.Minimize(LinearExpr.WeightedSum(
            has.SelectMany(row => row), has.SelectMany((row, run) => row.Select((_, size) => (long)Math.Round(Cost(run, size) * CostUnits)))));
        CpSolver solver = new()
        {
            StringParameters = SolverSettings.For(Effort),
        };
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? ([.. has.Select(row => Array.FindIndex(row, solver.BooleanValue))], (solver.BestObjectiveBound - (runs.Metres.Length / 2.0)) / CostUnits)
            : null;

        long Round(double value) => (long)(roundUp ? Math.Ceiling(value * LimitUnits) : Math.Floor(value * LimitUnits));
    }

    private bool CanBeBroken(GaugeLimit limit) => limit.Value + runs.Metres
        .Select((_, run) => Enumerable.Range(thinnest, stock.Sizes.Length - thinnest).Max(size => limit.PerOhm[run] * (Ohms(run, size) - limit.Ohms[run])))
        .Sum() > limit.Limit - 1e-6;

    /// <summary>Resistance of one wire of a run in a size.</summary>
    public double Ohms(int run, int size) => ohmsPerMetre[size] * runs.Metres[run];

    private double Cost(int run, int size) => stock.CostPerMetre(size) * runs.Metres[run];

    private void Shape(CpModel model, BoolVar[][] has)
    {
        BoolVar[] used = [.. stock.Sizes.Select(_ => model.NewBoolVar(""))];
        model.AddLinearConstraint(LinearExpr.Sum(used), 0, MostSizes);
        for (int run = 0; run < has.Length; run++)
        {
            model.AddExactlyOne(has[run]);
            for (int size = 0; size < used.Length; size++)
            {
                model.AddImplication(has[run][size], used[size]);
                if (size < thinnest)
                {
                    model.Add(has[run][size] == 0);
                }
                else if (runs.Parent[run] is >= 0 and var parent)
                {
                    model.Add(LinearExpr.Sum(has[run][size..]) <= LinearExpr.Sum(has[parent][size..]));
                }
            }
        }
    }
}
