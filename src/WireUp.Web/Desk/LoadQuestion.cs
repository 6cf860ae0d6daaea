using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Web.Desk;

/// <summary>What somebody put on the rails.</summary>
/// <param name="Items">The things, in the order in which they were put.</param>
/// <param name="Positions">How turnouts and switches stand.</param>
/// <param name="BusWires">Wire that is tried for the bus of a district, in place of what the layout has.</param>
internal sealed record LoadQuestion(
    ImmutableArray<PlacedItem> Items, ImmutableSortedDictionary<PieceId, string> Positions, ImmutableSortedDictionary<string, Wire> BusWires)
{
    /// <summary>The layout with the wires that are tried.</summary>
    public Layout Tried(Layout layout) => BusWires.IsEmpty ? layout : layout with
    {
        Wiring = layout.Wiring with
        {
            Buses = [.. layout.Wiring.Buses.Select(bus => BusWires.TryGetValue(bus.District, out Wire? wire)
                ? bus with { Runs = [.. bus.Runs.Select(run => run with { Wire = wire })] }
                : bus)],
        },
    };
}

/// <summary>One thing on the rails.</summary>
/// <param name="Number">Its number on the page.</param>
/// <param name="At">Where.</param>
/// <param name="Stock">A locomotive or train of the stock list; empty for a load of <paramref name="Amps"/>; null for a coin.</param>
/// <param name="Amps">What a load that is not of the stock draws.</param>
internal sealed record PlacedItem(int Number, TrackPlace At, string? Stock, double Amps)
{
    public bool IsCoin => Stock is null;

    public IEnumerable<PlacedLoad> Loads(Layout layout) => this switch
    {
        { IsCoin: true } => [],
        { Stock: "" } => [new(At, ElectricCurrent.FromAmperes(Amps))],
        _ => PlacedLoad.OfStock(At, Stock!, layout),
    };
}

/// <summary>What one thing on the rails finds there.</summary>
/// <param name="Item">The thing.</param>
/// <param name="District">The district that feeds the place; null where there is no power.</param>
/// <param name="Volts">Of a train: volts at its wheels with all trains drawing; null where there is no result.</param>
/// <param name="Drawn">Of a train: what it draws.</param>
/// <param name="Fault">Of a coin: the current through it, everything else switched off.</param>
/// <param name="Trip">Trip current of the district.</param>
internal sealed record ItemAnswer(PlacedItem Item, string? District, double? Volts, double? Drawn, double? Fault, double? Trip);

/// <summary>What becomes of the things on the rails.</summary>
/// <param name="Items">One answer for each, in their order.</param>
/// <param name="Districts">What the trains draw from each district that has any, over what its breaker trips at.</param>
/// <param name="Problems">Why some have no figures.</param>
internal sealed record LoadAnswer(
    ImmutableArray<ItemAnswer> Items, ImmutableArray<(string District, double Amps, double Trip)> Districts, ImmutableArray<string> Problems)
{
    /// <summary>Solves the layout with the trains on it; coins are looked up with everything else switched off.</summary>
    public static LoadAnswer Of(Layout built, LoadQuestion question, CancellationToken cancel)
    {
        Layout layout = question.Tried(built);
        ImmutableArray<(PlacedItem Item, PlacedLoad Load)> loads = [.. question.Items.SelectMany(item => item.Loads(layout).Select(load => (item, load)))];
        PowerOptions options = new() { Loads = [.. loads.Select(pair => pair.Load)], Turnouts = question.Positions };
        RailGraph graph = RailGraph.Build(layout, [.. options.Places, .. question.Items.Select(item => item.At)]);
        PowerReport report = PowerAnalysis.Solve(graph, options, cancel);
        PowerMap map = PowerMap.Of(graph, options);
        bool isWhole = report.Places.Length == loads.Length;
        ImmutableArray<ItemAnswer> items = [.. question.Items.Select(item => Answer(item, map.Find(item.At), isWhole
            ? [.. loads.Zip(report.Places).Where(pair => pair.First.Item == item).Select(pair => pair.Second)]
            : []))];
        return new(items, Sums(layout, items), [.. report.Problems.Select(problem => problem.Message).Distinct()]);
    }

    private static ItemAnswer Answer(PlacedItem item, FedStretch? track, ImmutableArray<PlaceVolts> drawn)
    {
        double? fault = item.IsCoin && track is not null ? track.At(item.At.MetresFromA).FaultCurrent.Amperes : null;
        return new(
            item,
            track?.District,
            drawn.IsEmpty ? null : Math.Abs(drawn[0].Volts.Volts),
            drawn.IsEmpty ? null : drawn.Sum(place => place.Drawn?.Amperes ?? 0),
            fault,
            track?.Trip.Amperes);
    }

    private static ImmutableArray<(string District, double Amps, double Trip)> Sums(Layout layout, ImmutableArray<ItemAnswer> items) =>
    [
        .. from district in layout.Wiring.Districts
           let amps = items.Where(item => item.District == district.Name).Sum(item => item.Drawn ?? 0)
           where amps > 0
           select (district.Name, amps, district.OpensFrom.Amperes),
    ];
}
