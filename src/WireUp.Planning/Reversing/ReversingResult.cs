using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Districts;

namespace WireUp.Planning.Reversing;

/// <summary>Turns what the search found into a plan in the words of the layout, and proves it on the rails.</summary>
internal sealed class ReversingResult(RunMap map, BuiltWiring built, ReversingBridges bridges, Clearances asked)
{
    /// <summary>Deterministic seconds for the fewest borders of each 2-connected part of the track.</summary>
    private const double BorderBudget = 0.5;

    private readonly Layout _layout = map.Index.Layout;

    /// <summary>All plain track and every moving bridge as one phase.</summary>
    internal static IEnumerable<PhaseStretch> Unswapped(Layout layout) => layout.Track
        .Where(piece => piece.PlacesMetres is not null)
        .OrderBy(piece => piece.Id)
        .Select(piece => new PhaseStretch(new(piece.Id, 0, piece.PlacesMetres!.Value), Swap: false));

    internal ReversingPlan Of(ImmutableArray<GroupResult> groups)
    {
        var chosen = groups
            .SelectMany(group => (group.Choice?.Chosen ?? []).Select(candidate => (Candidate: candidate, Group: group)))
            .OrderBy(pair => FirstName(pair.Candidate))
            .ToImmutableArray();
        ImmutableArray<string> names = [.. FreeNames().Take(chosen.Length + bridges.Unfed.Length)];
        PhaseColouring phases = new(map, built, [.. chosen.Select(pair => (pair.Candidate, pair.Group.Clearances.Required))]);
        ImmutableArray<PhaseStretch> stretches =
        [
            .. phases.Stretches(),
            .. bridges.All.Select(bridge => new PhaseStretch(ReversingBridges.StretchOf(bridge), Swap: false)),
            .. bridges.WithRoads(map, phases.LeftIsB),
        ];
        ImmutableArray<ReversingSection> sections =
        [
            .. chosen.Select((pair, i) => Section(names[i], pair.Candidate, phases) with
            {
                Instead = Instead(pair.Group),
                NextBest = pair.Group.NextBest.FirstOrDefault(next => next.Without == pair.Candidate) is { } next
                    ? ReversingWords.OfNextBest(pair.Group.Choice!, next.Choice, map)
                    : null,
            }),
            .. bridges.Unfed.Select((bridge, i) => Bridge(names[chosen.Length + i], bridge)),
        ];
        ReversingWords words = new(_layout, sections, [.. built.Borders.Select(border => border.Place)], asked);
        return new(sections, stretches)
        {
            WrongFeeders = phases.WrongFeeders,
            Proposals = [.. sections.SelectMany(words.Proposals)],
            Objectives =
            [
                Total("reversing-sections", groups, ChoiceLevel.Sections, bridges.Unfed.Length),
                Total("reversing-gaps", groups, ChoiceLevel.Gaps),
                .. Borders(groups, sections.Take(chosen.Length)),
            ],
            Remains =
            [
                .. groups.SelectMany(group => words.Remains(group, map, [.. sections.Take(chosen.Length).Where((_, i) => chosen[i].Group == group)])),
                .. words.Proof(phases.WrongFeeders),
            ],
        };
    }

    private ReversingSection Section(string name, Candidate candidate, PhaseColouring phases)
    {
        BorderPair[] driven = [.. candidate.Pairs.Where(pair => pair.Inside < double.PositiveInfinity && phases.Swaps(candidate, pair))];
        return new(
            name,
            [.. candidate.Junctions.Select(junction => map.Junctions[junction].Id).Order()],
            [.. candidate.Stretches.SelectMany(Track).Concat(BridgesAt(candidate)).OrderBy(stretch => stretch.Section).ThenBy(stretch => stretch.FromMetres)],
            [.. candidate.Borders.Select(border => new ReversingBorder(border.Spot.Place, border.Spot.Exists))])
        {
            Drivable = Length.FromMeters(Math.Round(driven.Length > 0 ? driven.Min(pair => pair.Inside) : candidate.TailMetres, 4)),
            TurnsByReversing = driven.Length == 0,
            FeedersToMove =
                [.. built.Feeders.Where(feeder => candidate.Stretches.Any(feeder.At.Spot.Overlaps)).Select(feeder => feeder.Feeder.Name)],
        };
    }

    private string? Instead(GroupResult group)
    {
        if (group is not { Instead: { } single, Choice: { } choice })
        {
            return null;
        }

        string inside = string.Join(", ", single.Junctions.Select(junction => $"'{map.Junctions[junction].Id}'"));
        string waiting = single.PassingRoads > 0 ? "trains pass and wait in it" : "trains stand on its dead-end roads";
        return $"One section that holds {inside} and the track between them would do in place of these {choice.Chosen.Length}, with one device; it is not "
            + $"proposed because {waiting}, and it would swap under them for every train that comes or goes.";
    }

    /// <summary>A bridge by itself: no gap is cut, and what turns on it is as long as it is at most.</summary>
    private static ReversingSection Bridge(string name, Piece bridge) => new(name, [], [ReversingBridges.StretchOf(bridge)], [])
    {
        Drivable = Length.FromMeters(bridge.PlacesMetres!.Value),
        TurnsByReversing = false,
        IsBridge = true,
    };

    private IEnumerable<TrackStretch> BridgesAt(Candidate candidate) => candidate.Junctions
        .Select(junction => map.Junctions[junction].Piece)
        .Where(piece => MovingBridges.IsFedByItself(piece, _layout.Control))
        .Select(ReversingBridges.StretchOf);

    private IEnumerable<TrackStretch> Track(RunStretch stretch)
    {
        foreach (RunPiece piece in map.Runs[stretch.Run].Pieces.Where(piece => piece.TakesFeeders))
        {
            RunStretch common = new(stretch.Run, Math.Max(stretch.From, piece.Start), Math.Min(stretch.To, piece.End));
            if (common.Length > CellMap.SamePlaceMetres)
            {
                (double one, double other) = (piece.MetresFromA(common.From), piece.MetresFromA(common.To));
                yield return new(piece.Piece, Math.Min(one, other), Math.Max(one, other));
            }
        }
    }

    private PieceId FirstName(Candidate candidate) => candidate.Stretches
        .SelectMany(Track)
        .Select(stretch => stretch.Section)
        .Concat(candidate.Junctions.Select(junction => map.Junctions[junction].Id))
        .Min();

    private IEnumerable<string> FreeNames()
    {
        HashSet<string> taken = [.. _layout.Wiring.Districts.Select(district => district.Name)];
        return Enumerable.Range(1, int.MaxValue - 1).Select(number => $"turn-{number}").Where(name => !taken.Contains(name));
    }

    /// <summary>New borders against the fewest that any sections can have, whatever their shape; nothing where some conflict remains.</summary>
    private IEnumerable<Objective> Borders(ImmutableArray<GroupResult> groups, IEnumerable<ReversingSection> sections) =>
        groups.IsEmpty || groups.Any(group => group.Choice is null)
            ? []
            : [new("reversing-borders", sections.Sum(section => section.Borders.Count(border => !border.Exists)), FrustrationIndex.FewestBorders(map.Index, BorderBudget))];

    private static Objective Total(string name, ImmutableArray<GroupResult> groups, ChoiceLevel level, int always = 0)
    {
        LevelValue[] values = [.. groups.Select(group => group.Choice).OfType<SectionChoice>().Select(choice => choice[level])];
        return new(name, always + values.Sum(value => value.Value), always + values.Sum(value => value.Bound));
    }
}
