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

    /// <summary>The runs that hang on each run, the one with most runs beyond it first.</summary>
    public ImmutableArray<ImmutableArray<int>> Branches { get; } = BranchesOf(Parent);

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

    /// <summary>The runs between one and the booster, the nearest first.</summary>
    public IEnumerable<int> Before(int run)
    {
        for (int before = Parent[run]; before >= 0; before = Parent[before])
        {
            yield return before;
        }
    }

    /// <summary>A run and all beyond it: each after those beyond it, the first of its <see cref="Branches"/> before the others.</summary>
    public ImmutableArray<int> FromEnds(int run) => [.. Branches[run].SelectMany(branch => FromEnds(branch)), run];

    /// <summary>Place of a new run in the whole bus of the district.</summary>
    public int WithBuilt(int run) => BuiltCount + run;

    /// <summary>For every run of the whole bus, how much more resistance a wire of it gets if a metre of new run gets so much more, Ω.</summary>
    public double[] OhmsMore(double ohmsPerMetre) => [.. Enumerable.Repeat(0.0, BuiltCount), .. Metres.Select(metres => metres * ohmsPerMetre)];

    /// <summary>What the runs cost in these sizes.</summary>
    public double Cost(WireStock stock, ImmutableArray<int> sizes) => Metres.Select((metres, run) => metres * stock.CostPerMetre(sizes[run])).Sum();

    private static ImmutableArray<ImmutableArray<int>> BranchesOf(ImmutableArray<int> parent)
    {
        ILookup<int, int> after = Enumerable.Range(0, parent.Length).ToLookup(run => parent[run]);
        return [.. parent.Select((_, run) => after[run].OrderByDescending(CountFrom).ToImmutableArray())];

        int CountFrom(int run) => 1 + after[run].Sum(CountFrom);
    }
}
