using WireUp.Circuits;
using WireUp.Circuits.Devices;

namespace WireUp.Documents.Book;

/// <summary>The coin test of one district, in words that follow what was worked out.</summary>
/// <param name="Power">What its circuit came to.</param>
/// <param name="Protection">What its breaker does in time.</param>
internal sealed record CoinTest(DistrictPower Power, DistrictProtection Protection)
{
    /// <summary>What must come out; half a second is common practice, no published source.</summary>
    public const string Wanted = "trips within 0.5 s";

    private const double WantedSeconds = 0.5;

    /// <summary>Whether the breaker opens soon enough with a coin at the worst place, and so everywhere.</summary>
    public bool TripsInTime => Power.CoinTestPasses && Protection.Clears is { } time && time.Seconds <= WantedSeconds;

    /// <summary>What the breaker does, in a few words.</summary>
    public string Verdict => TripsInTime ? Wanted : DoesTrip ? $"TRIPS ONLY AFTER {Figure.Time(Protection.Clears!.Value)}" : "DOES NOT TRIP";

    /// <summary>What makes it trip in time.</summary>
    public string Remedy => DoesTrip ? "a faster setting" : "a feeder near there, or thicker wire from the booster,";

    /// <summary>A box to tick, or none where the test cannot be passed.</summary>
    public string Box => TripsInTime ? string.Empty : Row.NoBox;

    private bool DoesTrip => Power.CoinTestPasses && Protection.Clears is not null;

    /// <summary>What to do and what to expect before trains run.</summary>
    public string AtSetUp(BookFacts facts)
    {
        string place = facts.Place(Power.LowestFault.At);
        if (TripsInTime)
        {
            return Protection.BoosterFirst is null
                ? $"coin at {place}; its breaker opens at once, all others stay closed."
                : $"coin at {place}; its breaker opens at once, or booster {Power.Booster} before it, and all that it feeds is dead (see “Findings”).";
        }

        return DoesTrip
            ? $"leave it off, and lay no coin. At {place} its breaker would let a short flow for {Figure.Time(Protection.Clears!.Value)}, and half a second at most is wanted: set it faster first."
            : $"leave it off, and lay no coin. At {place} a short draws {Figure.Amps(Power.LowestFault.FaultCurrent)}, and its breaker opens from {Figure.Amps(Power.Trip)}: "
                + "the short would stay fed and heat all that it flows through. A feeder near there first, or thicker wire from the booster (see “Findings”).";
    }
}
