using System.Collections.Frozen;
using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Reference;

/// <summary>What is usual in one scale: the defaults where a layout says nothing.</summary>
/// <param name="Name">Name in the layout file, for instance <c>HO</c>.</param>
/// <param name="Ratio">How many times smaller than the prototype.</param>
/// <param name="Gauge">Distance between the rails' inner faces.</param>
/// <param name="Running">Planning current of a locomotive that pulls its train.</param>
/// <param name="Stopped">Planning current of a locomotive that stands with sound and light.</param>
/// <param name="Starting">Planning current of a locomotive that starts.</param>
/// <param name="Stalled">Planning current of a locomotive with its wheels held.</param>
/// <param name="LitCar">Planning current of a car with filament lamps.</param>
/// <param name="Pickup">Shortest usual wheel base of pick-up.</param>
/// <param name="TripCeiling">Most a district's trip current should be, so that a short does no harm to rolling stock.</param>
public sealed record ScaleRow(
    string Name,
    double Ratio,
    Length Gauge,
    ElectricCurrent Running,
    ElectricCurrent Stopped,
    ElectricCurrent Starting,
    ElectricCurrent Stalled,
    ElectricCurrent LitCar,
    Length Pickup,
    ElectricCurrent TripCeiling)
{
    /// <summary>Nominal track volts under command control.</summary>
    public required ElectricPotential CommandVolts { get; init; }

    /// <summary>Nominal track volts of direct current.</summary>
    public required ElectricPotential DirectVolts { get; init; }

    /// <summary>Nominal track volts of alternating current, rms, or null in a scale that does not use it.</summary>
    public ElectricPotential? AlternatingVolts { get; init; }

    /// <summary>Nominal track volts under a control system; a scale without alternating current lends its command volts.</summary>
    public ElectricPotential TrackVolts(ControlSystem control) => control switch
    {
        ControlSystem.Command => CommandVolts,
        ControlSystem.Direct => DirectVolts,
        ControlSystem.ThreeRail => AlternatingVolts ?? CommandVolts,
        _ => throw new ArgumentOutOfRangeException(nameof(control), control, "not a control system"),
    };
}

/// <summary>The scales (shared/scales.csv); where each column comes from stands in shared/scale-sources.csv.</summary>
public static class ScaleTable
{
    /// <summary>Every scale, from the smallest to the largest.</summary>
    public static ImmutableArray<ScaleRow> All { get; } = [.. ReferenceTable.Read("scales.csv").Select(Row)];

    private static readonly FrozenDictionary<string, ScaleRow> ByName = All.ToFrozenDictionary(row => row.Name);

    /// <summary>Where a column of the table comes from: its name as in shared/scales.csv, standing and source.</summary>
    public static ImmutableArray<(string Column, Standing Standing, string Source)> Sources { get; } =
        [.. ReferenceTable.Read("scale-sources.csv").Select(row => (row.Text("column"), row.Standing, row.Source))];

    /// <summary>The scale of that name.</summary>
    /// <exception cref="KeyNotFoundException">There is none.</exception>
    public static ScaleRow Get(string name) => Find(name) ?? throw new KeyNotFoundException($"no scale '{name}'");

    /// <summary>The scale of that name, or null.</summary>
    public static ScaleRow? Find(string name) => ByName.GetValueOrDefault(name);

    /// <summary>The scale of that name, or HO, which is taken where nothing else is known.</summary>
    public static ScaleRow FindOrUsual(string name) => Find(name) ?? Get("HO");

    private static ScaleRow Row(ReferenceRow row) => new(
        row.Text("scale"),
        row.Number("ratio"),
        Length.FromMillimeters(row.Number("gauge-mm")),
        ElectricCurrent.FromAmperes(row.Number("running-amps")),
        ElectricCurrent.FromAmperes(row.Number("stopped-amps")),
        ElectricCurrent.FromAmperes(row.Number("starting-amps")),
        ElectricCurrent.FromAmperes(row.Number("stalled-amps")),
        ElectricCurrent.FromAmperes(row.Number("lit-car-amps")),
        Length.FromMillimeters(row.Number("pickup-mm")),
        ElectricCurrent.FromAmperes(row.Number("trip-amps")))
    {
        CommandVolts = ElectricPotential.FromVolts(row.Number("command-volts")),
        DirectVolts = ElectricPotential.FromVolts(row.Number("direct-volts")),
        AlternatingVolts = row.OptionalNumber("alternating-volts") is { } volts ? ElectricPotential.FromVolts(volts) : null,
    };
}
