using System.Collections.Immutable;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Plans;
using WireUp.Layouts.Reference;
using WireUp.Planning;

namespace WireUp.Documents.Drawings;

/// <summary>
/// Where the runs of one bus lie on the corridors of the benchwork: its taps at the feet of their feeders, its branchings where the ways
/// to their neighbours fit the lengths of the runs best.
/// </summary>
internal sealed class CorridorRoutes
{
    private readonly Bus _bus;
    private readonly CorridorMap _map;
    private readonly Dictionary<string, int> _feet = [];
    private readonly Dictionary<string, PlanPoint> _beside = [];

    /// <summary>Finds where the points of the bus lie.</summary>
    public CorridorRoutes(Bus bus, Layout layout, PlanGeometry geometry)
    {
        _bus = bus;
        (string Point, PlanPoint At, bool IsTap)[] marks =
        [
            .. layout.Wiring.Boosters.Select(booster => (booster.Name, At: BusPoints.Where(booster, layout, geometry), false))
                .Where(mark => mark.At is not null).Select(mark => (mark.Name, mark.At!.Value, false)),
            .. layout.Wiring.Feeders.Where(feeder => feeder.District == bus.District).DistinctBy(feeder => feeder.Tap)
                .Select(feeder => (feeder.Tap, geometry.PointAt(feeder.At).At, true)),
        ];
        _map = CorridorMap.Of(layout.Benchwork, [.. marks.Select(mark => mark.At)]);
        foreach (((string point, PlanPoint at, bool isTap), int? foot) in marks.Zip(_map.Feet))
        {
            if (foot is not { } near || !_feet.TryAdd(point, near)) continue;
            if (!isTap || Polyline.Distance(at, _map.Points[near]) > Constants.FeederToCorridorMost.Value) _beside[point] = at;
        }

        for (int round = 0; round < bus.Runs.Length && PlaceOneBranching(); round++)
        {
        }
    }

    /// <summary>Where a point of the bus lies, or null.</summary>
    public PlanPoint? At(string point) =>
        _beside.TryGetValue(point, out PlanPoint beside) ? beside : _feet.TryGetValue(point, out int foot) ? _map.Points[foot] : null;

    /// <summary>The line of a run along the corridors; empty where they do not lead from one of its points to the other.</summary>
    public ImmutableArray<PlanPoint> Way(BusRun run)
    {
        if (!_feet.TryGetValue(run.From, out int from) || !_feet.TryGetValue(run.To, out int to)) return [];
        IEnumerable<PlanPoint> line = _map.Way(from, to);
        if (_beside.TryGetValue(run.From, out PlanPoint start)) line = line.Prepend(start);
        if (_beside.TryGetValue(run.To, out PlanPoint end)) line = line.Append(end);
        ImmutableArray<PlanPoint> all = [.. line];
        return [.. all.Where((point, i) => i == 0 || point != all[i - 1])];
    }

    private bool PlaceOneBranching()
    {
        ILookup<string, (string Other, double Metres)> neighbours = _bus.Runs
            .SelectMany(run => new[] { (run.From, (run.To, run.Length.Meters)), (run.To, (run.From, run.Length.Meters)) })
            .ToLookup(pair => pair.Item1, pair => pair.Item2);
        string? point = neighbours.Select(each => each.Key)
            .Where(each => !_feet.ContainsKey(each) && neighbours[each].Any(other => _feet.ContainsKey(other.Other)))
            .MaxBy(each => neighbours[each].Count(other => _feet.ContainsKey(other.Other)));
        if (point is null) return false;
        double[] misfit = new double[_map.Points.Length];
        foreach ((string other, double run) in neighbours[point].Where(other => _feet.ContainsKey(other.Other)))
        {
            double[] ways = _map.From(_feet[other]).Metres;
            double beyond = _beside.TryGetValue(other, out PlanPoint beside) ? Polyline.Distance(beside, _map.Points[_feet[other]]) : 0;
            for (int at = 0; at < misfit.Length; at++) misfit[at] += Math.Abs(((ways[at] + beyond) * (1 + PlanOptions.Default.BusSlack.DecimalFractions)) - run);
        }

        _feet[point] = Enumerable.Range(0, misfit.Length).MinBy(at => Math.Round(misfit[at], 6));
        return true;
    }
}
