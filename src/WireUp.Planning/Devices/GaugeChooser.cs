using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The bus wire of one district.</summary>
/// <param name="District">The district.</param>
/// <param name="Wires">The wire of each new run.</param>
/// <param name="Power">What the district comes to with it; null where nothing of it is fed.</param>
/// <param name="Verdict">The limits it does not keep with any choice; empty when it keeps all.</param>
internal sealed record DistrictGauges(string District, ImmutableArray<Wire> Wires, DistrictPower? Power, string Verdict);

/// <summary>The bus wire of every run, and what every size would come to.</summary>
/// <param name="Districts">The districts with new bus, in the order of the layout.</param>
/// <param name="Rows">Every district with every size in all of its new bus, thinnest first.</param>
/// <param name="Cost">What was minimised.</param>
internal sealed record GaugeChoice(ImmutableArray<DistrictGauges> Districts, ImmutableArray<GaugeRow> Rows, Objective Cost)
{
    /// <summary>The wire of a new run of a district.</summary>
    public Wire WireOf(string district, int run) => Districts.First(each => each.District == district).Wires[run];
}

/// <summary>
/// Chooses bus wire by solving the railway: first with each size in all runs, then run by run, so that the wire costs least while every
/// district keeps its drop, its breaker trips surely at the worst place, and each wire carries what the breaker lets pass.
/// </summary>
/// <remarks>
/// Drop and resistance seen follow the resistances of the runs nearly in proportion, exactly where no rail joins two taps. The choice is exact
/// for that straight line through the circuit as it stands, and is solved again as a circuit: one that passes becomes the place of the next
/// line, one that does not adds its own and rules out whatever is nowhere thicker. Then each run is tried one size thinner. Resistance seen is a concave function of the resistances (C. E. Shannon and D. W. Hagelbarger,
/// "Concavity of resistance functions", Journal of Applied Physics 27, 1956, from memory), so the line promises too little rather than too much.
/// The bound starts from the circuit with the thickest wire and takes for each run the least slope that any choice can give it
/// (<see cref="LeastSlope"/>): that with thin wire in it and in all runs before and beyond it, and thick wire in all others, by which current
/// could pass it by through the rails; nothing where current may turn round in it.
/// The choices that the bound belongs to are solved as circuits, cheapest first, seven at most: the first that passes is proved the best.
/// </remarks>
/// <param name="buses">The new runs of each district, in the order of the layout.</param>
/// <param name="stock">The sizes.</param>
/// <param name="assemble">The layout with all new bus, its wire by district and run.</param>
/// <param name="cancel">Stops the search between solutions: the best so far is taken, which keeps every limit that any choice keeps.</param>
internal sealed class GaugeChooser(
    ImmutableArray<BusRuns> buses, WireStock stock, Func<Func<string, int, Wire>, Layout> assemble, CancellationToken cancel)
{
    private const int LineRounds = 6, BoundRounds = 6;
    private const double NearLimit = 1.05, LeastLoopPerOhm = 1e-6;

    private readonly Dictionary<string, GaugeSearchWorkspace> _searches = [];

    /// <summary>Chooses.</summary>
    public GaugeChoice Choose()
    {
        ImmutableArray<(Layout Layout, PowerReport Report)> uniform = [.. stock.Sizes.Select(size => Solved((_, _) => size.Wire))];
        foreach (BusRuns bus in buses.Where(bus => Find(uniform[^1].Report, bus) is not null))
        {
            _searches[bus.District] = new(bus, stock, uniform[^1].Layout, [.. uniform.Select(each => Find(each.Report, bus)!)]);
        }

        try
        {
            Search(uniform);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            // Only cheaper wire could have been found.
        }

        return new([.. buses.Select(Chosen)], [.. buses.SelectMany(bus => Rows(bus, uniform))], Cost());
    }

    private void Search(ImmutableArray<(Layout Layout, PowerReport Report)> uniform)
    {
        cancel.ThrowIfCancellationRequested();
        LeastSlopes(uniform);
        Bound();
        for (int round = 0; round < LineRounds && Open.Any(); round++)
        {
            Layout at = Assembled(search => search.Point);
            ILookup<string, BusEffect> effects = Effects(at, PowerAnalysis.Solve(at, PowerOptions.Default, cancel));
            foreach (GaugeSearchWorkspace search in Open)
            {
                search.Propose([.. effects[search.Bus.District]]);
            }

            Judge(Open);
        }

        for (GaugeSearchWorkspace[] trying = Trying(); trying.Length > 0; trying = Trying())
        {
            Judge(trying);
        }

        for (int round = 0; round < BoundRounds && Bound(); round++)
        {
        }
    }

    private IEnumerable<GaugeSearchWorkspace> Open => _searches.Values.Where(search => search.IsOpen);

    /// <summary>Works out bounds, and looks at the choices they belong to; false when all is proved.</summary>
    private bool Bound()
    {
        foreach (GaugeSearchWorkspace search in _searches.Values.Where(search => search.IsWorthBounding))
        {
            search.Bound();
        }

        Judge(Open);
        return Open.Any();
    }

    private GaugeSearchWorkspace[] Trying() => [.. _searches.Values.Where(search => search.TryThinner())];

    private void Judge(IEnumerable<GaugeSearchWorkspace> judged)
    {
        GaugeSearchWorkspace[] searches = [.. judged];
        PowerReport report = PowerAnalysis.Solve(Assembled(search => search.Point), PowerOptions.Default, cancel);
        foreach (GaugeSearchWorkspace search in searches)
        {
            search.Judge(Find(report, search.Bus)!);
        }
    }

    private (Layout, PowerReport) Solved(Func<string, int, Wire> wireOf)
    {
        Layout layout = assemble(wireOf);
        return (layout, PowerAnalysis.Solve(layout, PowerOptions.Default, CancellationToken.None));
    }

    private static DistrictPower? Find(PowerReport report, BusRuns bus) => report.Districts.FirstOrDefault(power => power.District == bus.District);

    private Layout Assembled(Func<GaugeSearchWorkspace, ImmutableArray<int>> sizesOf) => assemble((district, run) =>
        _searches.TryGetValue(district, out GaugeSearchWorkspace? search) ? stock.Sizes[sizesOf(search)[run]].Wire : stock.Thickest);

    /// <summary>The worst places of every section and district, and what the runs do there.</summary>
    private static ILookup<string, BusEffect> Effects(Layout layout, PowerReport report) => BusEffects
        .Of(layout, WorstPlaces(report))
        .ToLookup(effect => effect.District);

    private static ImmutableArray<TrackPlace> WorstPlaces(PowerReport report) =>
    [
        .. report.Sections.Select(section => section.LargestLoop.At)
            .Concat(report.Districts.SelectMany(power => new[] { power.LowestVolts.At, power.LowestFault.At }))
            .Distinct(),
    ];

    /// <summary>Works out how little each place follows each run at least; runs whose current a place does not feel are taken not to matter to it.</summary>
    private void LeastSlopes(ImmutableArray<(Layout Layout, PowerReport Report)> uniform)
    {
        ImmutableArray<TrackPlace> places = [.. Open.SelectMany(search => BreakablePlaces(search, uniform[search.Thinnest])).Distinct()];
        Dictionary<TrackPlace, BusEffect> least = BusEffects.Of(uniform[^1].Layout, places).Where(effect => _searches.ContainsKey(effect.District)).ToDictionary(effect => effect.At);
        ImmutableArray<BusEffect> thick = [.. least.Values];
        foreach (BusEffect effect in thick)
        {
            least[effect.At] = effect with { DropPerOhm = [.. effect.Flows.Select(flow => LeastSlope.OfDrop(flow, flow, effect.TrainAmps))], LoopPerOhm = [.. effect.LoopPerOhm.Select(_ => 0.0)] };
        }

        for (int run = 0; run < Open.Select(search => search.Bus.Metres.Length).DefaultIfEmpty(0).Max(); run++)
        {
            cancel.ThrowIfCancellationRequested();
            ImmutableArray<TrackPlace> feeling = [.. thick.Where(effect => Feels(effect, run)).Select(effect => effect.At)];
            foreach (BusEffect slope in feeling.IsEmpty ? [] : BusEffects.Of(Assembled(search => search.PassedBy(run)), feeling))
            {
                int index = _searches[slope.District].Bus.BuiltCount + run;
                BusEffect effect = least[slope.At];
                (RunFlow atMost, RunFlow atLeast) = (effect.Flows[index], slope.Flows[index]);
                least[slope.At] = effect with
                {
                    DropPerOhm = effect.DropPerOhm.SetItem(index, LeastSlope.OfDrop(atMost, atLeast, effect.TrainAmps)),
                    LoopPerOhm = effect.LoopPerOhm.SetItem(index, LeastSlope.OfLoop(atMost, atLeast)),
                };
            }
        }

        ILookup<string, BusEffect> found = thick.Select(effect => least[effect.At]).ToLookup(effect => effect.District);
        foreach (GaugeSearchWorkspace search in Open)
        {
            search.SetLeast([.. found[search.Bus.District]]);
        }
    }

    /// <summary>Places that some choice could bring out of their limits: those that are, or nearly are, with the thinnest wire in every run.</summary>
    private static IEnumerable<TrackPlace> BreakablePlaces(GaugeSearchWorkspace search, (Layout Layout, PowerReport Report) thinnest)
    {
        DistrictPower power = Find(thinnest.Report, search.Bus)!;
        return thinnest.Report.Sections
            .Where(section => section.District == power.District && IsNearLimit(section.LargestLoop))
            .Select(section => section.LargestLoop.At)
            .Concat([power.LowestVolts.At, power.LowestFault.At]);

        bool IsNearLimit(PlacePower place) => place.Drop * NearLimit > thinnest.Layout.MaxDrop
            || place.FaultCurrent < NearLimit * Constants.FaultOverTripGood.Value * power.Trip;
    }

    private bool Feels(BusEffect effect, int run) => _searches[effect.District].Bus is var bus
        && run < bus.Metres.Length && effect.LoopPerOhm[bus.BuiltCount + run] > LeastLoopPerOhm;

    private DistrictGauges Chosen(BusRuns bus) => _searches.TryGetValue(bus.District, out GaugeSearchWorkspace? search)
        ? new(bus.District, [.. search.Best.Select(size => stock.Sizes[size].Wire)], search.Power, search.Verdict)
        : new(bus.District, [.. bus.Metres.Select(_ => stock.Thickest)], null, "");

    private IEnumerable<GaugeRow> Rows(BusRuns bus, ImmutableArray<(Layout Layout, PowerReport Report)> uniform)
    {
        if (!_searches.TryGetValue(bus.District, out GaugeSearchWorkspace? search))
        {
            yield break;
        }

        for (int size = 0; size < stock.Sizes.Length; size++)
        {
            DistrictPower power = Find(uniform[size].Report, bus)!;
            double metres = bus.Metres.Where((_, run) => search.Best[run] == size).Sum();
            Wire wire = stock.Sizes[size].Wire;
            yield return new(bus.District, wire, power.LowestVolts.Drop, power.LowestFault.FaultCurrent, Verdict(uniform[size].Layout, power, wire))
            {
                Planned = Length.FromMeters(Math.Round(metres, 2)),
            };
        }
    }

    private Objective Cost()
    {
        double value = _searches.Values.Sum(search => search.Bus.Cost(stock, search.Best)), bound = _searches.Values.Sum(search => search.LeastCost);
        return new(stock.HasPrices ? "bus-price" : "bus-copper", Math.Round(value, 2), Math.Round(Math.Min(bound, value), 2));
    }

    /// <summary>The thinnest usual wire, not below 0.5 mm², that carries a breaker's trip current over a short run, or the thickest.</summary>
    public static Wire FeederWire(WireSystem system, double tripAmps)
    {
        Wire[] wires = [.. Conductors.GaugesOnHand.Where(wire => wire is Wire.Metric == (system == WireSystem.Metric))
            .OrderBy(Conductors.AreaSquareMillimetres)
            .Where(wire => Conductors.AreaSquareMillimetres(wire) >= LeastFeederSquareMillimetres)];
        return wires.FirstOrDefault(wire => ShortRunAmps(wire) >= tripAmps - 1e-9, wires[^1]);
    }

    /// <summary>Current that a wire carries over a run as short as a feeder, in ampere.</summary>
    public static double ShortRunAmps(Wire wire) => Conductors.AreaSquareMillimetres(wire) * Constants.SingleRunCurrentDensity.Value;

    // Common practice: feeders of 20 AWG or 0.5 mm2; thinner ones only where they must not be seen.
    private const double LeastFeederSquareMillimetres = 0.5;

    /// <summary>The limits that a district does not keep with a wire in all of its new bus; empty when it keeps all.</summary>
    public static string Verdict(Layout layout, DistrictPower power, Wire wire)
    {
        List<string> broken = [];
        if (power.LowestVolts.Drop > layout.MaxDrop)
        {
            broken.Add(Invariant($"drop {power.LowestVolts.Drop.Percent:0.0} % over {layout.MaxDrop.Percent:0.#} %"));
        }

        if (power.FaultOverTrip < Constants.FaultOverTripGood.Value)
        {
            broken.Add(Invariant($"fault current {power.FaultOverTrip:0.0} × trip, wanted {Constants.FaultOverTripGood.Value:0.#}"));
        }

        ElectricCurrent carries = ElectricCurrent.FromAmperes(Conductors.AmpacityAmps(wire));
        if (carries < power.Trip)
        {
            broken.Add(Invariant($"wire carries {carries.Amperes:0.0} A, trip is {power.Trip.Amperes:0.#} A"));
        }

        return string.Join("; ", broken);
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
