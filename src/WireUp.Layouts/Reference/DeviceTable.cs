using System.Collections.Immutable;
using UnitsNet;

namespace WireUp.Layouts.Reference;

/// <summary>What an energy-limited supply may put out, by a published class.</summary>
/// <param name="Class">Name of the class.</param>
/// <param name="From">Output above this voltage (or 0) …</param>
/// <param name="To">… up to this one.</param>
/// <param name="MostAmps">Largest rated current.</param>
/// <param name="MostVoltAmps">Largest rated output in volt-amperes.</param>
/// <param name="Standing">How well the row is founded.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record SupplyLimit(
    string Class,
    ElectricPotential From,
    ElectricPotential To,
    ElectricCurrent MostAmps,
    double MostVoltAmps,
    Standing Standing,
    string Source);

/// <summary>Devices by rating, never by make (shared/devices.csv, shared/supply-limits.csv).</summary>
public static class DeviceTable
{
    private static readonly ImmutableArray<ReferenceRow> Rows = ReferenceTable.Read("devices.csv");

    /// <summary>Rated currents of boosters on sale, ascending.</summary>
    public static ImmutableArray<ElectricCurrent> BoosterRatings { get; } = Of("booster");

    /// <summary>Trip currents a breaker can be set to, ascending. Common practice, no published source.</summary>
    public static ImmutableArray<ElectricCurrent> BreakerTrips { get; } = Of("breaker-trip");

    /// <summary>Output resistance of a booster whose maker states none. Common practice, no published source.</summary>
    public static ElectricResistance BoosterResistance { get; } =
        ElectricResistance.FromOhms(Constants.Get("booster-resistance").Value);

    /// <summary>Resistance of a breaker and its connections where none is stated. Common practice, no published source.</summary>
    public static ElectricResistance BreakerResistance { get; } =
        ElectricResistance.FromOhms(Constants.Get("breaker-resistance").Value);

    /// <summary>How long a booster goes on above its rated current where nothing is stated. Common practice, no published source.</summary>
    public static Duration BoosterDelay { get; } = Duration.FromSeconds(Constants.Get("booster-delay").Value);

    /// <summary>How long a breaker lets its trip current flow where nothing is stated.</summary>
    public static Duration BreakerDelay { get; } = Duration.FromSeconds(Constants.Get("breaker-delay").Value);

    /// <summary>How long after opening a breaker closes again where nothing is stated.</summary>
    public static Duration BreakerReclose { get; } = Duration.FromSeconds(Constants.Get("breaker-reclose").Value);

    /// <summary>Resistance that stay-alive capacitors charge through where nothing is stated. From memory.</summary>
    public static ElectricResistance ChargingResistance { get; } = ElectricResistance.FromOhms(Constants.Get("charging-resistance").Value);

    /// <summary>Published limits of energy-limited supplies.</summary>
    public static ImmutableArray<SupplyLimit> SupplyLimits { get; } = [.. ReferenceTable.Read("supply-limits.csv").Select(Limit)];

    private static ImmutableArray<ElectricCurrent> Of(string kind) =>
        [.. Rows.Where(row => row.Text("kind") == kind).Select(row => ElectricCurrent.FromAmperes(row.Number("value")))];

    private static SupplyLimit Limit(ReferenceRow row) => new(
        row.Text("class"),
        ElectricPotential.FromVolts(row.Number("from-volts")),
        ElectricPotential.FromVolts(row.Number("to-volts")),
        ElectricCurrent.FromAmperes(row.Number("most-amps")),
        row.Number("most-volt-amps"),
        row.Standing,
        row.Source);
}
