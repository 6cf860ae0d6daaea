using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The sizes of bus wire to choose from.</summary>
/// <param name="System">How feeder wire is named beside them.</param>
/// <param name="Sizes">The sizes, thinnest first; at least one.</param>
internal sealed record WireStock(WireSystem System, ImmutableArray<WireOnHand> Sizes)
{
    /// <summary>Whether every size has a price.</summary>
    public bool HasPrices { get; } = Sizes.All(size => size.PricePerMetre is not null);

    /// <summary>The thickest size.</summary>
    public Wire Thickest => Sizes[^1].Wire;

    /// <summary>The sizes that are on hand; else the usual ones, in the system asked for, else in that of the wire that is there, else as the layout says.</summary>
    public static WireStock Of(PlanOptions options, Layout layout)
    {
        Wire? first = options.WireOnHand.Select(size => size.Wire)
            .Concat(layout.Wiring.Buses.SelectMany(bus => bus.Runs).Select(run => run.Wire))
            .Concat(layout.Wiring.Feeders.Select(feeder => feeder.Wire))
            .FirstOrDefault();
        WireSystem system = options.WireSystem ?? first switch { null => layout.WireSizes, Wire.Awg => WireSystem.Awg, _ => WireSystem.Metric };
        return options.WireOnHand.IsEmpty ? Usual(system) : new(system, [.. Sorted(options.WireOnHand)]);
    }

    /// <summary>The usual sizes of one system, without prices.</summary>
    public static WireStock Usual(WireSystem system) => new(system, [.. Sorted(Conductors.BusGauges
        .Where(wire => wire is Wire.Metric == (system == WireSystem.Metric))
        .Select(wire => new WireOnHand(wire)))]);

    /// <summary>What a metre of bus costs, both wires: its price, or cubic centimetres of copper.</summary>
    public double CostPerMetre(int size) => 2 * (HasPrices ? Sizes[size].PricePerMetre!.Value : Conductors.AreaSquareMillimetres(Sizes[size].Wire));

    private static IEnumerable<WireOnHand> Sorted(IEnumerable<WireOnHand> sizes) =>
        sizes.OrderBy(size => Conductors.AreaSquareMillimetres(size.Wire)).DistinctBy(size => size.Wire);
}
