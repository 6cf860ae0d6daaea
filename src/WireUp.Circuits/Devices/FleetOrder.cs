using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Devices;

/// <summary>The locomotives of a railway as power comes back to them.</summary>
internal sealed class FleetOrder
{
    /// <summary>No more than this are tried.</summary>
    private const int Limit = 99;

    private readonly Layout _layout;
    private readonly double _pulseAmps = Constants.Get("inrush-per-sound-decoder").Value;
    private readonly double _pulseSeconds = Constants.Get("inrush-duration").Value * 1e-3;

    internal FleetOrder(Layout layout) => _layout = layout;

    /// <summary>What a breaker or booster does when it closes.</summary>
    /// <param name="curve">Its curve.</param>
    /// <param name="volts">Volts of the source.</param>
    /// <param name="commonOhms">Resistances that locomotives may share: next to the source, and at the worst place.</param>
    /// <param name="share">Part of all track that lies behind it, 0 to 1.</param>
    /// <param name="use">What its power is for.</param>
    internal RestartVerdict Restart(TripCurve curve, double volts, double[] commonOhms, double share, DistrictUse use)
    {
        bool isProgramming = use == DistrictUse.Programming;
        ImmutableArray<WakingLocomotive> fleet = InOrder(curve, volts);
        int expected = isProgramming ? 1 : Math.Clamp((int)Math.Ceiling((fleet.Length * share) - 1e-9), 1, fleet.Length);
        double cars = isProgramming ? 0 : share * _layout.Stock.Trains.Sum(train => train.LitCars * train.LitCarCurrent.Amperes);

        Restart[] cases = [.. commonOhms.Select(ohms => Case(ohms, cars))];
        ImmutableArray<WakingLocomotive> standing = [.. Enumerable.Range(0, expected).Select(InFleet)];
        int most = cases.Min(restart => restart.Most(InFleet, Limit));
        double? opens = cases.Select(restart => restart.OpensAfterSeconds(standing)).Max();
        return new(
            expected,
            most,
            most == Limit,
            ElectricCurrent.FromAmperes(cases.Max(restart => restart.FirstAmps(standing))),
            opens is { } seconds ? Duration.FromSeconds(seconds) : null,
            isProgramming ? null : TrainThatCannot(ohms => Case(ohms, 0), commonOhms));

        // Beyond the last locomotive the same ones again.
        WakingLocomotive InFleet(int number) => fleet[number % fleet.Length];

        Restart Case(double ohms, double steady) =>
            new(curve, volts, ohms) { PulseAmps = _pulseAmps, PulseSeconds = _pulseSeconds, SteadyAmps = steady };
    }

    private string? TrainThatCannot(Func<double, Restart> restart, double[] commonOhms)
    {
        Dictionary<string, Locomotive> kinds = _layout.Stock.Locomotives
            .GroupBy(kind => kind.Name, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
        return _layout.Stock.Trains.FirstOrDefault(train =>
        {
            ImmutableArray<WakingLocomotive> engines = [.. train.Locomotives.Where(kinds.ContainsKey).Select(name => Waking(kinds[name]))];
            double cars = train.LitCars * train.LitCarCurrent.Amperes;
            return commonOhms.Any(ohms => (restart(ohms) with { SteadyAmps = cars }).OpensAfterSeconds(engines) is not null);
        })?.Name;
    }

    /// <summary>Every locomotive, those first that draw most when a device with that curve would act.</summary>
    private ImmutableArray<WakingLocomotive> InOrder(TripCurve curve, double volts)
    {
        double acts = curve.SecondsAt(double.MaxValue);
        ImmutableArray<WakingLocomotive> fleet =
        [
            .. _layout.Stock.Locomotives.SelectMany(kind => Enumerable.Repeat(Waking(kind), kind.Count)).OrderByDescending(Draws),
        ];
        return fleet.IsEmpty ? [new(ScaleTable.FindOrUsual(_layout.Scale).Stopped.Amperes, null)] : fleet;

        double Draws(WakingLocomotive locomotive) => locomotive.StandingAmps + (locomotive.Charging is { } charging
            ? new InrushCurrent(volts, 0, charging).AmpsAt(acts)
            : acts < _pulseSeconds ? _pulseAmps : 0);
    }

    private static WakingLocomotive Waking(Locomotive kind) => new(
        kind.Stopped.Amperes,
        kind.StayAlive is { Farads: > 0 } capacitor ? new ChargingGroup(1, kind.Charging.Ohms, capacitor.Farads) : null);
}
