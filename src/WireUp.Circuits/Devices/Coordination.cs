namespace WireUp.Circuits.Devices;

/// <summary>
/// Whether a breaker opens before the booster behind it: its time must stay within a part (half, by common practice) of the booster's, at
/// every current that a short can draw and at which the booster would act.
/// </summary>
public static class Coordination
{
    /// <summary>The currents of a short at which the booster is not sure to wait for the breaker, or null where there are none.</summary>
    /// <param name="breaker">The breaker.</param>
    /// <param name="booster">The booster.</param>
    /// <param name="othersAmps">What the booster carries besides the short, ampere.</param>
    /// <param name="part">Largest part of the booster's time that the breaker may take.</param>
    /// <param name="leastAmps">Least current of a short, ampere.</param>
    /// <param name="mostAmps">Largest current of a short, ampere.</param>
    /// <returns>Lowest and highest such current in ampere; between them there may be currents where all is well.</returns>
    public static (double FromAmps, double ToAmps)? Trouble(
        TripCurve breaker, TripCurve booster, double othersAmps, double part, double leastAmps, double mostAmps)
    {
        double from = Math.Max(leastAmps, Math.Max(breaker.LeastAmps, booster.LeastAmps - othersAmps));
        if (!(from <= mostAmps))
        {
            return null;
        }

        // Between neighbouring bends of either curve the two are straight or nearly so: their difference changes sign once at most.
        double[] bends = [from, .. breaker.Bends.Concat(booster.Bends.Select(amps => amps - othersAmps)).Where(amps => amps > from && amps < mostAmps).Order(), mostAmps];
        double lowest = double.PositiveInfinity, highest = double.NegativeInfinity;
        for (int i = 0; i < bends.Length; i++)
        {
            if (IsLate(bends[i]))
            {
                lowest = Math.Min(lowest, i == 0 ? bends[i] : Edge(bends[i], bends[i - 1]));
                highest = Math.Max(highest, i == bends.Length - 1 ? bends[i] : Edge(bends[i], bends[i + 1]));
            }
        }

        return lowest <= highest ? (lowest, highest) : null;

        bool IsLate(double amps) => breaker.SecondsAt(amps) > part * booster.SecondsAt(amps + othersAmps) * (1 + 1e-9);

        // From a current that is late towards one that may not be: where it stops, by halving.
        double Edge(double late, double other)
        {
            if (IsLate(other))
            {
                return other;
            }

            for (int i = 0; i < 60; i++)
            {
                double middle = (late + other) / 2;
                (late, other) = IsLate(middle) ? (middle, other) : (late, middle);
            }

            return late;
        }
    }
}
