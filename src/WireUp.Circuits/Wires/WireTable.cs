using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

namespace WireUp.Circuits;

/// <summary>What one pair of wires has to do.</summary>
/// <param name="Length">Length of the pair; the current goes there and back.</param>
/// <param name="Current">Working current.</param>
public sealed record WireQuestion(Length Length, ElectricCurrent Current)
{
    /// <summary>Open-circuit volts.</summary>
    public ElectricPotential Volts { get; init; } = ElectricPotential.FromVolts(15);

    /// <summary>Drop allowed at the working current, of the open-circuit volts.</summary>
    public Ratio MaxDrop { get; init; } = Ratio.FromDecimalFractions(Constants.DropGood.Value);

    /// <summary>Current at which the breaker before the pair trips, or null: half as much again as the working current.</summary>
    public ElectricCurrent? Trip { get; init; }

    /// <summary>Temperature of the copper.</summary>
    public Temperature Temperature { get; init; } = Temperature.FromDegreesCelsius(20);

    internal double TripAmps => Trip?.Amperes ?? (Current.Amperes * Constants.TripOverWorking.Value);
}

/// <summary>What a pair of one wire does.</summary>
/// <param name="Wire">The wire.</param>
/// <param name="Loop">Resistance there and back.</param>
/// <param name="Drop">Drop at the working current, of the open-circuit volts.</param>
/// <param name="FaultCurrent">Current through a coin at its far end, behind a usual booster and breaker.</param>
/// <param name="Carries">Current it may carry for good, lying among other wires.</param>
/// <param name="Broken">The limits it does not keep, one clause each; empty when it will do.</param>
public sealed record WireRow(
    Wire Wire, ElectricResistance Loop, Ratio Drop, ElectricCurrent FaultCurrent, ElectricCurrent Carries, ImmutableArray<string> Broken);

/// <summary>
/// Which wire for a pair of so many metres at so many amperes: each usual size with its drop, its fault current and what it carries.
/// </summary>
/// <remarks>
/// Loop R = 2·ρ·length. Drop I·R/V, at most <see cref="WireQuestion.MaxDrop"/>. Fault current V/(R + booster + breaker + coin), at least twice
/// the trip current. It must carry the trip current for good: 6 A for each mm². Sources: shared/constants.csv, shared/conductors.csv.
/// </remarks>
public static class WireTable
{
    /// <summary>Every usual size, American ones first, each from the thickest to the thinnest.</summary>
    public static ImmutableArray<WireRow> Of(WireQuestion question) => [.. Conductors.GaugesOnHand.Select(wire => Row(question, wire))];

    /// <summary>The thinnest size of each system that keeps every limit; fewer where none does.</summary>
    public static ImmutableArray<Wire> Thinnest(ImmutableArray<WireRow> rows) =>
    [
        .. rows.Where(row => row.Broken.IsEmpty)
            .GroupBy(row => row.Wire is Wire.Metric)
            .OrderBy(system => system.Key)
            .Select(system => system.MinBy(row => Conductors.AreaSquareMillimetres(row.Wire))!.Wire),
    ];

    private static WireRow Row(WireQuestion question, Wire wire)
    {
        double loop = 2 * question.Length.Meters * Conductors.OhmsPerMetre(wire, question.Temperature), volts = question.Volts.Volts;
        double source = DeviceTable.BoosterResistance.Ohms + DeviceTable.BreakerResistance.Ohms + Constants.Get("coin-resistance").Value;
        WireRow row = new(
            wire,
            ElectricResistance.FromOhms(loop),
            Ratio.FromDecimalFractions(question.Current.Amperes * loop / volts),
            ElectricCurrent.FromAmperes(volts / (loop + source)),
            ElectricCurrent.FromAmperes(Conductors.AmpacityAmps(wire)),
            []);
        return row with { Broken = [.. Broken(question, row)] };
    }

    private static IEnumerable<string> Broken(WireQuestion question, WireRow row)
    {
        if (row.Drop.DecimalFractions > question.MaxDrop.DecimalFractions)
        {
            yield return Invariant($"drops more than {question.MaxDrop.Percent:0.#} %");
        }

        if (row.FaultCurrent.Amperes < Constants.FaultOverTripGood.Value * question.TripAmps)
        {
            yield return Invariant($"coin draws less than {Constants.FaultOverTripGood.Value:0.#} × {question.TripAmps:0.##} A");
        }

        if (row.Carries.Amperes < question.TripAmps)
        {
            yield return Invariant($"too thin for a trip of {question.TripAmps:0.##} A");
        }
    }
}
