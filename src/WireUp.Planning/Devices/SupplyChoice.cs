using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

namespace WireUp.Planning.Devices;

/// <summary>The supply of one new booster: what it must give, and whether an energy-limited one can.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Limit">The published limit it keeps, or null.</param>
/// <param name="Working">The calculation, one line a step.</param>
internal sealed record SupplyChoice(Supply Supply, SupplyLimit? Limit, ImmutableArray<string> Working)
{
    /// <summary>The supply for a booster.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="volts">Track volts, which the supply must reach.</param>
    /// <param name="amps">Rated current of the booster.</param>
    /// <param name="alternating">Whether the track runs on alternating current.</param>
    public static SupplyChoice For(string name, double volts, double amps, bool alternating)
    {
        double wantedAmps = amps * Constants.SupplyOverBooster.Value;
        SupplyLimit limit = EnergyLimited(volts);
        bool keeps = wantedAmps <= limit.MostAmps.Amperes + 1e-9 && wantedAmps * volts <= Most(limit, volts) + 1e-9;
        double watts = Math.Ceiling(wantedAmps * volts);
        Supply supply = new(
            name,
            ElectricPotential.FromVolts(volts),
            alternating,
            Power.FromWatts(watts),
            keeps ? SupplyClass.Limited : SupplyClass.Other);
        string verdict = Invariant(
            $"{limit.Class} allows {limit.MostAmps.Amperes:0.#} A and {Most(limit, volts):0} VA at this voltage: {(keeps ? "within it" : "beyond it, so not energy-limited")}");
        return new(supply, keeps ? limit : null,
        [
            Invariant($"current = {Constants.SupplyOverBooster.Value} × {amps:0.#} A = {wantedAmps:0.0} A, so that the booster trips before the supply gives way"),
            Invariant($"rating = {wantedAmps:0.0} A × {volts:0.#} V = {watts:0} VA"),
            verdict,
        ]);
    }

    private static SupplyLimit EnergyLimited(double volts) => DeviceTable.SupplyLimits
        .Where(each => each.Class.StartsWith("class-2", StringComparison.Ordinal))
        .OrderBy(each => volts > each.From.Volts && volts <= each.To.Volts ? 0 : 1)
        .First();

    // Up to 20 V the limit of class 2 is a current, so its power depends on the voltage.
    private static double Most(SupplyLimit limit, double volts) => Math.Min(limit.MostVoltAmps, limit.MostAmps.Amperes * volts);
}
