using System.Collections.Frozen;
using System.Collections.Immutable;

namespace WireUp.Layouts.Reference;

/// <summary>
/// Constants of nature and of standards, and the numbers the trade goes by. One row each in <c>shared/constants.csv</c>;
/// whoever explains a result prints <see cref="ReferenceValue.Source"/> beside the number.
/// </summary>
public static class Constants
{
    /// <summary>Every constant, in the order of the table.</summary>
    public static ImmutableArray<ReferenceValue> All { get; } = ReferenceTable.Values("constants.csv");

    private static readonly FrozenDictionary<string, ReferenceValue> ByName = All.ToFrozenDictionary(value => value.Name);

    /// <summary>Conductivity of annealed copper at 20 °C, MS/m.</summary>
    public static ReferenceValue CopperConductivity => Get("copper-conductivity-20c");

    /// <summary>Rise of copper's resistance per kelvin, of its value at 20 °C.</summary>
    public static ReferenceValue CopperTemperatureCoefficient => Get("copper-temperature-coefficient");

    /// <summary>Continuous current density of wires lying together, A/mm².</summary>
    public static ReferenceValue BundledCurrentDensity => Get("bundled-current-density");

    /// <summary>Current density of one short run in free air, A/mm².</summary>
    public static ReferenceValue SingleRunCurrentDensity => Get("single-run-current-density");

    /// <summary>Part of the working current that is added for growth.</summary>
    public static ReferenceValue GrowthMargin => Get("growth-margin");

    /// <summary>Largest working current of a booster over its rating.</summary>
    public static ReferenceValue BoosterLoading => Get("booster-loading");

    /// <summary>Drop at working current that counts as good, part of the open-circuit volts.</summary>
    public static ReferenceValue DropGood => Get("drop-good");

    /// <summary>Fault current at the worst place over trip current that counts as good.</summary>
    public static ReferenceValue FaultOverTripGood => Get("fault-over-trip-good");

    /// <summary>Least trip current over working current.</summary>
    public static ReferenceValue TripOverWorking => Get("trip-over-working");

    /// <summary>Largest trip current of a breaker over that of its booster.</summary>
    public static ReferenceValue BreakerOverBooster => Get("breaker-over-booster");

    /// <summary>Least current limit of a supply over its booster's trip.</summary>
    public static ReferenceValue SupplyOverBooster => Get("supply-over-booster");

    /// <summary>Longest feeder, metres.</summary>
    public static ReferenceValue FeederLengthMost => Get("feeder-length-most");

    /// <summary>Longest way of a feeder from below its rail to a corridor of the benchwork, metres; bus branches off to one that is farther away.</summary>
    public static ReferenceValue FeederToCorridorMost => Get("feeder-to-corridor-most");

    /// <summary>The value of that name.</summary>
    /// <exception cref="KeyNotFoundException">The table has no such row.</exception>
    public static ReferenceValue Get(string name) =>
        ByName.TryGetValue(name, out ReferenceValue? value) ? value : throw new KeyNotFoundException($"no constant '{name}'");
}
