using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Planning.Buses;

/// <summary>What the bus of one district has to reach.</summary>
/// <param name="District">The district.</param>
/// <param name="Booster">Its booster.</param>
/// <param name="BoosterPlace">The place of the track where that stands.</param>
/// <param name="Built">Bus points that are there already, and where they are.</param>
/// <param name="Feeders">Places of the new feeders.</param>
internal sealed record BusTask(
    string District,
    string Booster,
    TrackPlace BoosterPlace,
    ImmutableArray<(string Tap, TrackPlace At)> Built,
    ImmutableArray<TrackPlace> Feeders);

/// <summary>One new run of bus, without its wire.</summary>
internal readonly record struct PlannedRun(string From, string To, double Metres);

/// <summary>The new bus of one district.</summary>
/// <param name="District">The district.</param>
/// <param name="Runs">Its new runs, each after the one it hangs on.</param>
/// <param name="Taps">For each new feeder the bus point it taps, and how far along the track from it.</param>
/// <param name="TrackMetres">Length of the tree along the track.</param>
/// <param name="BoundMetres">No tree that reaches the same taps is shorter.</param>
/// <param name="Unreached">Feeders that no way along the track leads to.</param>
internal sealed record PlannedBus(
    string District,
    ImmutableArray<PlannedRun> Runs,
    ImmutableDictionary<TrackPlace, (string Tap, double Metres)> Taps,
    double TrackMetres,
    double BoundMetres,
    ImmutableArray<TrackPlace> Unreached);

/// <summary>How bus is laid.</summary>
/// <param name="Slack">What is added to the way along the track for bends, drops and stripping, as a part of it.</param>
/// <param name="LeadMetres">Wire from a booster's terminals to the line of the track.</param>
/// <param name="TapReachMetres">How far along the track feeders may lie from a tap they share.</param>
internal sealed record BusRules(double Slack, double LeadMetres, double TapReachMetres);

/// <summary>
/// Lays the bus of each district along the track: a tree, never a ring, from its booster to a tap at each feeder. A run ends at
/// every tap and wherever the tree branches. What is there stays; new runs hang on the nearest point of it.
/// </summary>
internal sealed class BusPlanner
{
    private const double StepMetres = 0.01, LeastMetres = 0.05;

    private readonly Corridor _corridor;
    private readonly BusRules _rules;
    private readonly HashSet<string> _taken;
    private int _lastPoint;

    private BusPlanner(Layout layout, IEnumerable<BusTask> tasks, BusRules rules)
    {
        _rules = rules;
        _corridor = Corridor.Along(layout, tasks.SelectMany(task =>
            task.Feeders.Append(task.BoosterPlace).Concat(task.Built.Select(built => built.At))));
        Wiring wiring = layout.Wiring;
        _taken =
        [
            .. wiring.Boosters.Select(booster => booster.Name),
            .. wiring.Buses.SelectMany(bus => bus.Runs).SelectMany(run => new[] { run.From, run.To }),
            .. wiring.Feeders.Select(feeder => feeder.Tap),
        ];
    }

    /// <summary>Lays the bus for every task, in order.</summary>
    public static ImmutableArray<PlannedBus> Plan(Layout layout, ImmutableArray<BusTask> tasks, BusRules rules, CancellationToken cancel)
    {
        BusPlanner planner = new(layout, tasks, rules);
        return [.. tasks.Select(task =>
        {
            cancel.ThrowIfCancellationRequested();
            return planner.Lay(task);
        })];
    }

    private PlannedBus Lay(BusTask task)
    {
        ImmutableArray<(TrackPlace Tap, ImmutableArray<TrackPlace> Feeders)> groups = Share(task.Feeders);
        Dictionary<int, string> roots = task.Built.GroupBy(built => _corridor.PointAt(built.At)).ToDictionary(group => group.Key, group => group.First().Tap);
        if (roots.Count == 0)
        {
            roots[_corridor.PointAt(task.BoosterPlace)] = task.Booster;
        }

        ImmutableArray<int> terminals = [.. groups.Select(group => _corridor.PointAt(group.Tap))];
        BusTree tree = BusTreeFinder.Find(_corridor, [.. roots.Keys.Order()], terminals);
        Dictionary<int, string> names = new(roots);
        ImmutableArray<PlannedRun> runs = [.. Runs(task.Booster, tree, names, [.. terminals])];
        ImmutableDictionary<TrackPlace, (string, double)>.Builder taps = ImmutableDictionary.CreateBuilder<TrackPlace, (string, double)>();
        foreach ((TrackPlace tap, ImmutableArray<TrackPlace> feeders) in groups.Where(group => names.ContainsKey(_corridor.PointAt(group.Tap))))
        {
            (double[] metres, _) = _corridor.From([_corridor.PointAt(tap)]);
            foreach (TrackPlace feeder in feeders)
            {
                taps[feeder] = (names[_corridor.PointAt(tap)], metres[_corridor.PointAt(feeder)]);
            }
        }

        return new(task.District, runs, taps.ToImmutable(), tree.Metres, tree.BoundMetres, [.. task.Feeders.Where(feeder => !taps.ContainsKey(feeder))]);
    }

    /// <summary>Feeders so near one another that the wire of each still reaches one tap.</summary>
    private ImmutableArray<(TrackPlace Tap, ImmutableArray<TrackPlace> Feeders)> Share(ImmutableArray<TrackPlace> feeders)
    {
        List<(TrackPlace, ImmutableArray<TrackPlace>)> groups = [];
        List<TrackPlace> left = [.. feeders.Order()];
        while (left.Count > 0)
        {
            (double[] metres, _) = _corridor.From([_corridor.PointAt(left[0])]);
            ImmutableArray<TrackPlace> near = [.. left.Where(feeder => metres[_corridor.PointAt(feeder)] <= _rules.TapReachMetres + 1e-6)];
            groups.Add((left[0], near));
            left.RemoveAll(near.Contains);
        }

        return [.. groups];
    }

    /// <summary>Walks the tree from its roots; a run ends at each tap and each branching, which gets a name there.</summary>
    private IEnumerable<PlannedRun> Runs(string booster, BusTree tree, Dictionary<int, string> names, HashSet<int> taps)
    {
        ILookup<int, int> edgesAt = tree.Edges
            .SelectMany(edge => new[] { (_corridor.Edges[edge].From, edge), (_corridor.Edges[edge].To, edge) })
            .ToLookup(pair => pair.Item1, pair => pair.edge);

        // A tap at the very place of the root still needs its own point: the booster's terminals are no tap.
        foreach (int root in names.Keys.Order().ToArray())
        {
            if (taps.Contains(root) && names[root] == booster)
            {
                string tap = FreePoint();
                yield return new(booster, tap, Cut(0, isLead: true));
                names[root] = tap;
            }

            Stack<(int Edge, int From)> open = new(edgesAt[root].Reverse().Select(edge => (edge, root)));
            while (open.TryPop(out (int Edge, int From) next))
            {
                (int edge, int start) = next;
                int at = _corridor.Opposite(edge, start);
                double metres = _corridor.Edges[edge].Metres;
                while (!taps.Contains(at) && edgesAt[at].Count() == 2)
                {
                    edge = edgesAt[at].First(other => other != edge);
                    metres += _corridor.Edges[edge].Metres;
                    at = _corridor.Opposite(edge, at);
                }

                string name = names[at] = FreePoint();
                yield return new(names[start], name, Cut(metres, isLead: names[start] == booster));
                foreach (int further in edgesAt[at].Where(other => other != edge).Reverse())
                {
                    open.Push((further, at));
                }
            }
        }
    }

    /// <summary>Length to cut: the way with its slack, up to the next centimetre.</summary>
    private double Cut(double metres, bool isLead)
    {
        double length = (metres * (1 + _rules.Slack)) + (isLead ? _rules.LeadMetres : 0);
        return Math.Max(LeastMetres, Math.Round(Math.Ceiling((length / StepMetres) - 1e-6) * StepMetres, 2));
    }

    private string FreePoint()
    {
        string name;
        do
        {
            name = string.Create(CultureInfo.InvariantCulture, $"P{++_lastPoint}");
        }
        while (!_taken.Add(name));
        return name;
    }
}
