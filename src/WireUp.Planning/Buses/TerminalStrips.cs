using System.Collections.Immutable;
using WireUp.Layouts;
using static System.FormattableString;

namespace WireUp.Planning.Buses;

/// <summary>A place where a strip of terminals goes, one for each leg.</summary>
/// <param name="District">The district of its bus.</param>
/// <param name="Point">The point of the bus, or the booster's name.</param>
/// <param name="Ways">How many wires of a leg meet there; at a booster one of them comes from the breaker.</param>
public sealed record TerminalStrip(string District, string Point, int Ways);

/// <summary>
/// Where more wires come together than a tap takes: a strip of terminals for each leg goes there. A feeder on a run that passes is a
/// plain tap; three runs, or four runs and feeders, are not.
/// </summary>
public static class TerminalStrips
{
    private const int RunsThatBranch = 3, MostOnTap = 3;

    /// <summary>The strips at points where the plan adds something, in the order of the buses.</summary>
    /// <param name="before">The wiring that is there.</param>
    /// <param name="after">The same with what the plan adds.</param>
    internal static IEnumerable<Proposal> Of(Wiring before, Wiring after) => New(before, after).Select((meeting, i) => Propose(meeting, i + 1));

    /// <summary>The strips that some wiring needs and other wiring does not, in the order of the buses.</summary>
    /// <param name="before">The wiring that is there.</param>
    /// <param name="after">The same with additions.</param>
    public static ImmutableArray<TerminalStrip> Added(Wiring before, Wiring after) =>
        [.. New(before, after).Select(meeting => new TerminalStrip(meeting.District, meeting.Point, meeting.Ways))];

    private static IEnumerable<Meeting> New(Wiring before, Wiring after)
    {
        HashSet<(string, string)> known = [.. Meetings(before).Where(meeting => meeting.NeedsStrip).Select(meeting => (meeting.District, meeting.Point))];
        return Meetings(after).Where(meeting => meeting.NeedsStrip && !known.Contains((meeting.District, meeting.Point)));
    }

    private sealed record Meeting(string District, string Point, bool IsBooster, ImmutableArray<BusRun> Runs, ImmutableArray<Feeder> Feeders)
    {
        /// <summary>Pairs of wire that meet; at a booster one of them comes from the breaker.</summary>
        public int Ways => Runs.Length + Feeders.Length + (IsBooster ? 1 : 0);

        public bool NeedsStrip => Runs.Length + (IsBooster ? 1 : 0) >= RunsThatBranch || Ways > MostOnTap;
    }

    private static IEnumerable<Meeting> Meetings(Wiring wiring) =>
        from bus in wiring.Buses
        let booster = wiring.Districts.FirstOrDefault(district => district.Name == bus.District)?.Booster
        from point in bus.Runs.SelectMany(run => new[] { run.From, run.To }).Distinct()
        select new Meeting(
            bus.District,
            point,
            point == booster,
            [.. bus.Runs.Where(run => run.From == point || run.To == point)],
            [.. wiring.Feeders.Where(feeder => feeder.District == bus.District && feeder.Tap == point)]);

    private static Proposal Propose(Meeting meeting, int number)
    {
        IEnumerable<string> wires = (meeting.IsBooster ? ["the breaker"] : Enumerable.Empty<string>())
            .Concat(meeting.Runs.Select(run => $"{run.From} > {run.To}"))
            .Concat(meeting.Feeders.Select(feeder => $"feeder {feeder.Name}"));
        return new(
            Invariant($"strip-{number}"),
            ProposalKind.TerminalStrip,
            meeting.Point,
            Invariant($"{meeting.Ways} pairs of wire meet at {meeting.Point} in the bus of district '{meeting.District}' ({string.Join(", ", wires)}): a terminal strip of {meeting.Ways} ways for each leg."),
            "One feeder is tapped from a run that passes; where three runs or more wires than that meet, they are screwed to a terminal strip, where each can be taken off by itself. Common practice, no published source.",
            Prices.TerminalStrip);
    }
}
