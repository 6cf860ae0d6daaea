using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Buses;

namespace WireUp.Planning.Devices;

/// <summary>The new runs of one district's bus as a tree whose wire is to be chosen.</summary>
/// <param name="District">The district.</param>
/// <param name="Parent">For each new run the one it hangs on, or −1: the booster, or bus that is there.</param>
/// <param name="Metres">Length of each new run.</param>
internal sealed record BusRuns(string District, ImmutableArray<int> Parent, ImmutableArray<double> Metres)
{
    /// <summary>How many runs the bus has already; the new ones follow them.</summary>
    public int BuiltCount { get; init; }

    /// <summary>Section of the thickest wire that the bus has already, mm²: new runs of it are not thinner.</summary>
    public double LeastSquareMillimetres { get; init; }

    /// <summary>The new runs of a planned bus.</summary>
    public static BusRuns Of(PlannedBus planned, Layout layout)
    {
        ImmutableArray<BusRun> built = [.. layout.Wiring.Buses.Where(bus => bus.District == planned.District).SelectMany(bus => bus.Runs)];
        Dictionary<BusPoint, int> byEnd = planned.Runs.Select((run, i) => (run.To, i)).ToDictionary(pair => pair.To, pair => pair.i);
        return new(planned.District, [.. planned.Runs.Select(run => byEnd.GetValueOrDefault(run.From, -1))], [.. planned.Runs.Select(run => run.Metres)])
        {
            BuiltCount = built.Length,
            LeastSquareMillimetres = built.Select(run => Conductors.AreaSquareMillimetres(run.Wire)).DefaultIfEmpty(0).Max(),
        };
    }

    /// <summary>Whether a run is another one, or fed through it.</summary>
    public bool IsBeyond(int run, int other)
    {
        while (run >= 0 && run != other)
        {
            run = Parent[run];
        }

        return run >= 0;
    }

    /// <summary>What the runs cost in these sizes.</summary>
    public double Cost(WireStock stock, ImmutableArray<int> sizes) => Metres.Select((metres, run) => metres * stock.CostPerMetre(sizes[run])).Sum();
}
