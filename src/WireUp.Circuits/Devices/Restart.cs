using System.Collections.Immutable;

namespace WireUp.Circuits.Devices;

/// <summary>A locomotive as power comes back to it: a capacitor that charges, or a short draw of current, and what it draws standing.</summary>
/// <param name="StandingAmps">What it draws while it stands, ampere.</param>
/// <param name="Charging">Its capacitor, or null where nothing is stated of one.</param>
public readonly record struct WakingLocomotive(double StandingAmps, ChargingGroup? Charging);

/// <summary>Whether a breaker that closes again stays closed, locomotives standing behind it with empty capacitors.</summary>
/// <param name="Curve">The breaker.</param>
/// <param name="Volts">Volts of the source.</param>
/// <param name="CommonOhms">Resistance of source, breaker and wires, Ω.</param>
public sealed record Restart(TripCurve Curve, double Volts, double CommonOhms)
{
    /// <summary>What a locomotive without a stated capacitor draws besides when it wakes, ampere.</summary>
    public required double PulseAmps { get; init; }

    /// <summary>For how long, seconds.</summary>
    public required double PulseSeconds { get; init; }

    /// <summary>Current that flows at all events, ampere: lamps, locomotives of other kinds.</summary>
    public double SteadyAmps { get; init; }

    /// <summary>Time after closing at which the breaker opens again, seconds, or null where it stays closed.</summary>
    /// <param name="locomotives">The locomotives behind it.</param>
    /// <remarks>
    /// The current only falls, so at any time t it has been at least I(t) all along, and the breaker opens as soon as its time at I(t) is
    /// t or less. Starting from its time at I(0) and taking its time at the current then, again and again, climbs to the first such t.
    /// </remarks>
    public double? OpensAfterSeconds(ImmutableArray<WakingLocomotive> locomotives)
    {
        InrushCurrent charging = Charging(locomotives);
        double steady = SteadyAmps + locomotives.Sum(locomotive => locomotive.StandingAmps);
        double pulse = PulseAmps * locomotives.Count(locomotive => locomotive.Charging is null);

        double time = 0;
        for (int i = 0; i < 10_000; i++)
        {
            double next = Curve.SecondsAt(steady + charging.AmpsAt(time) + (time < PulseSeconds ? pulse : 0));
            if (double.IsInfinity(next))
            {
                return null;
            }

            if (next <= time * (1 + 1e-9))
            {
                return time;
            }

            time = next;
        }

        return time;
    }

    /// <summary>Current at the moment power comes back, ampere.</summary>
    /// <param name="locomotives">The locomotives.</param>
    public double FirstAmps(ImmutableArray<WakingLocomotive> locomotives) => SteadyAmps + Charging(locomotives).AmpsAt(0)
        + locomotives.Sum(locomotive => locomotive.StandingAmps + (locomotive.Charging is null ? PulseAmps : 0));

    /// <summary>How many locomotives, taken in order, can stand behind the breaker so that it stays closed; the limit where there is no end.</summary>
    /// <param name="inOrder">The locomotive of each number, from 0.</param>
    /// <param name="limit">How many are tried at most.</param>
    public int Most(Func<int, WakingLocomotive> inOrder, int limit)
    {
        int fits = 0, fails = limit + 1;
        while (fails - fits > 1)
        {
            int middle = (fits + fails) / 2;
            (fits, fails) = OpensAfterSeconds([.. Enumerable.Range(0, middle).Select(inOrder)]) is null ? (middle, fails) : (fits, middle);
        }

        return fits;
    }

    private InrushCurrent Charging(ImmutableArray<WakingLocomotive> locomotives) => new(Volts, CommonOhms, locomotives
        .Where(locomotive => locomotive.Charging is not null)
        .GroupBy(locomotive => locomotive.Charging!.Value)
        .Select(kind => kind.Key with { Count = kind.Count() }));
}
