using WireUp.Layouts.Plans;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Benchwork as it is read, and where it lies to the track.</summary>
public sealed class BenchworkTests
{
    private const string Track = """
        wireup: 1
        name: Test
        longest-train: 1 m
        track:
          s: { length: 2 m, path: [[0, 0], [4 m, 0]] }
          t: { length: 1 m, path: [[4 m, 0], [4 m, 1 m]] }
          TT: { turntable: 12, length: 300 }
        joined:
          - s > t > TT.t3

        """;

    [Fact]
    public void Boards_corridors_and_areas_out_of_reach_are_read()
    {
        Benchwork read = Read("""
            benchwork:
              boards: { west: [[0, 0], [1 m, 0], [1 m, 600]] }
              corridors:
                front: { path: [[0, -100], [4 m, -100]] }
                round: { path: [[1 m, -1 m], [2 m, -1 m], [2 m, 1 m]], closed: true }
              out-of-reach: { hill: [[0, 0], [1, 0], [1, 1]] }
            """).Benchwork;
        Assert.Equal(("west", 3), (read.Boards[0].Name, read.Boards[0].Corners.Length));
        Assert.Equal(new PlanPoint(1, 0.6), read.Boards[0].Corners[2]);
        Assert.Equal([("front", false), ("round", true)], read.Corridors.Select(corridor => (corridor.Name, corridor.Closed)));
        Assert.Equal(new PlanPoint(4, -0.1), read.Corridors[0].Path[1]);
        Assert.Equal("hill", Assert.Single(read.OutOfReach).Name);
        Assert.Equal(Benchwork.None, Read("").Benchwork);
    }

    [Fact]
    public void Places_lie_at_their_share_of_the_path_and_those_of_a_bridge_in_the_middle_of_its_pit()
    {
        TrackPaths paths = new(Read(""));
        Assert.Equal(new PlanPoint(1, 0), paths.PointAt(new(new("s"), 0.5)));
        Assert.Equal(new PlanPoint(4, 0.25), paths.PointAt(new(new("t"), 0.25)));
        PlanPoint middle = paths.PointAt(new(new("TT"), 0.1))!.Value;
        Assert.Equal((4, 1.15), (middle.X, Math.Round(middle.Y, 9)));
    }

    [Fact]
    public void A_section_is_within_reach_where_its_path_is_outside_the_areas()
    {
        Layout layout = Read("benchwork: { out-of-reach: { hill: [[1 m, -1 m], [2 m, -1 m], [2 m, 1 m], [1 m, 1 m]], hall: [[2 m, -9 m], [3 m, -9 m], [3 m, 9 m], [2 m, 9 m]] } }\n");
        Areas areas = new(layout.Benchwork.OutOfReach);

        // The path of s is twice as long as the section: metres 1 to 3 of the path are 0.5 to 1.5 of the section.
        Assert.Equal([(0, 0.5), (1.5, 2)], TrackPaths.WithinReach((Piece.Section)layout.Track[0], areas));
        Assert.Equal([(0, 1)], TrackPaths.WithinReach((Piece.Section)layout.Track[1], areas));
        Assert.Equal("hall", areas.At(new(2.5, 0))?.Name);
        Assert.Null(areas.At(new(3.5, 0)));
    }

    [Fact]
    public void Corridors_meet_where_they_cross_or_touch_and_marks_have_their_feet_within_reach()
    {
        Benchwork benchwork = new()
        {
            Corridors = [new("front", [new(0, 0), new(4, 0)]), new("cross", [new(1, -1), new(1, 1)]), new("spur", [new(3, 0.009), new(3, 2)])],
            OutOfReach = [new("hill", [new(1.5, -1), new(2.5, -1), new(2.5, 1), new(1.5, 1)])],
        };
        CorridorMap map = CorridorMap.Of(benchwork, [new(1.8, 0.2), new(1, 0.7), new(3.5, 2)]);
        Assert.Equal([], map.Apart());
        Assert.Equal([new(1.5, 0), new(1, 0.7), new(3, 2)], map.Feet.Select(foot => map.Points[foot!.Value]));

        // From the foot at 1.5 to the one at (1, 0.7): back to the crossing, then up; on to the spur: along the front, over its gap, up.
        double[] metres = map.From(map.Feet[0]!.Value).Metres;
        Assert.Equal(0.5 + 0.7, metres[map.Feet[1]!.Value], 9);
        Assert.Equal(1.5 + 0.009 + 1.991, metres[map.Feet[2]!.Value], 9);
        Assert.Equal([new(1.5, 0), new(1, 0), new(1, 0.7)], map.Way(map.Feet[0]!.Value, map.Feet[1]!.Value));
    }

    [Fact]
    public void Out_of_reach_corridors_pass_each_other()
    {
        Benchwork benchwork = new()
        {
            Corridors = [new("front", [new(0, 0), new(4, 0)]), new("cross", [new(2, -1), new(2, 1)])],
            OutOfReach = [new("hill", [new(1.5, -1), new(2.5, -1), new(2.5, 1), new(1.5, 1)])],
        };
        Assert.Equal(["cross"], CorridorMap.Of(benchwork, []).Apart());
    }

    [Fact]
    public void A_closed_corridor_leads_both_ways_round()
    {
        Benchwork benchwork = new() { Corridors = [new("ring", [new(0, 0), new(3, 0), new(3, 1), new(0, 1)]) { Closed = true }] };
        CorridorMap map = CorridorMap.Of(benchwork, [new(0, 0.5), new(0.5, 0)]);
        Assert.Equal(1, map.From(map.Feet[0]!.Value).Metres[map.Feet[1]!.Value], 9);
    }

    [Fact]
    public void Too_many_points_are_refused()
    {
        string points = string.Join(", ", Enumerable.Range(0, LayoutLimits.BenchworkPoints + 1).Select(i => $"[{i}, 0]"));
        LayoutReading reading = LayoutFile.Read(Track + $"benchwork: {{ corridors: {{ a: {{ path: [{points}] }} }} }}\n", "test");
        Assert.Equal("WU1002", Assert.Single(reading.Problems).Code);
    }

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(Track + text, "test");
        Assert.Equal([], reading.Problems);
        return reading.Layout!;
    }
}
