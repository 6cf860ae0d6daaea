using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class BusTreeTests
{
    private static readonly BusRules Rules = new(Slack: 0.1, LeadMetres: 0.3, TapReachMetres: 0.05);

    // Booster 1 m from the end of 3 m of track, feeders at 0.2 m and 2.6 m: 0.8 m and 1.6 m away; a tenth more, and the lead.
    [Fact]
    public void Runs_follow_the_track_with_slack_and_the_lead_of_the_booster()
    {
        Layout layout = TrackBuilder.Line(1, 3).Build();
        PlannedBus bus = BusPlanner.Lay(layout, Task([], At(1), At(0.2), At(2.6)), Rules);
        Assert.Equal([1.18, 2.06], bus.Runs.Select(run => run.Metres));
        Assert.Equal((2.4, 2.4), (Math.Round(bus.TrackMetres, 6), Math.Round(bus.BoundMetres, 6)));
        Assert.All(bus.Runs, run => Assert.Equal("booster", run.From.Name));
    }

    [Fact]
    public void Feeders_within_reach_of_one_tap_share_it()
    {
        PlannedBus bus = BusPlanner.Lay(TrackBuilder.Line(1, 3).Build(), Task([], At(1), At(2), At(2.04)), Rules);
        Assert.Single(bus.Runs);
        Assert.Equal([0, 0.04], bus.Taps.OrderBy(tap => tap.Key).Select(tap => Math.Round(tap.Value.Metres, 6)));
    }

    [Fact]
    public void New_runs_hang_on_the_nearest_point_of_the_bus_that_is_there()
    {
        PlannedBus bus = BusPlanner.Lay(TrackBuilder.Line(1, 9).Build(), Task([("P1", At(2)), ("P2", At(6))], At(0), At(7), At(8)), Rules);
        Assert.Equal(["P2", null], bus.Runs.Select(run => run.From.Name));
        Assert.Equal([1.1, 1.1], bus.Runs.Select(run => run.Metres));
    }

    // A ring of four sections of 1 m with taps at all four middles: three sections' length joins them, never four.
    [Fact]
    public void The_bus_round_a_ring_of_track_stays_open()
    {
        TrackBuilder ring = TrackBuilder.Line(4, 1).Join("s3.b", "s0.a");
        PlannedBus bus = BusPlanner.Lay(ring.Build(), Task([], At(0.5, "s0"), At(0.5, "s1"), At(0.5, "s2"), At(0.5, "s3")), Rules);
        Assert.Equal(3, bus.TrackMetres, 6);
        Assert.Equal(3, bus.Runs.Length);
    }

    [Fact]
    public void Feeders_that_no_track_leads_to_are_named()
    {
        Layout layout = new TrackBuilder().Section("s0", 1).Section("apart", 1).Build();
        PlannedBus bus = BusPlanner.Lay(layout, Task([], At(0.5, "s0"), At(0.2, "s0"), At(0.5, "apart")), Rules);
        Assert.Equal([At(0.5, "apart")], bus.Unreached);
        Assert.Single(bus.Runs);
    }

    [Fact]
    public void Trees_of_small_tracks_are_as_short_as_trying_everything_finds()
    {
        for (int seed = 0; seed < 150; seed++)
        {
            Layout layout = Meshed(seed);
            TrackPlace[] places = [.. layout.Track.OfType<Piece.Section>().Select(section => new TrackPlace(section.Id, section.Length.Meters / 2))];
            Random chance = new(seed);
            chance.Shuffle(places);
            Corridor corridor = Corridor.Along(layout, places);
            ImmutableArray<int> terminals = [.. places.Skip(1).Take(4).Select(corridor.PointAt)];
            BusTree tree = BusTreeFinder.Find(corridor, [corridor.PointAt(places[0])], terminals);
            double best = Shortest(corridor, [corridor.PointAt(places[0]), .. terminals.Except(tree.Unreached)]);
            Assert.True(Math.Abs(tree.Metres - best) < 1e-6 && Math.Abs(tree.BoundMetres - best) < 1e-6, $"seed {seed}: tree {tree.Metres}, bound {tree.BoundMetres}, best {best}");
        }
    }

    // Edges without length, parallel edges, points that nothing leads to, several roots: all occur among these graphs.
    [Fact]
    public void Trees_of_small_graphs_are_as_short_as_the_best_choice_of_branching_points()
    {
        for (int seed = 0; seed < 400; seed++)
        {
            Random chance = new(seed);
            int points = chance.Next(3, 11);
            Corridor corridor = Corridor.Of(points, [.. Enumerable.Range(0, chance.Next(2, 18))
                .Select(_ => new CorridorEdge(chance.Next(points), chance.Next(points), chance.Next(6)))
                .Where(edge => edge.From != edge.To)]);
            int[] order = [.. Enumerable.Range(0, points)];
            chance.Shuffle(order);
            ImmutableArray<int> roots = [.. order.Take(chance.Next(1, 3)).Order()], terminals = [.. order[^chance.Next(1, points)..]];
            (double[] reach, _) = corridor.From(roots);
            BusTree tree = BusTreeFinder.Find(corridor, roots, terminals);
            int[] reached = [.. terminals.Where(terminal => !double.IsInfinity(reach[terminal]))];
            Assert.Equal(terminals.Except(reached), tree.Unreached);
            double best = ByBranchings(corridor, roots, [.. reached]);
            Assert.True(Math.Abs(tree.Metres - best) < 1e-6 && Math.Abs(tree.BoundMetres - best) < 1e-6, $"seed {seed}: tree {tree.Metres}, bound {tree.BoundMetres}, best {best}");
            Assert.Equal(tree.Metres, tree.Edges.Sum(edge => corridor.Edges[edge].Metres), 9);
            Assert.Equal(0, SpanningMetres(corridor, roots, [.. reached], tree.Edges) - tree.Metres, 9);
        }
    }

    // 60 terminals on random meshes: too many for trying sets, unless what is certain is taken first.
    [Fact]
    public void Bounds_of_large_meshes_never_lie_above_their_trees_and_come_near()
    {
        for (int seed = 0; seed < 5; seed++)
        {
            Random chance = new(seed);
            CorridorEdge[] edges = [.. from row in Enumerable.Range(0, 12) from column in Enumerable.Range(0, 12)
                                       let point = (12 * row) + column
                                       from other in new[] { column < 11 ? point + 1 : -1, row < 11 ? point + 12 : -1 }
                                       where other >= 0
                                       select new CorridorEdge(point, other, 1 + chance.NextDouble())];
            int[] order = [.. Enumerable.Range(0, 144)];
            chance.Shuffle(order);
            BusTree tree = BusTreeFinder.Find(Corridor.Of(144, edges), [order[0]], [.. order[1..60]]);
            Assert.InRange(tree.BoundMetres, 0.9 * tree.Metres, tree.Metres);
            Assert.Equal(0, SpanningMetres(Corridor.Of(144, edges), [order[0]], [.. order[1..60]], tree.Edges) - tree.Metres, 9);
        }
    }

    private static BusTask Task(ImmutableArray<(string Tap, TrackPlace At)> built, TrackPlace booster, params ImmutableArray<TrackPlace> feeders) =>
        new("d1", "booster", booster, built, feeders);

    private static TrackPlace At(double metres, string section = "s0") => new(new(section), metres);

    /// <summary>Turnouts in a row joined by two roads each, with lengths by chance: every second pair of roads closes a ring.</summary>
    private static Layout Meshed(int seed)
    {
        Random chance = new(seed);
        TrackBuilder track = new();
        for (int i = 0; i < 6; i++)
        {
            track.Turnout($"T{i}");
        }

        string[] ends = [.. Enumerable.Range(0, 6).SelectMany(i => new[] { $"T{i}.points", $"T{i}.through", $"T{i}.diverging" })];
        chance.Shuffle(ends);
        for (int i = 0; i + 1 < ends.Length; i += 2)
        {
            track.Section($"s{i}", 0.1 * chance.Next(2, 30)).Join(ends[i], $"s{i}.a").Join($"s{i}.b", ends[i + 1]);
        }

        return track.Build();
    }

    /// <summary>The shortest tree by spanning every choice of branching points; shares nothing with the planner.</summary>
    private static double ByBranchings(Corridor corridor, ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        int[] free = [.. Enumerable.Range(0, corridor.PointCount).Except(roots).Except(terminals)];
        return Enumerable.Range(0, 1 << free.Length).Min(choice =>
        {
            HashSet<int> taken = [.. roots, .. terminals, .. free.Where((_, i) => (choice >> i & 1) != 0)];
            return SpanningMetres(corridor, roots, [.. taken], [.. Enumerable.Range(0, corridor.Edges.Length)
                .Where(edge => taken.Contains(corridor.Edges[edge].From) && taken.Contains(corridor.Edges[edge].To))]);
        });
    }

    /// <summary>Length of a shortest spanning tree of some edges, or infinity where they do not join all points to the roots.</summary>
    private static double SpanningMetres(Corridor corridor, ImmutableArray<int> roots, ImmutableArray<int> points, IEnumerable<int> edges)
    {
        int[] group = [.. Enumerable.Range(0, corridor.PointCount).Select(point => roots.Contains(point) ? roots[0] : point)];
        double metres = 0;
        foreach (CorridorEdge edge in edges.Select(edge => corridor.Edges[edge]).OrderBy(edge => edge.Metres))
        {
            (int from, int to) = (group[edge.From], group[edge.To]);
            metres += from == to ? 0 : edge.Metres;
            group = [.. group.Select(each => each == from ? to : each)];
        }

        return points.All(point => group[point] == group[roots[0]]) ? metres : double.PositiveInfinity;
    }

    /// <summary>The shortest tree by dynamic programming over sets of terminals (Dreyfus and Wagner, Networks 1, 1971, 195–207).</summary>
    private static double Shortest(Corridor corridor, int[] terminals)
    {
        int points = corridor.PointCount;
        double[][] far = [.. Enumerable.Range(0, points).Select(point => corridor.From([point]).Metres)];
        double[,] best = new double[1 << terminals.Length, points];
        for (int set = 1; set < 1 << terminals.Length; set++)
        {
            for (int point = 0; point < points; point++)
            {
                best[set, point] = (set & (set - 1)) == 0 ? far[terminals[int.TrailingZeroCount(set)]][point] : double.PositiveInfinity;
                for (int part = (set - 1) & set; part > 0; part = (part - 1) & set)
                {
                    best[set, point] = Math.Min(best[set, point], best[part, point] + best[set ^ part, point]);
                }
            }

            for (int point = 0; point < points; point++)
            {
                double through = Enumerable.Range(0, points).Min(other => best[set, other] + far[other][point]);
                best[set, point] = Math.Min(best[set, point], through);
            }
        }

        return best[(1 << terminals.Length) - 1, terminals[0]];
    }
}
