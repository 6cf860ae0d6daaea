using UnitsNet;
using WireUp.Circuits.Signals;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Devices;

/// <summary>
/// The largest current that a short can send through each wire of a district: a coin where the run of bus begins, or at the rails where the
/// feeder ends, everything through this wire alone. Other feeders nearby would take their part of it.
/// </summary>
internal sealed class ShortedWires
{
    private readonly Layout _layout;
    private readonly District _district;
    private readonly Booster _booster;
    private readonly Dictionary<string, double> _ohmsTo;

    internal ShortedWires(Layout layout, District district, Booster booster)
    {
        (_layout, _district, _booster) = (layout, district, booster);
        _ohmsTo = BusWays.Of(layout, district).ToDictionary(way => way.Point, way => way.Ohms, StringComparer.Ordinal);
    }

    /// <summary>Current of a coin right behind the breaker, ampere.</summary>
    internal double AmpsBehindBreaker => Amps(0);

    /// <summary>Every run of bus, then every feeder.</summary>
    internal IEnumerable<WireStress> Stresses(TripCurve curve)
    {
        foreach (BusRun run in _layout.Wiring.Buses.Where(bus => bus.District == _district.Name).SelectMany(bus => bus.Runs))
        {
            if (_ohmsTo.TryGetValue(run.From, out double from) && _ohmsTo.TryGetValue(run.To, out double to)
                && Stress($"{run.From} > {run.To}", false, run.Wire, Amps(Math.Min(from, to)), curve) is { } stress)
            {
                yield return stress;
            }
        }

        foreach (Feeder feeder in _layout.Wiring.Feeders.Where(feeder => feeder.District == _district.Name))
        {
            if (_ohmsTo.TryGetValue(feeder.Tap, out double tap) && Stress(feeder.Name, true, feeder.Wire, Amps(tap + OhmsOf(feeder)), curve) is { } stress)
            {
                yield return stress;
            }
        }
    }

    private static WireStress? Stress(string name, bool isFeeder, Wire wire, double largest, TripCurve curve)
    {
        (double amps, double _) = ShortTimeHeat.Worst(curve, largest);
        return amps > 0
            ? new(name, isFeeder, wire, ElectricCurrent.FromAmperes(amps), Duration.FromSeconds(curve.SecondsAt(amps)), Duration.FromSeconds(ShortTimeHeat.LimitSeconds(wire, amps)))
            : null;
    }

    private double OhmsOf(Feeder feeder) =>
        2 * (_layout.Defaults.Tap.Ohms + (Conductors.OhmsPerMetre(feeder.Wire, _layout.Defaults.Temperature) * feeder.Length.Meters));

    private double Amps(double ohms) =>
        _booster.Volts.Volts / Math.Max(1e-6, _booster.Resistance.Ohms + _district.Resistance.Ohms + ohms + _layout.Defaults.Coin.Ohms);
}
