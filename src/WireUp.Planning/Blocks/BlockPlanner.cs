using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;

namespace WireUp.Planning.Blocks;

/// <summary>The gaps of the blocks that somebody asked for.</summary>
/// <param name="Gaps">The gaps, in the order of the track.</param>
/// <param name="Blocks">How many blocks they make.</param>
internal sealed record BlockPlan(ImmutableArray<Gap> Gaps, int Blocks)
{
    /// <summary>One proposal for each gap.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>What could not be had.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];
}

/// <summary>
/// Gaps running track into blocks for detection or for cabs: on each run between turnouts as many as there is room for. The rail that
/// carries leg A is cut, the other runs through as the common return, unless both are asked for.
/// </summary>
internal static class BlockPlanner
{
    private const string Rule = "A block is no shorter than the longest train, or than asked, and ends in plain track clear of turnouts; for detection one rail is cut. Common practice, no published source.";

    /// <summary>Plans the blocks of a layout whose districts have their gaps.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="wish">What is asked for.</param>
    /// <param name="swapAt">Whether leg A goes to the right rail at a place, seen from end a to end b of its section.</param>
    public static BlockPlan Plan(Layout layout, BlockWish wish, Func<TrackPlace, bool> swapAt)
    {
        TrackMap map = TrackMap.Of(layout);
        Boundaries boundaries = new(layout, new());
        int shortest = (int)Math.Ceiling(((wish.Length ?? layout.LongestTrain).Meters * 1000) - 1e-6);
        List<Gap> gaps = [];
        List<string> remains = [];
        int blocks = 0;
        foreach (TrackRun run in TrackRuns.Of(map).Where(run => IsWanted(map, run, wish)))
        {
            ImmutableArray<Boundary> places = boundaries.Of(run, int.MaxValue, _ => null);
            (bool start, bool end) = (run.FromTurnout is null, run.ToTurnout is null);
            ImmutableArray<int> chosen = BlockDivision.Of(
                new([.. places.Select(place => (Millimetres(place.AlongMetres), place.Cost))], Millimetres(run.LengthMetres), start, end), shortest);
            if (chosen.IsEmpty && !(start && end))
            {
                remains.AddRange(wish.Track.Where(piece => run.Parts.Any(part => part.Spot.Piece == piece)).Take(1)
                    .Select(piece => FormattableString.Invariant($"No block fits on '{piece}': between its turnouts there is not {shortest / 1000.0:0.##} m with places for gaps at its ends.")));
                continue;
            }

            gaps.AddRange(chosen.Select(i => GapAt(layout, run, places[i], wish, swapAt)));
            blocks += chosen.Length - 1 + (start ? 1 : 0) + (end ? 1 : 0);
        }

        return new([.. gaps], blocks) { Proposals = [.. gaps.Select(Words)], Remains = [.. remains] };
    }

    /// <summary>Named track, else all running track: runs that lead on at both ends.</summary>
    private static bool IsWanted(TrackMap map, TrackRun run, BlockWish wish) => !run.Parts.IsEmpty && !run.IsRing && (wish.Track.IsEmpty
        ? LeadsOn(map, run.FromTurnout, run.Parts[0], forward: false) && LeadsOn(map, run.ToTurnout, run.Parts[^1], forward: true)
        : run.Parts.Any(part => wish.Track.Contains(part.Spot.Piece)));

    /// <summary>Whether a run goes on there: at a turnout, or behind a cut.</summary>
    private static bool LeadsOn(TrackMap map, int? turnout, RunPart part, bool forward)
    {
        TrackEnd? end = TrackRuns.OtherEnd(part.Spot, part.Forward == forward);
        return turnout is not null || (end is { } at ? map.Index.Opposite(at) is not null : part.Spot.IsPlain);
    }

    /// <summary>The gap in the rail of leg A, or in both.</summary>
    private static Gap GapAt(Layout layout, TrackRun run, Boundary boundary, BlockWish wish, Func<TrackPlace, bool> swapAt)
    {
        if (layout.Control == ControlSystem.ThreeRail)
        {
            return new(boundary.Place, RailSet.Left);
        }

        if (wish.BothRails)
        {
            return new(boundary.Place, RailSet.Both);
        }

        TrackSpot spot = run.Parts.Select(part => part.Spot).First(each => boundary.Place switch
        {
            GapPlace.InSection { Place: var place } => each.Piece == place.Section && each.FromMetres <= place.MetresFromA && place.MetresFromA <= each.ToMetres,
            GapPlace.InJoint { End: var end } => each.Ends.Contains(end),
            _ => false,
        });

        // At its end a one looks out against the direction in which left and right count along a section.
        bool isRight = swapAt(new(spot.Piece, (spot.FromMetres + spot.ToMetres) / 2)) != (boundary.Place is GapPlace.InJoint { End.Name: "a" });
        return new(boundary.Place, isRight ? RailSet.Right : RailSet.Left);
    }

    private static Proposal Words(Gap gap, int number) => new(
        FormattableString.Invariant($"block-gap-{number + 1}"),
        ProposalKind.Gap,
        gap.At.ToString()!,
        gap.Rails == RailSet.Both
            ? "Two blocks that were asked for meet here, or a block and the turnouts beyond it: both rails are cut."
            : "Two blocks that were asked for meet here, or a block and the turnouts beyond it: the rail of leg A is cut, the other runs through. Feed the cut rail of each block by itself.",
        Rule,
        Cost: gap.Rails == RailSet.Both ? 2 : 1);

    private static int Millimetres(double metres) => (int)Math.Round(metres * 1000);
}
