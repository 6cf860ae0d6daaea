using System.Collections.Immutable;
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
    ImmutableArray<TrackPlace> Feeders)
{
    /// <summary>Whether another task asks for the very same bus.</summary>
    public bool IsSameAs(BusTask other) => District == other.District && Booster == other.Booster && BoosterPlace == other.BoosterPlace
        && Built.SequenceEqual(other.Built) && Feeders.SequenceEqual(other.Feeders);
}

/// <summary>A point of a planned bus: one that has a name, or a new one by its number within the district.</summary>
/// <param name="Name">The booster or a bus point that is there, or null.</param>
/// <param name="Number">Number of a new point, from 1.</param>
internal readonly record struct BusPoint(string? Name, int Number);

/// <summary>One new run of bus, without its wire.</summary>
internal readonly record struct PlannedRun(BusPoint From, BusPoint To, double Metres)
{
    /// <summary>The corridors it lies along, in order; empty along the track.</summary>
    public ImmutableArray<string> Corridors { get; init; } = [];
}

/// <summary>The new bus of one district.</summary>
/// <param name="Task">What it was to reach.</param>
/// <param name="Runs">Its new runs, each after the one it hangs on.</param>
/// <param name="Taps">For each new feeder the bus point it taps, and how far from it, along track or corridor and from there to the rail.</param>
/// <param name="TrackMetres">Length of the tree along the track or the corridors.</param>
/// <param name="BoundMetres">No tree that reaches the same taps is shorter.</param>
/// <param name="Unreached">Feeders that no way leads to.</param>
internal sealed record PlannedBus(
    BusTask Task,
    ImmutableArray<PlannedRun> Runs,
    ImmutableDictionary<TrackPlace, (BusPoint Tap, double Metres)> Taps,
    double TrackMetres,
    double BoundMetres,
    ImmutableArray<TrackPlace> Unreached)
{
    /// <summary>The district.</summary>
    public string District => Task.District;
}

/// <summary>How bus is laid.</summary>
/// <param name="Slack">What is added to the way along the track for bends, drops and stripping, as a part of it.</param>
/// <param name="LeadMetres">Wire from a booster's terminals to the line of the track.</param>
/// <param name="TapReachMetres">How far along the track feeders may lie from a tap they share.</param>
internal sealed record BusRules(double Slack, double LeadMetres, double TapReachMetres);

/// <summary>
/// Lays the bus of each district along the corridors of the benchwork or else along the track: a tree, never a ring, from its booster to a tap at each feeder. A run ends at
/// every tap and wherever the tree branches. What is there stays; new runs hang on the nearest point of it.
/// </summary>
internal sealed class BusPlanner
{
    private const double StepMetres = 0.01, LeastMetres = 0.05;

    private readonly BusWays _ways;
    private readonly Corridor _corridor;
    private readonly BusTask _task;
    private readonly BusRules _rules;
    private int _lastPoint;

    private BusPlanner(Layout layout, BusTask task, BusRules rules)
    {
        (_task, _rules) = (task, rules);
        _ways = BusWays.For(layout, task);
        _corridor = _ways.Graph;
    }

    /// <summary>Lays the bus of one district.</summary>
    public static PlannedBus Lay(Layout layout, BusTask task, BusRules rules) => new BusPlanner(layout, task, rules).Lay();

    private double Reach => _rules.TapReachMetres + 1e-6;

    private PlannedBus Lay()
    {
        ImmutableArray<(int Tap, ImmutableArray<TrackPlace> Feeders)> groups = Share();
        Dictionary<int, BusPoint> points = _task.Built
            .GroupBy(built => _ways.Places[built.At].Tap)
            .ToDictionary(group => group.Key, group => new BusPoint(group.First().Tap, 0));
        if (points.Count == 0)
        {
            points[_ways.Booster] = new(_task.Booster, 0);
        }

        ImmutableArray<int> roots = [.. points.Keys.Order()], terminals = [.. groups.Select(group => group.Tap)];
        BusTree tree = ShallowTree.Of(_corridor, BusTreeFinder.Find(_corridor, roots, terminals), roots, terminals);
        ImmutableArray<PlannedRun> runs = [.. Runs(tree, roots, points, [.. terminals])];
        ImmutableDictionary<TrackPlace, (BusPoint, double)>.Builder taps = ImmutableDictionary.CreateBuilder<TrackPlace, (BusPoint, double)>();
        foreach ((int tap, ImmutableArray<TrackPlace> feeders) in groups.Where(group => points.ContainsKey(group.Tap)))
        {
            (double[] metres, _) = _corridor.From([tap], Farthest(feeders));
            foreach (TrackPlace feeder in feeders)
            {
                taps[feeder] = (points[tap], metres[_ways.Places[feeder].Point]);
            }
        }

        return new(_task, runs, taps.ToImmutable(), tree.Metres, tree.BoundMetres, [.. _task.Feeders.Where(feeder => !taps.ContainsKey(feeder))]);
    }

    /// <summary>No tap that some feeders may share is farther from them.</summary>
    private double Farthest(IEnumerable<TrackPlace> feeders) => Reach + feeders.Select(feeder => _ways.Places[feeder].LeadMetres).DefaultIfEmpty(0).Max();

    /// <summary>Feeders so near one another that the wire of each still reaches one tap.</summary>
    private ImmutableArray<(int Tap, ImmutableArray<TrackPlace> Feeders)> Share()
    {
        List<(int, ImmutableArray<TrackPlace>)> groups = [];
        List<TrackPlace> left = [.. _task.Feeders.Order()];
        double farthest = Farthest(left);
        while (left.Count > 0)
        {
            int tap = _ways.Places[left[0]].Tap;
            (double[] metres, _) = _corridor.From([tap], farthest);
            ImmutableArray<TrackPlace> near = [.. left.Where(feeder => metres[_ways.Places[feeder].Point] <= Reach + _ways.Places[feeder].LeadMetres)];
            groups.Add((tap, near));
            left.RemoveAll(near.Contains);
        }

        return [.. groups];
    }

    /// <summary>Walks the tree from its roots; a run ends at each tap and each branching, which becomes a bus point there.</summary>
    private IEnumerable<PlannedRun> Runs(BusTree tree, ImmutableArray<int> roots, Dictionary<int, BusPoint> points, HashSet<int> taps)
    {
        ILookup<int, int> edgesAt = tree.Edges
            .SelectMany(edge => new[] { (_corridor.Edges[edge].From, edge), (_corridor.Edges[edge].To, edge) })
            .ToLookup(pair => pair.Item1, pair => pair.edge);
        foreach (int root in roots)
        {
            // A tap at the very place of the booster still needs a point of its own: the booster's terminals are no tap.
            if (taps.Contains(root) && points[root].Name == _task.Booster)
            {
                BusPoint tap = new(null, ++_lastPoint);
                yield return new(points[root], tap, Cut(0, isLead: true));
                points[root] = tap;
            }

            Stack<(int Edge, int From)> open = new(edgesAt[root].Reverse().Select(edge => (edge, root)));
            while (open.TryPop(out (int Edge, int From) next))
            {
                (int edge, int start) = next;
                int at = _corridor.Opposite(edge, start);
                double metres = _corridor.Edges[edge].Metres;
                List<string> along = [_ways.CorridorOf[edge]];
                while (!taps.Contains(at) && edgesAt[at].Count() == 2)
                {
                    edge = edgesAt[at].First(other => other != edge);
                    metres += _corridor.Edges[edge].Metres;
                    along.Add(_ways.CorridorOf[edge]);
                    at = _corridor.Opposite(edge, at);
                }

                points[at] = new(null, ++_lastPoint);
                yield return new(points[start], points[at], Cut(metres, isLead: points[start].Name == _task.Booster))
                {
                    Corridors = [.. along.Where(name => name.Length > 0).Distinct()],
                };
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
}
