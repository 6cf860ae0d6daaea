using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Planning.Devices;

/// <summary>The bus wire of every district, and what every other size would come to.</summary>
/// <param name="WireOf">For each district with new bus its wire.</param>
/// <param name="Rows">Every district with every size, thinnest first.</param>
internal sealed record GaugeChoice(ImmutableSortedDictionary<string, Wire> WireOf, ImmutableArray<GaugeRow> Rows)
{
    /// <summary>Districts for which no size keeps every limit.</summary>
    public IEnumerable<string> Failing => Rows.Where(row => row is { Chosen: true, Verdict.Length: > 0 }).Select(row => row.District);
}

/// <summary>
/// Chooses bus wire by solving the railway with each usual size in turn: the thinnest with which the district keeps its drop, its
/// breaker trips surely at the worst place, and the wire carries what the breaker lets pass.
/// </summary>
internal static class GaugeChooser
{
    /// <summary>Chooses.</summary>
    /// <param name="districts">Districts with new bus, in the order of the layout, each with the least section its wire must have in mm².</param>
    /// <param name="system">Which sizes to choose from.</param>
    /// <param name="assemble">The layout with all new bus in one wire.</param>
    /// <param name="cancel">Stops between sizes.</param>
    public static GaugeChoice Choose(
        ImmutableArray<(string Name, double LeastSquareMillimetres)> districts, WireSystem system, Func<Wire, Layout> assemble, CancellationToken cancel)
    {
        ImmutableArray<Wire> wires = [.. Conductors.BusGauges.Where(wire => IsOf(wire, system)).OrderBy(Conductors.AreaSquareMillimetres)];
        Dictionary<(string District, Wire Wire), GaugeRow> rows = [];
        foreach (Wire wire in wires)
        {
            Layout layout = assemble(wire);
            PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default, cancel);
            foreach (DistrictPower power in report.Districts.Where(power => districts.Any(district => district.Name == power.District)))
            {
                rows[(power.District, wire)] = new(
                    power.District, wire, power.LowestVolts.Drop, power.LowestFault.FaultCurrent, Verdict(layout, power, wire), false);
            }
        }

        ImmutableSortedDictionary<string, Wire> chosen = districts.ToImmutableSortedDictionary(
            district => district.Name,
            district => wires.FirstOrDefault(
                wire => Conductors.AreaSquareMillimetres(wire) >= district.LeastSquareMillimetres - 0.1
                    && rows.TryGetValue((district.Name, wire), out GaugeRow? row) && row.Verdict.Length == 0,
                wires[^1]),
            StringComparer.Ordinal);
        return new(chosen, [.. districts.SelectMany(district => wires
            .Where(wire => rows.ContainsKey((district.Name, wire)))
            .Select(wire => rows[(district.Name, wire)] with { Chosen = chosen[district.Name] == wire }))]);
    }

    /// <summary>The thickest usual bus wire.</summary>
    public static Wire Thickest(WireSystem system) =>
        Conductors.BusGauges.Where(wire => IsOf(wire, system)).OrderByDescending(Conductors.AreaSquareMillimetres).First();

    /// <summary>The thinnest usual feeder wire, not below 0.5 mm², that carries a breaker's trip current over a short run, or the thickest.</summary>
    public static Wire FeederWire(WireSystem system, double tripAmps)
    {
        Wire[] wires = [.. Conductors.FeederGauges.Where(wire => IsOf(wire, system))
            .OrderBy(Conductors.AreaSquareMillimetres)
            .Where(wire => Conductors.AreaSquareMillimetres(wire) >= LeastFeederSquareMillimetres)];
        return wires.FirstOrDefault(wire => ShortRunAmps(wire) >= tripAmps - 1e-9, wires[^1]);
    }

    /// <summary>Current that a wire carries over a run as short as a feeder, in ampere.</summary>
    public static double ShortRunAmps(Wire wire) => Conductors.AreaSquareMillimetres(wire) * Constants.SingleRunCurrentDensity.Value;

    // Common practice: feeders of 20 AWG or 0.5 mm2; thinner ones only where they must not be seen.
    private const double LeastFeederSquareMillimetres = 0.5;

    private static bool IsOf(Wire wire, WireSystem system) => wire is Wire.Metric == (system == WireSystem.Metric);

    /// <summary>The limits that a district does not keep with a wire; empty when it keeps all.</summary>
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
