using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

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
/// A district uses two sizes at most, and no run is thicker than the one before it: every pair of sizes is searched by itself (<see cref="SizePairWorkspace"/>),
/// each choice solved as a circuit in which only wires of the bus change (<see cref="BusVariation"/>), at places that are or nearly are out of their limits with
/// one size in all runs. The choice found is solved with the whole railway; places that it brings out of their limits are looked at too, and the search is made again.
/// </remarks>
/// <param name="buses">The new runs of each district, in the order of the layout.</param>
/// <param name="stock">The sizes.</param>
/// <param name="assemble">The layout with all new bus, its wire by district and run.</param>
/// <param name="cancel">Stops the search between solutions: the best so far is taken, which keeps every limit that any choice keeps.</param>
internal sealed class GaugeChooser(
    ImmutableArray<BusRuns> buses, WireStock stock, Func<Func<string, int, Wire>, Layout> assemble, CancellationToken cancel)
{
    private const int MostRounds = 5;

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
            Search(uniform[^1].Layout, [.. uniform.Select(each => each.Report)]);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            // Only cheaper wire could have been found.
        }

        return new([.. buses.Select(Chosen)], [.. buses.SelectMany(bus => Rows(bus, uniform))], Cost());
    }

    private void Search(Layout thickest, ImmutableArray<PowerReport> uniform)
    {
        foreach (GaugeSearchWorkspace search in Open)
        {
            foreach (PowerReport report in uniform)
            {
                search.LookAt(report);
            }
        }

        for (int round = 0; round < MostRounds && Open.Any(); round++)
        {
            cancel.ThrowIfCancellationRequested();
            ILookup<string, TrackPlace> places = Open.SelectMany(search => search.Places.Select(at => (search.Bus.District, at))).ToLookup(pair => pair.District, pair => pair.at);
            ImmutableDictionary<string, BusVariation> variations = BusVariation.Of(thickest, places);
            GaugeSearchWorkspace[] open = [.. Open];
            foreach (GaugeSearchWorkspace search in open)
            {
                search.Propose(variations[search.Bus.District], cancel);
            }

            PowerReport proposed = PowerAnalysis.Solve(Assembled(), PowerOptions.Default, cancel);
            foreach (GaugeSearchWorkspace search in open.Where(search => search.IsOpen))
            {
                search.Judge(proposed);
            }
        }
    }

    private IEnumerable<GaugeSearchWorkspace> Open => _searches.Values.Where(search => search.IsOpen);

    private (Layout, PowerReport) Solved(Func<string, int, Wire> wireOf)
    {
        Layout layout = assemble(wireOf);
        return (layout, PowerAnalysis.Solve(layout, PowerOptions.Default, CancellationToken.None));
    }

    private static DistrictPower? Find(PowerReport report, BusRuns bus) => report.Districts.FirstOrDefault(power => power.District == bus.District);

    private Layout Assembled() => assemble((district, run) =>
        _searches.TryGetValue(district, out GaugeSearchWorkspace? search) ? stock.Sizes[search.Point[run]].Wire : stock.Thickest);

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

    /// <summary>What a place may see at most so that a coin there trips the breaker surely, Ω.</summary>
    public static double MostLoopOhms(Layout layout, DistrictPower power) =>
        (power.SourceVolts.Volts / (power.Trip.Amperes * Constants.FaultOverTripGood.Value)) - layout.Defaults.Coin.Ohms;

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
}
