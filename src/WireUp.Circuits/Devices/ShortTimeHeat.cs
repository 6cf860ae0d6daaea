using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Devices;

/// <summary>
/// How long a wire bears a current that is far more than it can carry for good: while no heat leaves it, I²·t = k²·S². For copper in PVC
/// k = 115 A·√s/mm² takes it from 70 to 160 °C; the law is meant for up to 5 s (IEC 60364-4-43, BS 7671; both figures from memory).
/// </summary>
public static class ShortTimeHeat
{
    /// <summary>What the wire may take up, A²s.</summary>
    /// <param name="wire">The wire.</param>
    public static double LimitAmpsSquaredSeconds(Wire wire)
    {
        double amps = Constants.Get("short-time-copper-pvc").Value * Conductors.AreaSquareMillimetres(wire);
        return amps * amps;
    }

    /// <summary>Time until the limit, seconds.</summary>
    /// <param name="wire">The wire.</param>
    /// <param name="amps">The current, ampere, above 0.</param>
    public static double LimitSeconds(Wire wire, double amps) => LimitAmpsSquaredSeconds(wire) / (amps * amps);

    /// <summary>
    /// The current, up to the largest that can flow, at which a wire behind a breaker takes up most before the breaker opens, and how much.
    /// Between bends of the curve I²·t goes one way only, so bends and the largest current are all there is to try. Currents
    /// that flow for longer than the law is meant for are left out: whether the wire can bear them for good is another question.
    /// </summary>
    /// <param name="curve">The breaker.</param>
    /// <param name="largestAmps">Largest current through the wire, ampere.</param>
    /// <returns>Current in ampere and I²·t in A²s; zeros where no such current makes the breaker open in time.</returns>
    public static (double Amps, double AmpsSquaredSeconds) Worst(TripCurve curve, double largestAmps)
    {
        double longest = Constants.Get("short-time-longest").Value;
        return curve.Bends
            .Append(curve.AmpsWithin(longest))
            .Append(largestAmps)
            .Where(amps => amps <= largestAmps && curve.SecondsAt(amps) <= longest * (1 + 1e-9))
            .Select(amps => (amps, amps * amps * curve.SecondsAt(amps)))
            .DefaultIfEmpty((0, 0))
            .MaxBy(pair => pair.Item2);
    }
}
