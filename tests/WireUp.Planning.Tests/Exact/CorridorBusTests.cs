using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Bus along the corridors of the benchwork.</summary>
public sealed class CorridorBusTests
{
    private static readonly BusRules Rules = new(Slack: 0.1, LeadMetres: 0.3, TapReachMetres: 0.05);

    // Track along y = 0, corridor along y = 0.2; the booster stands at 1 m, the feeder at 3 m: 0.2 m to the corridor, 2 m along it.
    [Fact]
    public void A_feeder_is_led_to_the_nearest_place_of_a_corridor()
    {
        Layout layout = Straight(4, new BusCorridor("front", [new(-1, 0.2), new(9, 0.2)]));
        PlannedBus bus = BusPlanner.Lay(layout, Task(At(1), At(3)), Rules);
        PlannedRun run = Assert.Single(bus.Runs);
        Assert.Equal((2.72, "front"), (run.Metres, Assert.Single(run.Corridors)));
        Assert.Equal(0.2, Assert.Single(bus.Taps).Value.Metres, 9);
        Assert.Equal((2.2, 2.2), (Math.Round(bus.TrackMetres, 9), Math.Round(bus.BoundMetres, 9)));
    }

    // Two metres from the corridor to the track: too far for a feeder, so that the bus goes there itself.
    [Fact]
    public void Bus_branches_off_to_a_feeder_that_is_far_from_every_corridor()
    {
        PlannedBus bus = BusPlanner.Lay(Straight(4, new BusCorridor("front", [new(-1, 2), new(9, 2)])), Task(At(1), At(3)), Rules);
        Assert.Equal(6, bus.TrackMetres, 9);
        Assert.Equal(0, Assert.Single(bus.Taps).Value.Metres, 9);
    }

    [Fact]
    public void A_booster_with_a_place_on_the_plan_is_taken_to_stand_there()
    {
        Layout layout = Straight(4, new BusCorridor("front", [new(0, 0), new(9, 0)]));
        Layout placed = layout with
        {
            Wiring = layout.Wiring with
            {
                Boosters = [new("booster", ElectricPotential.FromVolts(15), ElectricCurrent.FromAmperes(5), ElectricResistance.FromOhms(0.1)) { At = new(2, 1) }],
            },
        };
        Assert.Equal(2, BusPlanner.Lay(placed, Task(At(0), At(3)), Rules).TrackMetres, 9);
    }

    [Fact]
    public void Taps_lie_within_reach_from_below()
    {
        Layout layout = Straight(4, new BusCorridor("front", [new(-1, 0.1), new(9, 0.1)]));
        layout = layout with { Benchwork = layout.Benchwork with { OutOfReach = [new("shelf", [new(2, 0.05), new(3.3, 0.05), new(3.3, 0.5), new(2, 0.5)])] } };

        // The feeder at 3 m is within reach, the corridor beside it is not before 3.3 m.
        PlannedBus bus = BusPlanner.Lay(layout, Task(At(1), At(3)), Rules);
        Assert.Equal(Math.Sqrt((0.3 * 0.3) + (0.1 * 0.1)), Assert.Single(bus.Taps).Value.Metres, 9);
        Assert.Equal(0.1 + 2.3, bus.TrackMetres, 9);
    }

    [Fact]
    public void Feeders_that_no_corridor_within_reach_serves_are_named()
    {
        Layout layout = Straight(4, new BusCorridor("front", [new(-1, 1), new(9, 1)]));
        layout = layout with { Benchwork = layout.Benchwork with { OutOfReach = [new("all", [new(-2, 0.5), new(10, 0.5), new(10, 2), new(-2, 2)])] } };
        Assert.Equal([At(3)], BusPlanner.Lay(layout, Task(At(1), At(3)), Rules).Unreached);
    }

    // A corridor that lies along the track, corner by corner, changes nothing: the same runs, taps and lengths.
    [Fact]
    public void A_corridor_along_the_track_gives_the_bus_along_the_track()
    {
        for (int seed = 0; seed < 60; seed++)
        {
            Random chance = new(seed);
            Layout along = Straight(chance.Next(2, 7));
            Layout corridor = along with { Benchwork = new() { Corridors = [new("track", [new(0, 0), new(1.37, 0), new(along.Track.Length, 0)])] } };
            BusTask task = Task(Somewhere(), [.. Enumerable.Range(0, chance.Next(1, 6)).Select(_ => Somewhere()).Distinct()]);
            (PlannedBus one, PlannedBus other) = (BusPlanner.Lay(along, task, Rules), BusPlanner.Lay(corridor, task, Rules));
            Assert.Equal(Words(one), Words(other));
            Assert.Equal(one.TrackMetres, other.TrackMetres, 9);

            TrackPlace Somewhere() => new(along.Track[chance.Next(along.Track.Length)].Id, Math.Round(chance.NextDouble(), 2));
        }
    }

    // Three corridors one way and three the other; booster and feeders lie at crossings. Every choice of crossings is tried for the best tree.
    [Fact]
    public void The_tree_over_a_grid_of_corridors_is_as_short_as_the_best_choice_of_crossings()
    {
        for (int seed = 0; seed < 60; seed++)
        {
            Random chance = new(seed);
            double[] x = [0, 1 + chance.NextDouble(), 3 + chance.NextDouble()], y = [0, 1 + chance.NextDouble(), 3 + chance.NextDouble()];
            PlanPoint[] crossings = [.. from up in y from right in x select new PlanPoint(right, up)];
            int[] order = [.. Enumerable.Range(0, 9)];
            chance.Shuffle(order);
            int[] places = order[..chance.Next(3, 7)];
            Layout layout = new()
            {
                Name = "grid",
                LongestTrain = Length.FromMeters(1),
                ShortestPickup = Length.FromMillimeters(60),
                Track = [.. places.Select((at, i) => new Piece.Section(new(Name(i)), Length.FromMeters(1)) { Path = [crossings[at], new(crossings[at].X + 0.1, crossings[at].Y + 0.1)] })],
                Benchwork = new()
                {
                    Corridors = [.. y.Select((up, i) => new BusCorridor($"row{i}", [new(0, up), new(x[2], up)])), .. x.Select((right, i) => new BusCorridor($"column{i}", [new(right, 0), new(right, y[2])]))],
                },
            };
            PlannedBus bus = BusPlanner.Lay(layout, Task(At(0), [.. places[1..].Select((_, i) => At(0, Name(i + 1)))]), Rules);
            double best = Enumerable.Range(0, 1 << 9).Where(set => places.All(place => (set >> place & 1) != 0)).Min(set => Spanning(crossings, set));
            Assert.Equal((best, best), (bus.TrackMetres, bus.BoundMetres), (one, other) => Math.Abs(one.Item1 - other.Item1) < 1e-9 && Math.Abs(one.Item2 - other.Item2) < 1e-9);
        }
    }

    /// <summary>Length of a shortest tree over the chosen crossings of a grid of three by three, by neighbours alone; infinite where they do not hang together.</summary>
    private static double Spanning(PlanPoint[] crossings, int set)
    {
        var edges = from one in Enumerable.Range(0, 9)
                    from other in Enumerable.Range(0, 9)
                    where (set >> one & 1) != 0 && (set >> other & 1) != 0 && (other == one + 3 || (other == one + 1 && one % 3 < 2))
                    let metres = Math.Abs(crossings[one].X - crossings[other].X) + Math.Abs(crossings[one].Y - crossings[other].Y)
                    orderby metres
                    select (one, other, metres);
        int[] group = [.. Enumerable.Range(0, 9)];
        double sum = 0;
        foreach ((int one, int other, double metres) in edges)
        {
            (int from, int to) = (group[one], group[other]);
            sum += from == to ? 0 : metres;
            group = [.. group.Select(each => each == from ? to : each)];
        }

        return Enumerable.Range(0, 9).Where(point => (set >> point & 1) != 0).Select(point => group[point]).Distinct().Count() == 1 ? sum : double.PositiveInfinity;
    }

    private static string Words(PlannedBus bus) => string.Join("; ", bus.Runs
        .Select(run => string.Create(CultureInfo.InvariantCulture, $"{run.From} {run.To} {run.Metres}"))
        .Concat(bus.Taps.OrderBy(tap => tap.Key).Select(tap => string.Create(CultureInfo.InvariantCulture, $"{tap.Key} {tap.Value.Tap} {tap.Value.Metres:0.000000}"))));

    /// <summary>Sections of 1 m in a straight line along the x-axis.</summary>
    private static Layout Straight(int sections, params ImmutableArray<BusCorridor> corridors) => new()
    {
        Name = "straight",
        LongestTrain = Length.FromMeters(1),
        ShortestPickup = Length.FromMillimeters(60),
        Track = [.. Enumerable.Range(0, sections).Select(i => new Piece.Section(new(Name(i)), Length.FromMeters(1)) { Path = [new(i, 0), new(i + 1, 0)] })],
        Joints = [.. Enumerable.Range(1, sections - 1).Select(i => new Joint(new(new(Name(i - 1)), "b"), new(new(Name(i)), "a")))],
        Benchwork = new() { Corridors = corridors },
    };

    private static string Name(int number) => string.Create(CultureInfo.InvariantCulture, $"s{number}");

    private static BusTask Task(TrackPlace booster, params ImmutableArray<TrackPlace> feeders) => new("d1", "booster", booster, [], feeders);

    private static TrackPlace At(double metres) => new(new(Name((int)metres)), metres - (int)metres);

    private static TrackPlace At(double metres, string section) => new(new(section), metres);
}
