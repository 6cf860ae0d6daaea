using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>Where a core ends: for each exit the spot and how far along its run that is.</summary>
internal readonly record struct Placement(Spot Spot, double Extent);

/// <summary>Turns a core with its ends, or part of one run, into a <see cref="Candidate"/>.</summary>
internal sealed class CandidateMaker(RunMap map, Clearances clearances, ReversingOptions options)
{
    /// <summary>The candidate, or null when every border is tied to every other, so that it could never swap anything.</summary>
    internal Candidate? FromCore(Core core, CoreDrives drives, IReadOnlyList<Placement> ends)
    {
        ImmutableArray<Border> borders =
        [
            .. core.Exits.Select((exit, i) => new Border(ends[i].Spot, exit.Side == 0, core.ExitsLeft[i])),
        ];
        IEnumerable<RunStretch> stubs = core.Exits.Select((exit, i) => exit.Side == 0
            ? new RunStretch(exit.Run, 0, ends[i].Spot.Position)
            : new RunStretch(exit.Run, ends[i].Spot.Position, map.Runs[exit.Run].Length));
        double tail = core.Exits.Select((_, i) => drives.ToEndOfTrack[i]).DefaultIfEmpty().Max();
        IEnumerable<RunStretch> whole = core.Runs.Select(run => new RunStretch(run, 0, map.Runs[run].Length));
        return Finish(
            new(borders, [.. whole, .. stubs], core.Junctions, core.Roads, tail) { PassingRoads = PassingRoads(core) },
            (i, j) => drives.Between[i][j] is { Metres: < double.PositiveInfinity } drive
                ? drive with { Metres = drive.Metres + ends[i].Extent + ends[j].Extent }
                : Drive.None);
    }

    /// <summary>Rings of runs inside, and runs between two different turnouts inside that are left out: a train could wait on either.</summary>
    private int PassingRoads(Core core) => core.Runs.Count(run => map.Runs[run].IsThrough) - core.Junctions.Length + 1
        + core.Exits.GroupBy(exit => exit.Run, exit => map.PortAt(exit)!.Value.Junction).Count(run => run.Distinct().Count() == 2);

    /// <summary>Part of one run, from one spot to another.</summary>
    internal Candidate? FromRun(Spot from, Spot to) => Finish(
        new([new(from, false, true), new(to, true, true)], [new(from.Run, from.Position, to.Position)], [], 0, 0),
        (_, _) => new(to.Position - from.Position, IsMainWay(new(from.Run, 0)) && IsMainWay(new(from.Run, 1))));

    private bool IsMainWay(Tip tip) => map.PortAt(tip) is not { } port || !map.Junctions[port.Junction].IsDiverging(port.Index);

    private Candidate? Finish(Draft draft, Func<int, int, Drive> inside)
    {
        if (!CanSwap(draft.Borders.Length, [.. Pairs(draft.Borders.Length, inside, (_, _) => double.PositiveInfinity)]))
        {
            return null;
        }

        OutwardDrives[] outward = [.. draft.Borders.Select((_, i) => OutwardDrives.From(map, draft.Borders, i, clearances))];
        ImmutableArray<BorderPair> pairs =
            [.. Pairs(draft.Borders.Length, inside, (i, j) => outward[i].Arrivals.GetValueOrDefault(j, double.PositiveInfinity))];
        if (!CanSwap(draft.Borders.Length, pairs))
        {
            return null;
        }

        return new()
        {
            Index = 0,
            Junctions = draft.Junctions,
            Stretches = draft.Stretches,
            Borders = draft.Borders,
            Pairs = pairs,
            Halo = [.. outward.SelectMany(one => one.Halo)],
            HaloJunctions = [.. outward.SelectMany(one => one.Junctions).Distinct().Order()],
            ExtraRoads = Math.Max(0, draft.Roads - options.DeadEndRoads),
            PassingRoads = draft.PassingRoads,
            Gaps = 2 * draft.Borders.Count(border => !border.Spot.Exists),
            Penalty = CandidatePenalty.Of(map, clearances, draft),
            TailMetres = draft.TailMetres,
        };
    }

    private static IEnumerable<BorderPair> Pairs(int count, Func<int, int, Drive> inside, Func<int, int, double> outside) =>
        from i in Enumerable.Range(0, count)
        from j in Enumerable.Range(i + 1, count - i - 1)
        let within = inside(i, j)
        let around = outside(i, j)
        where within.Metres < double.PositiveInfinity || around < double.PositiveInfinity
        select new BorderPair(i, j, within.Metres, around, within.MainWay);

    private bool CanSwap(int borders, ImmutableArray<BorderPair> pairs)
    {
        SignUnionWorkspace tied = new(borders);
        foreach (BorderPair pair in pairs.Where(pair => pair.IsTied(clearances.Required)))
        {
            _ = tied.Join(pair.First, pair.Second, differ: false);
        }

        return Enumerable.Range(0, borders).Select(border => tied.Find(border).Root).Distinct().Count() > 1;
    }
}

/// <summary>A candidate in the making.</summary>
internal sealed record Draft(
    ImmutableArray<Border> Borders, ImmutableArray<RunStretch> Stretches, ImmutableArray<int> Junctions, int Roads, double TailMetres)
{
    /// <summary>Rings of runs inside.</summary>
    public int PassingRoads { get; init; }
}
