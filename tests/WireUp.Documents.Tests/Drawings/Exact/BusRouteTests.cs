using UnitsNet;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class BusRouteTests
{
    [Fact]
    public void A_run_about_as_long_as_the_track_between_its_taps_follows_the_track()
    {
        BusRoute run = Route(TestLayouts.Balloon, "Q1", "Q2"); // f2 at 1.2 m and f3 at 3.0 m of the same section, 1.7 m of bus

        Assert.True(run.AlongTrack);
        PlanGeometry geometry = PlanGeometry.Of(TestLayouts.Balloon, TestContext.Current.CancellationToken);
        Assert.Equal(geometry.PointAt(new(new("loop"), 1.2)).At, run.Points[0]);
        Assert.Equal(geometry.PointAt(new(new("loop"), 3.0)).At, run.Points[^1]);
    }

    [Fact]
    public void A_run_much_shorter_than_the_track_goes_straight_across()
    {
        Layout balloon = TestLayouts.Balloon;
        Bus turn = balloon.Wiring.Buses[1];
        Bus shorter = turn with { Runs = turn.Runs.SetItem(1, turn.Runs[1] with { Length = Length.FromMeters(0.6) }) };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Buses = balloon.Wiring.Buses.SetItem(1, shorter) } };

        BusRoute run = Route(layout, "Q1", "Q2");

        Assert.False(run.AlongTrack);
        Assert.Equal(2, run.Points.Length);
    }

    [Fact]
    public void A_run_from_one_section_to_the_next_passes_the_turnout_between_them()
    {
        Layout balloon = TestLayouts.Balloon;
        Bus bus = new("turn", [new("Q1", "Q9", Length.FromMeters(2.5), new Wire.Metric(1.5))]);
        Feeder far = balloon.Wiring.Feeders[1] with { Name = "f9", Tap = "Q9", At = new(new("spur"), 0.7) };
        Layout layout = balloon with { Wiring = balloon.Wiring with { Buses = [bus], Feeders = balloon.Wiring.Feeders.Add(far) } };

        BusRoute run = Route(layout, "Q1", "Q9");

        PlanGeometry geometry = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
        Assert.True(run.AlongTrack);
        Assert.Contains(geometry.LinesOf(new("T1")).Single(line => line.To == "diverging").Points[1], run.Points);
    }

    [Fact]
    public void A_point_without_feeder_lies_between_its_neighbours()
    {
        Layout balloon = TestLayouts.Balloon;
        Bus bus = new("turn", [new("Q1", "J", Length.FromMeters(0.1), new Wire.Metric(1.5)), new("J", "Q2", Length.FromMeters(0.1), new Wire.Metric(1.5))]);
        Layout layout = balloon with { Wiring = balloon.Wiring with { Buses = [bus] } };

        Assert.Equal(Route(layout, "Q1", "J").Points[^1], Route(layout, "J", "Q2").Points[0]);
    }

    private static BusRoute Route(Layout layout, string from, string to) => BusRoutes
        .Of(layout, PlanGeometry.Of(layout, TestContext.Current.CancellationToken))
        .Single(route => route.Run.From == from && route.Run.To == to);

    // P1 has no feeder: its place is the middle of its neighbours, which lies in the middle of the crossing.
    [Fact]
    public void A_point_whose_place_is_open_is_not_drawn_on_a_crossing()
    {
        Layout layout = LayoutFile.Read(
            """
            wireup: 1
            name: Crossing
            longest-train: 1 m
            track:
              w: { length: 1 m, path: [[0, 0], [1 m, 0]] }
              e: { length: 1 m, path: [[1.2 m, 0], [2.2 m, 0]] }
              n: { length: 1 m, path: [[1.1 m, 100], [1.1 m, 1.1 m]] }
              s: { length: 1 m, path: [[1.1 m, -100], [1.1 m, -1.1 m]] }
              X: { crossing: 90 deg, length: 200 }
            joined:
              - w.b > X.a1
              - X.a2 > e.a
              - n.a > X.b1
              - X.b2 > s.a
            wiring:
              boosters: { main: { amps: 5 A, at: [0, 0] } }
              districts: { d: { booster: main, trip: 3 A } }
              bus: { d: { wire: 1.5 mm2, runs: [ main > P1 1.1 m, P1 > P2 1.1 m ] } }
              feeders: { f1: { at: e@1 m, bus: P2, wire: 0.5 mm2, length: 250 } }
            """,
            "crossing").Layout!;
        PlanGeometry geometry = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
        PlanPoint at = new BusPoints(layout.Wiring.Buses[0], layout, geometry).At("P1")!.Value;
        double nearest = geometry.Lines.SelectMany(line => Enumerable.Range(0, 101).Select(i => Polyline.Distance(line.At(i / 100.0).At, at))).Min();
        Assert.True(nearest > 0.4 * geometry.SpacingMetres, $"{nearest} m from the track, whose spacing is {geometry.SpacingMetres} m");
    }
}
