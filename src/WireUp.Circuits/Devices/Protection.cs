using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Signals;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Devices;

/// <summary>
/// Looks at a solved layout in time: breakers, boosters, wires under a short, restart, and the signal on the bus. Formulas and limits are in
/// docs/physics.md.
/// </summary>
public static class Protection
{
    /// <summary>Looks at a layout.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="power">What its circuit came to.</param>
    public static ProtectionReport Of(Layout layout, PowerReport power)
    {
        TrackShares shares = new(layout, power);
        FleetOrder fleet = new(layout);
        return new(
            [.. power.Districts.Select(each => OneDistrict(layout, power, shares, fleet, each))],
            [.. Boosters(layout, shares, fleet, power)])
        {
            Rails = layout.Control == ControlSystem.Command ? [.. Rails(layout)] : [],
        };
    }

    /// <summary>The trip curve of a district's breaker: its own, or its delay from its trip current up.</summary>
    /// <param name="district">The district.</param>
    public static TripCurve CurveOf(District district) => district.Curve.IsEmpty
        ? TripCurve.Flat(district.Trip.Amperes, NotAtOnce(district.Delay))
        : new(district.Curve.Select(point => (point.Current.Amperes, NotAtOnce(point.Time))));

    /// <summary>That of a booster: its delay from its rated current up.</summary>
    /// <param name="booster">The booster.</param>
    public static TripCurve CurveOf(Booster booster) => TripCurve.Flat(booster.Amps.Amperes, NotAtOnce(booster.Delay));

    /// <summary>A device that is said to take no time takes a microsecond.</summary>
    private static double NotAtOnce(Duration time) => Math.Max(1e-6, time.Seconds);

    private static DistrictProtection OneDistrict(Layout layout, PowerReport power, TrackShares shares, FleetOrder fleet, DistrictPower solved)
    {
        District district = layout.Wiring.Districts.First(each => each.Name == solved.District);
        Booster booster = layout.Wiring.Boosters.First(each => each.Name == district.Booster);
        TripCurve curve = CurveOf(district);
        double sourceOhms = booster.Resistance.Ohms + district.Resistance.Ohms;
        ShortedWires wires = new(layout, district, booster);
        double least = solved.LowestFault.FaultCurrent.Amperes, most = Math.Max(least, wires.AmpsBehindBreaker), clears = curve.SecondsAt(least);
        bool hasSignal = layout.Control == ControlSystem.Command;
        return new(district.Name, booster.Name)
        {
            LeastFault = solved.LowestFault.FaultCurrent,
            MostFault = ElectricCurrent.FromAmperes(most),
            Clears = double.IsInfinity(clears) ? null : Duration.FromSeconds(clears),
            BoosterFirst = First(curve, CurveOf(booster), shares.OthersAmps(power, district), least, most),
            Wires = [.. wires.Stresses(curve)],
            Restart = hasSignal && district.Use != DistrictUse.Accessories
                ? fleet.Restart(curve, booster.Volts.Volts, [sourceOhms, sourceOhms + solved.LowestFault.Loop.Ohms], shares.Of(district), district.Use)
                : null,
            Ends = hasSignal ? [.. BusEnds.Of(layout, district, booster, solved.DesignLoad.Amperes)] : [],
        };

        BoosterFirst? First(TripCurve breaker, TripCurve behind, double? othersAmps, double least, double most)
        {
            double part = Constants.Get("breaker-time-over-booster").Value;
            if (othersAmps is not { } others || Coordination.Trouble(breaker, behind, others, part, least, most) is not var (from, to))
            {
                return null;
            }

            (double From, double To)? certain = Coordination.Trouble(breaker, behind, others, 1 - 1e-6, least, most);
            (from, to) = certain ?? (from, to);
            return new(
                ElectricCurrent.FromAmperes(from),
                ElectricCurrent.FromAmperes(to),
                Duration.FromSeconds(breaker.SecondsAt(from)),
                Duration.FromSeconds(behind.SecondsAt(from + others)),
                certain is not null);
        }
    }

    private static IEnumerable<RailAtSignal> Rails(Layout layout)
    {
        double hertz = 1 / (2 * Constants.Get("half-bit-shortest").Value * 1e-6);
        return layout.Track.OfType<Piece.Section>()
            .Select(section => section.Rail)
            .OfType<RailMaterial>()
            .Prepend(layout.Defaults.Rail)
            .Select(rail => rail with { OhmsPerMetre = null })
            .Distinct()
            .Select(rail => new RailAtSignal(rail, SkinEffect.OfRail(rail, hertz)));
    }

    private static IEnumerable<BoosterRestart> Boosters(Layout layout, TrackShares shares, FleetOrder fleet, PowerReport power) =>
        from booster in layout.Control == ControlSystem.Command ? layout.Wiring.Boosters : []
        let districts = layout.Wiring.Districts
            .Where(each => each.Booster == booster.Name && each.Use == DistrictUse.Running && power.Districts.Any(solved => solved.District == each.Name))
            .ToImmutableArray()
        where districts.Length > 1
        select new BoosterRestart(
            booster.Name,
            fleet.Restart(CurveOf(booster), booster.Volts.Volts, [booster.Resistance.Ohms], districts.Sum(shares.Of), DistrictUse.Running));
}
