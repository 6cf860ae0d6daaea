using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Documents;

/// <summary>A point of a bus where wires are joined, with the pairs that meet there by the names of the schedule.</summary>
/// <param name="Bus">The bus.</param>
/// <param name="Point">The point, or the booster's name.</param>
/// <param name="HasStrip">Whether a terminal strip for each leg goes there; else wires are tapped or joined.</param>
/// <param name="Pairs">First what arrives from the booster, then lines of bus that leave, then feeders.</param>
internal sealed record BusMeeting(Bus Bus, string Point, bool HasStrip, ImmutableArray<MeetingPair> Pairs);

/// <summary>A pair of wires at a point of a bus.</summary>
/// <param name="Name">Its name without the leg: <c>east:3</c>, <c>f12</c>; empty for the pair from the breaker.</param>
/// <param name="Way">Where it comes from or goes.</param>
/// <param name="OtherEnd">The point, breaker or rail at which that way ends.</param>
/// <param name="Wire">Its size; null for the pair from the breaker, which the plan does not size.</param>
internal sealed record MeetingPair(string Name, PairWay Way, string OtherEnd, Wire? Wire);

/// <summary>Where a pair comes from or goes.</summary>
internal enum PairWay
{
    /// <summary>From the breaker beside the booster.</summary>
    Breaker,

    /// <summary>Bus, from the side of the booster.</summary>
    Arrives,

    /// <summary>Bus, on to the next point.</summary>
    Leaves,

    /// <summary>To the rails.</summary>
    Feeder,
}

/// <summary>Finds where the wires of each bus are joined.</summary>
internal static class BusMeetings
{
    /// <summary>Every point where two pairs or more meet; buses in their order.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="schedule">Its schedule.</param>
    /// <param name="before">The layout as built, or null.</param>
    public static ImmutableArray<BusMeeting> Of(Layout layout, Schedule schedule, Layout? before)
    {
        HashSet<(string, string)> strips = [.. TerminalStrips.Added(Wiring.None, layout.Wiring).Select(strip => (strip.District, strip.Point))];
        Dictionary<string, string> rails = schedule.Wires.Where(wire => wire.Kind == WireKind.Feeder && wire.Leg == "A").ToDictionary(wire => wire.Id, wire => wire.To);
        BusLines lines = new(before);
        return [.. layout.Wiring.Buses.SelectMany(bus => Of(bus, lines.Of(bus), layout.Wiring, rails, strips))];
    }

    private static IEnumerable<BusMeeting> Of(
        Bus bus, ImmutableArray<BusLine> lines, Wiring wiring, Dictionary<string, string> rails, HashSet<(string, string)> strips)
    {
        string? booster = wiring.Districts.FirstOrDefault(district => district.Name == bus.District)?.Booster;
        ILookup<string, MeetingPair> arriving = lines.SelectMany(Arrivals).ToLookup(pair => pair.Point, pair => pair.Pair);
        ILookup<string, MeetingPair> leaving = lines.SelectMany(Departures).ToLookup(pair => pair.Point, pair => pair.Pair);
        ILookup<string, MeetingPair> feeders = wiring.Feeders.Where(feeder => feeder.District == bus.District)
            .ToLookup(feeder => feeder.Tap, feeder => new MeetingPair(feeder.Name, PairWay.Feeder, rails[$"{feeder.Name}/A"], feeder.Wire));
        foreach (string point in bus.Runs.SelectMany(run => new[] { run.From, run.To }).Distinct())
        {
            ImmutableArray<MeetingPair> pairs = [.. arriving[point], .. leaving[point], .. feeders[point]];
            if (point == booster) pairs = pairs.Insert(0, new(string.Empty, PairWay.Breaker, $"breaker of {bus.District}", null));
            if (pairs.Length > 1) yield return new(bus, point, strips.Contains((bus.District, point)), pairs);
        }
    }

    private static IEnumerable<(string Point, MeetingPair Pair)> Arrivals(BusLine line) =>
        line.Runs.Select(run => (run.To, new MeetingPair(line.Name, PairWay.Arrives, run.From, run.Wire)));

    private static IEnumerable<(string Point, MeetingPair Pair)> Departures(BusLine line) =>
        line.Runs.Select(run => (run.From, new MeetingPair(line.Name, PairWay.Leaves, run.To, run.Wire)));
}
