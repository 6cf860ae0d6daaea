using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>Says in words what is proposed, why, and what remains.</summary>
internal sealed class ReversingWords(
    Layout layout, ImmutableArray<ReversingSection> sections, ImmutableArray<GapPlace> existingBorders, Clearances asked)
{
    private const string Rule =
        "A walk over the track that comes back with left and right rail exchanged joins rail A to rail B: part of it must be fed "
        + "through a device that swaps polarity, both rails gapped at every end, longer than the longest train. "
        + "Common practice, no published standard.";

    private const string BridgeRule =
        "A bridge that turns in a pit is a reversing section by itself, unless a split ring exchanges its rails half way round or the roads feed "
        + "it. Common practice, no published standard.";

    /// <summary>One proposal for the section and one for each gap to be cut.</summary>
    internal IEnumerable<Proposal> Proposals(ReversingSection section)
    {
        if (section.IsBridge)
        {
            yield return OfBridge(section);
            yield break;
        }

        yield return new(section.Name, ProposalKind.ReversingSection, Where(section), Reason(section), Rule, Cost: 20)
        {
            Working = [.. Working(section)],
            Alternatives = section.NextBest is { } next ? [next] : [],
        };
        foreach ((GapPlace at, int number) in section.Borders.Where(border => !border.Exists).Select((border, i) => (border.At, i + 1)))
        {
            yield return new(
                $"{section.Name}-gap-{number}",
                ProposalKind.Gap,
                at.ToString()!,
                $"Both rails are parted here, opposite each other: the border of reversing section '{section.Name}'.",
                "Every border of a reversing section has a gap in both rails, clear of frogs by a wheel base. "
                    + "Common practice, no published standard.",
                Cost: 2);
        }
    }

    private static Proposal OfBridge(ReversingSection section)
    {
        TrackStretch bridge = section.Stretches[0];
        TrackPlace middle = new(bridge.Section, bridge.ToMetres / 2);
        return new(
            section.Name,
            ProposalKind.ReversingSection,
            middle.ToString(),
            $"The bridge of '{bridge.Section}' meets each road either way round, its rails exchanged by half a turn: feed it at {middle} through a device that "
                + $"swaps polarity, and no other track from it. It is {Metres(section.Drivable.Meters)} long; no wheel of what turns on it may stand on a road.",
            BridgeRule,
            Cost: 20)
        {
            Working = [$"no gaps to cut: the rails end at the pit's edge; longest that turns = {Metres(section.Drivable.Meters)}"],
        };
    }

    /// <summary>What remains of a group of conflicts that the longest train has no section for.</summary>
    internal IEnumerable<string> Remains(GroupResult group, RunMap map, ImmutableArray<ReversingSection> found)
    {
        if (group.Choice is null)
        {
            yield return $"No reversing section fits around {Names(group, map)}, however short the train: no place considered is clear of "
                + "frogs, of pieces marked against gaps and of what is already wired, and cures the conflict.";
        }
        else if (group.Clearances.Train < asked.Train - CellMap.SamePlaceMetres)
        {
            string change = string.Join("; ", found.Select(section =>
                $"'{section.Name}' is {Metres(section.Drivable.Meters)} long and would have to be {Metres(asked.Required)}"));
            yield return $"The longest train ({Metres(asked.Train)}) fits no reversing section around {Names(group, map)}; the sections "
                + $"proposed serve trains up to {Metres(group.Clearances.Train)}. To serve the longest: {change}.";
        }

        if (!group.Proved)
        {
            yield return $"The search for sections around {Names(group, map)} stopped at its budget, without an answer for the longest "
                + "train.";
        }
    }

    /// <summary>What the rails themselves say of the plan, and feeders that contradict it.</summary>
    internal IEnumerable<string> Proof(ImmutableArray<string> wrongFeeders)
    {
        foreach (string feeder in wrongFeeders)
        {
            yield return WrongWay(feeder);
        }

        ImmutableArray<PieceId> shorted = ReversingProof.Shorted(layout, Gaps(sections));
        if (!shorted.IsEmpty)
        {
            yield return $"Left and right rail are still one conductor in {List(shorted)}.";
        }
    }

    /// <summary>What remains while a feeder is the wrong way round.</summary>
    internal static string WrongWay(string feeder) => $"Feeder '{feeder}' is the wrong way round against the others: swap its two wires.";

    /// <summary>What comes next after a choice, and by what it loses.</summary>
    /// <param name="taken">The choice.</param>
    /// <param name="next">The best choice without the track of one of its sections, or null.</param>
    /// <param name="map">The track they lie on.</param>
    internal static string OfNextBest(SectionChoice taken, SectionChoice? next, RunMap map)
    {
        if (next is null)
        {
            return "No other track can take its place: every other choice considered leaves a conflict or has no room for the longest train.";
        }

        string sections = string.Join("; ", next.Chosen.Where(candidate => !taken.Chosen.Any(candidate.IsSameTrack)).Select(candidate => Describe(candidate, map)));
        string other = sections.Length > 0 ? $"the next best choice is {sections}" : "the next best choice does with the other sections alone";
        ChoiceLevel? lost = Enum.GetValues<ChoiceLevel>().Cast<ChoiceLevel?>().FirstOrDefault(level => next[level!.Value].Value > taken[level.Value].Value);
        return $"Without the track of this section {other}: " + (lost is { } at
            ? $"it loses by {Unit(at)}, {Number(next[at])} against {Number(taken[at])}."
            : "it is as good in all that counts, and this one was found first.");

        static string Number(LevelValue value) => value.Value.ToString("0.##", CultureInfo.InvariantCulture);
    }

    private static string Describe(Candidate candidate, RunMap map)
    {
        string inside = candidate.Junctions.IsEmpty ? "plain track" : List(candidate.Junctions.Select(junction => map.Junctions[junction].Id).Order());
        return candidate.Borders.IsEmpty
            ? $"a section that holds {inside} to the ends of the track"
            : $"a section that holds {inside} between {string.Join(", ", candidate.Borders.Select(border => border.Spot.Place.ToString()))}";
    }

    private static string Unit(ChoiceLevel level) => level switch
    {
        ChoiceLevel.WrongFeeders => "existing feeders the wrong way round",
        ChoiceLevel.Sections => "the number of sections",
        ChoiceLevel.Roads => "dead-end roads inside beyond two",
        ChoiceLevel.Gaps => "rails to cut",
        _ => "points away from good practice",
    };

    private string Reason(ReversingSection section)
    {
        // A section of turnouts only has no place of plain track from which to walk.
        TrackStretch first = section.Stretches.OrderByDescending(stretch => stretch.ToMetres - stretch.FromMetres).FirstOrDefault();
        TrackPlace at = new(first.Section, (first.FromMetres + first.ToMetres) / 2);
        ImmutableArray<PieceId> walk = section.Stretches.IsEmpty ? [] : ReversingProof.Walk(layout, Gaps(sections.Remove(section)), at);
        string shorts = walk.IsEmpty
            ? "With its neighbours it parts a walk that comes back with the rails exchanged."
            : $"Without it the left rail of '{at.Section}' comes back as its right rail: {string.Join(" → ", walk)}.";
        string room = section.TurnsByReversing
            ? $" Trains turn by reversing inside, where they have {Metres(section.Drivable.Meters)}."
            : $" A train has {Metres(section.Drivable.Meters)} inside, the longest is {Metres(asked.Train)}.";
        string move = section.FeedersToMove.IsEmpty ? "" : $" Move {List(section.FeedersToMove)} to its device.";
        double inside = section.Stretches.Sum(stretch => stretch.ToMetres - stretch.FromMetres);
        string alone = inside > 2 * asked.Train
            ? $" It holds {Metres(inside)} of track, room for a second train: let only one move in it or pass its gaps at a time."
            : " One train at a time may pass its gaps.";
        return shorts + room + alone + move + (section.Instead is { } instead ? $" {instead}" : "");
    }

    private IEnumerable<string> Working(ReversingSection section)
    {
        double margin = asked.Required / asked.Train;
        yield return string.Create(
            CultureInfo.InvariantCulture, $"needed = longest train × margin = {asked.Train:F2} m × {margin:F2} = {asked.Required:F2} m");
        yield return section.TurnsByReversing
            ? $"no drive leads from gap to gap; longest road inside = {Metres(section.Drivable.Meters)}"
            : $"shortest drive between gaps of opposite polarity = {Metres(section.Drivable.Meters)}";
    }

    private IEnumerable<GapPlace> Gaps(IEnumerable<ReversingSection> some) =>
        some.SelectMany(section => section.Borders).Select(border => border.At).Concat(existingBorders);

    private static string Where(ReversingSection section) => string.Join(", ", section.Borders.Select(border => border.At.ToString()));

    private static string Names(GroupResult group, RunMap map) =>
        List(TurnoutSets.TurnoutsOf(map, group.Blocks.SelectMany(block => block.Runs))
            .Select(junction => map.Junctions[junction].Id));

    private static string List<T>(IEnumerable<T> names) => string.Join(", ", names.Select(name => $"'{name}'"));

    private static string Metres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres:F2} m");
}
