using System.Collections.Immutable;

namespace WireUp.Planning.Reversing;

/// <summary>Decides where along its exits a core may end, and which parts of single runs are long enough.</summary>
internal sealed class CandidateShapes
{
    private const int MostShapes = 8;
    private const int MostExitsForPairs = 6;
    private readonly RunMap _map;
    private readonly Clearances _clearances;
    private readonly CandidateMaker _maker;
    private readonly CutSpots _spots;
    private readonly ILookup<int, (double Position, double Keep)> _obstacles;
    private readonly ImmutableArray<Spot?> _onlyJoint;

    internal CandidateShapes(RunMap map, BuiltWiring built, Clearances clearances, ReversingOptions options)
    {
        _map = map;
        _clearances = clearances;
        _maker = new(map, clearances, options);
        _spots = new(map, clearances);
        _obstacles = built.Borders.Select(border => (border.Run, border.Position, Keep: clearances.Buffer))
            .Concat(options.Rework ? [] : built.Feeders.Select(feeder => (feeder.At.Run, feeder.At.Position, Keep: clearances.RailEnd)))
            .Concat(map.PitEdges().Select(edge => (edge.Run, edge.Position, Keep: clearances.Buffer)))
            .ToLookup(obstacle => obstacle.Run, obstacle => (obstacle.Position, obstacle.Keep));
        _onlyJoint = [.. map.Runs.Select(_spots.OnlyJoint)];
    }

    /// <summary>Whether nothing on a run keeps it from lying wholly inside a section.</summary>
    internal bool CanTakeIn(int run) => !_obstacles.Contains(run);

    /// <summary>The best few ways to end a core.</summary>
    internal IEnumerable<Candidate> Around(Core core)
    {
        if (core.Exits.IsEmpty)
        {
            return [];
        }

        CoreDrives drives = CoreDrives.Of(_map, core);
        List<Candidate> found = [];
        bool anyExisting = core.Exits.Any(exit => _map.Runs[exit.Run].DoubleGaps.Length > 0);
        foreach (Manner manner in anyExisting ? new[] { Manner.Clear, Manner.Tight, Manner.Existing } : [Manner.Clear, Manner.Tight])
        {
            if (NearEnds(core, manner) is { } near)
            {
                found.AddRange(Arrangements(core, drives, near, manner)
                    .DistinctBy(ends => string.Join(' ', ends.Select(end => Math.Round(end.Extent, 5))))
                    .Where(ends => Fits(core, ends))
                    .Select(ends => _maker.FromCore(core, drives, ends))
                    .OfType<Candidate>());
            }
        }

        return Best(found);
    }

    /// <summary>Parts of one run that a whole train fits into: all of it, and a train's length at either end and in the middle.</summary>
    internal IEnumerable<Candidate> Along(Run run)
    {
        List<Candidate> found = [];
        foreach ((double low, double high) in Windows(run, Manner.Clear).Concat(Windows(run, Manner.Tight)))
        {
            double spare = high - low - _clearances.Required;
            Spot?[] starts = spare < 0 ? [] : [_spots.First(run, low, high), _spots.First(run, low + (spare / 2), high)];
            found.AddRange(starts.OfType<Spot>()
                .Select(start => Between(run, start, start.Position + _clearances.Required, high))
                .OfType<Candidate>());
            if (spare >= 0 && _spots.First(run, high, low) is { } end)
            {
                found.AddRange(new[] { Between(run, starts[0], end), Back(run, end, low) }.OfType<Candidate>());
            }
        }

        foreach (Spot from in run.DoubleGaps)
        {
            found.AddRange(run.DoubleGaps.Select(to => Between(run, from, to)).OfType<Candidate>());
        }

        return Best(found);
    }

    private Candidate? Between(Run run, Spot from, double need, double high) => Between(run, from, _spots.First(run, need, high));

    private Candidate? Back(Run run, Spot to, double low) => Between(run, _spots.First(run, to.Position - _clearances.Required, low), to);

    private Candidate? Between(Run run, Spot? from, Spot? to) =>
        from is { } start && to is { } end && end.Position - start.Position >= _clearances.Required - CellMap.SamePlaceMetres
        && _obstacles[run.Index].All(obstacle => obstacle.Position < start.Position || obstacle.Position > end.Position)
            ? _maker.FromRun(start, end)
            : null;

    /// <summary>
    /// The different candidates of one core or run, without those that another beats: no more ties, gaps or points and no more track.
    /// </summary>
    private IEnumerable<Candidate> Best(IEnumerable<Candidate> found)
    {
        List<Candidate> kept = [];
        IEnumerable<Candidate> distinct = found.DistinctBy(candidate => candidate.PlacesKey);
        foreach (Candidate candidate in distinct.OrderBy(candidate => candidate.Gaps).ThenBy(candidate => candidate.Penalty))
        {
            if (kept.Count < MostShapes && !kept.Any(better => Beats(better, candidate)))
            {
                kept.Add(candidate);
            }
        }

        return kept;
    }

    private bool Beats(Candidate better, Candidate candidate) =>
        better.Gaps <= candidate.Gaps
        && better.Penalty <= candidate.Penalty
        && better.Pairs.Where(Tied).All(tie => Ties(candidate, tie.First, tie.Second))
        && better.Stretches.All(stretch => candidate.Stretches.Any(wider => wider.Holds(stretch)));

    private bool Ties(Candidate candidate, int first, int second) =>
        candidate.Pairs.Any(pair => pair.First == first && pair.Second == second && Tied(pair));

    private bool Tied(BorderPair pair) => pair.IsTied(_clearances.Required);

    private Placement[]? NearEnds(Core core, Manner manner)
    {
        Placement?[] ends = [.. core.Exits.Select(exit => End(exit, Keep(exit, manner), manner))];
        return ends.All(end => end is not null) ? [.. ends.Select(end => end!.Value)] : null;
    }

    /// <summary>All ends near; each, and each two, pushed out until they are clear of the others; all pushed out.</summary>
    private IEnumerable<Placement[]> Arrangements(Core core, CoreDrives drives, Placement[] near, Manner manner)
    {
        yield return near;
        int count = core.Exits.Length;
        for (int i = 0; i < count; i++)
        {
            Placement[] one = Push(core, drives, near, i, manner);
            yield return one;
            for (int j = 0; j < count && count <= MostExitsForPairs; j++)
            {
                if (j != i)
                {
                    yield return Push(core, drives, one, j, manner);
                }
            }
        }

        yield return Enumerable.Range(0, count).Aggregate(near, (ends, i) => Push(core, drives, ends, i, manner));
    }

    private Placement[] Push(Core core, CoreDrives drives, Placement[] ends, int exit, Manner manner)
    {
        double need = Enumerable.Range(0, ends.Length)
            .Where(other => other != exit && drives.Between[exit][other].Metres < double.PositiveInfinity)
            .Select(other => _clearances.Required - drives.Between[exit][other].Metres - ends[other].Extent)
            .DefaultIfEmpty(0)
            .Max();
        if (need <= ends[exit].Extent || (End(core.Exits[exit], need, manner) ?? Farthest(core.Exits[exit], manner)) is not { } end
            || end.Extent <= ends[exit].Extent)
        {
            return ends;
        }

        return [.. ends.Select((old, i) => i == exit ? end : old)];
    }

    /// <summary>The last spot out along an exit, or null.</summary>
    private Placement? Farthest(Tip exit, Manner manner)
    {
        Run run = _map.Runs[exit.Run];
        double Position(double along) => exit.Side == 0 ? along : run.Length - along;
        (double near, double far) = (Keep(exit, manner), Limit(exit, manner));
        return near <= far && _spots.First(run, Position(far), Position(near)) is { } spot
            ? new(spot, Math.Abs(spot.Position - Position(0)))
            : null;
    }

    /// <summary>The first spot at least so far out along an exit, or null.</summary>
    private Placement? End(Tip exit, double extent, Manner manner)
    {
        Run run = _map.Runs[exit.Run];
        double Position(double along) => exit.Side == 0 ? along : run.Length - along;
        double limit = Limit(exit, manner);
        Spot? existing = manner == Manner.Existing && run.DoubleGaps.Length > 0
            ? CutSpots.FirstExisting(run, Position(extent <= Keep(exit, manner) ? 0 : extent), Position(Limit(exit, Manner.Existing)))
            : null;
        Spot? spot = existing
            ?? (extent <= limit ? _spots.First(run, Position(extent), Position(limit)) : null)
            ?? (manner != Manner.Clear && IsClear(exit, _onlyJoint[exit.Run]) ? _onlyJoint[exit.Run] : null);
        return spot is { } found ? new(found, Math.Abs(found.Position - Position(0))) : null;
    }

    private bool IsClear(Tip exit, Spot? joint) => joint is { } spot && _obstacles[exit.Run].All(obstacle =>
        exit.Side == 0 ? obstacle.Position - obstacle.Keep >= spot.Position : obstacle.Position + obstacle.Keep <= spot.Position);

    /// <summary>How far out along an exit a section may reach: to the other turnout's clearance or the first obstacle.</summary>
    private double Limit(Tip exit, Manner manner)
    {
        Run run = _map.Runs[exit.Run];
        double limit = run.Length - (manner == Manner.Existing && run.DoubleGaps.Length > 0 ? 0 : Keep(exit.Opposite, manner));
        foreach ((double position, double keep) in _obstacles[exit.Run])
        {
            limit = Math.Min(limit, (exit.Side == 0 ? position : run.Length - position) - keep);
        }

        return limit;
    }

    /// <summary>How far from a tip gaps keep.</summary>
    private double Keep(Tip tip, Manner manner) =>
        manner == Manner.Clear ? _clearances.ClearOf(_map, tip) : _map.PortAt(tip) is null ? 0 : _clearances.Frog;

    /// <summary>Two ends on one run leave track enough between them.</summary>
    private bool Fits(Core core, Placement[] ends) =>
        Enumerable.Range(0, ends.Length - 1).All(i =>
            core.Exits[i].Run != core.Exits[i + 1].Run
            || ends[i].Extent + ends[i + 1].Extent + _clearances.Buffer <= _map.Runs[core.Exits[i].Run].Length);

    private IEnumerable<(double Low, double High)> Windows(Run run, Manner manner)
    {
        double low = Keep(new(run.Index, 0), manner);
        foreach ((double position, double keep) in _obstacles[run.Index].OrderBy(obstacle => obstacle.Position))
        {
            yield return (low, position - keep);
            low = position + keep;
        }

        yield return (low, run.Length - Keep(new(run.Index, 1), manner));
    }

    /// <summary>How near turnouts the ends go.</summary>
    private enum Manner
    {
        /// <summary>Beyond the clearance points.</summary>
        Clear,

        /// <summary>As near as the frogs allow.</summary>
        Tight,

        /// <summary>In gaps that are there already, wherever a run has any.</summary>
        Existing,
    }
}
