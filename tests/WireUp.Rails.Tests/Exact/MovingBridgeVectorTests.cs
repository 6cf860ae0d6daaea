using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>
/// Turntables and transfer tables: what their bridge carries, and which road asks for which phase. The law of the split ring is derived in
/// the tests from where the bridge's rails lie, no published source.
/// </summary>
public sealed class MovingBridgeVectorTests
{
    private static Trackwork Table(int roads, BridgeFeed feed, int? splitAfter = null) => TrackworkTable.Of(
        new Piece.Turntable(new("X"), roads, Length.FromMeters(0.3)) { Feed = feed, SplitAfter = splitAfter ?? roads / 2 }, ControlSystem.Command);

    private static Trackwork Transfer(int roads, BridgeFeed feed) => TrackworkTable.Of(
        new Piece.TransferTable(new("X"), roads, Length.FromMeters(0.3)) { Feed = feed }, ControlSystem.Command);

    [Theory]
    [InlineData(BridgeFeed.Wires)]
    [InlineData(BridgeFeed.SplitRing)]
    [InlineData(BridgeFeed.Roads)]
    public void Even_number_of_roads_has_the_tail_at_the_opposite_road(BridgeFeed feed)
    {
        Trackwork row = Table(6, feed);
        Assert.Equal(["t1", "t2", "t3", "t4", "t5", "t6"], row.Positions);
        Assert.Equal(["t1-t4", "t2-t5", "t3-t6", "t4-t1", "t5-t2", "t6-t3"], row.Ways.Select(way => $"{way.From}-{way.To}"));
        Assert.All(row.Ways, way => Assert.Equal(way.From, way.Position));
    }

    [Fact]
    public void Odd_number_of_roads_has_one_end_of_the_bridge_at_a_road_at_a_time()
    {
        Trackwork row = Table(3, BridgeFeed.Wires);
        Assert.Equal(["t1", "t1-tail", "t2", "t2-tail", "t3", "t3-tail"], row.Positions);
        Assert.Empty(row.Ways);
        Assert.Equal(
            ["t1 head", "t1-tail tail", "t2 head", "t2-tail tail", "t3 head", "t3-tail tail"],
            row.Wheels.Select(wheel => $"{wheel.Position} {wheel.To.Name.Split('/')[0]}").Distinct());
    }

    [Fact]
    public void Bridge_on_wires_touches_no_road_and_wheels_join_left_to_left_and_right_to_right_looking_out_of_the_bridge()
    {
        Trackwork row = Table(4, BridgeFeed.Wires);
        Assert.Empty(row.Switched);
        Assert.Empty(row.Fixed);
        Assert.All(row.Wheels, wheel => Assert.Equal((WheelBridgeKind.PitEdge, wheel.To.Name.Split('/')[1]), (wheel.Kind, RailSides.Word(wheel.From.Side!.Value))));
        Assert.Equal(16, row.Wheels.Length);
    }

    [Fact]
    public void Road_that_the_head_serves_and_later_the_tail_meets_the_bridge_in_both_phases()
    {
        // Looking out of the head its right rail is the one that lies left looking out of the tail.
        Trackwork row = Table(4, BridgeFeed.Wires);
        string HeadRail(string position, string road, RailSide side)
        {
            string bridge = row.Wheels.Single(wheel => wheel.Position == position && wheel.From == new PieceNode(road, side)).To.Name;
            return bridge switch { "tail/left" => "head/right", "tail/right" => "head/left", _ => bridge };
        }

        Assert.Equal(("head/left", "head/right"), (HeadRail("t1", "t1", RailSide.Left), HeadRail("t3", "t1", RailSide.Left)));
    }

    [Theory]
    [InlineData(4, 2)]
    [InlineData(4, 4)]
    [InlineData(12, 6)]
    [InlineData(12, 9)]
    [InlineData(24, 5)]
    [InlineData(7, 3)]
    [InlineData(7, 6)]
    [InlineData(9, 1)]
    public void Split_ring_gives_every_road_one_phase_whichever_end_of_the_bridge_serves_it(int roads, int splitAfter)
    {
        Trackwork row = Table(roads, BridgeFeed.SplitRing, splitAfter);
        Dictionary<string, string> rightRailOf = [];
        foreach (WheelBridge wheel in row.Wheels.Where(wheel => wheel.From.Side == RailSide.Right))
        {
            string headRail = wheel.To.Name switch { "tail/right" => "head/left", "tail/left" => "head/right", string rail => rail };
            string ring = row.Switched.Single(bond => bond.Position == wheel.Position && bond.To.Name == headRail).From.Name;
            Assert.Equal(ring, rightRailOf.TryGetValue(wheel.From.Name, out string? known) ? known : ring);
            rightRailOf[wheel.From.Name] = ring;
        }

        Assert.Equal(roads, rightRailOf.Count);
        string[] first = [.. rightRailOf.Where(pair => pair.Value == "ring/left").Select(pair => pair.Key)];
        Assert.Equal(roads / 2, first.Length);
        Assert.Contains($"t{splitAfter}", first);
        Assert.DoesNotContain($"t{(splitAfter % roads) + 1}", first);
        PhaseGroup phases = Assert.Single(row.Phases);
        Assert.Equal(first.Order(), phases.Plus.Order());
        Assert.Equal(rightRailOf.Keys.Except(first).Order(), phases.Minus.Order());
    }

    [Fact]
    public void Roads_opposite_each_other_across_a_split_ring_are_through_track()
    {
        Trackwork row = Table(12, BridgeFeed.SplitRing, 4);
        PhaseGroup phases = Assert.Single(row.Phases);
        Assert.All(row.Ways, way => Assert.NotEqual(phases.Plus.Contains(way.From), phases.Plus.Contains(way.To)));
    }

    [Fact]
    public void Bridge_fed_by_the_roads_takes_the_rails_of_the_roads_it_stands_at()
    {
        Trackwork row = Table(4, BridgeFeed.Roads);
        Assert.Empty(row.Wheels);
        Assert.Equal(
            ["t1/left head/left", "t1/right head/right", "t3/left tail/left", "t3/right tail/right"],
            row.Switched.Where(bond => bond.Position == "t1").Select(bond => $"{bond.From.Name}/{RailSides.Word(bond.From.Side!.Value)} {bond.To.Name}"));
        Assert.Equal(["t1|t3", "t2|t4"], row.Phases.Select(group => $"{Assert.Single(group.Plus)}|{Assert.Single(group.Minus)}"));
    }

    [Fact]
    public void Transfer_table_on_wires_asks_one_phase_of_all_its_roads_and_never_turns()
    {
        Trackwork row = Transfer(3, BridgeFeed.Wires);
        Assert.Equal(["1", "2", "3"], row.Positions);
        PhaseGroup phases = Assert.Single(row.Phases);
        Assert.Equal(["w1", "w2", "w3"], phases.Plus);
        Assert.Equal(["e1", "e2", "e3"], phases.Minus);
        Assert.Empty(row.Switched);
        Assert.All(row.Wheels, wheel => Assert.Equal(wheel.From.Name.StartsWith('w') ? "head" : "tail", wheel.To.Name.Split('/')[0]));
    }

    [Fact]
    public void Transfer_table_fed_by_the_roads_leaves_each_pair_of_roads_its_phase()
    {
        Trackwork row = Transfer(2, BridgeFeed.Roads);
        Assert.Equal(2, row.Phases.Length);
        Assert.Equal(8, row.Switched.Length);
        Assert.Empty(row.Wheels);
    }

    [Fact]
    public void Bridge_on_the_way_of_a_meeting_is_no_frog()
    {
        RailGraph graph = new PlanBuilder().Piece(new Piece.Turntable(new("X"), 2, Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads })
            .Sections("w e").Chain("w > X.t1").Chain("X.t2 > e").Feed("one", "w@1").Feed("two", "e@1").Graph();
        PolarityReport report = Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken);
        Assert.NotEmpty(report.ByPosition);
        Assert.All(report.ByPosition, meeting => Assert.Contains(meeting.Path, point => point.ToString()!.StartsWith("X/head", StringComparison.Ordinal)));
        Assert.All(report.ByPosition, meeting => Assert.Empty(meeting.Frogs));
    }

    [Fact]
    public void Feeders_of_a_split_ring_reach_each_road_that_wipers_would_in_the_phase_of_its_half()
    {
        RailGraph graph = new PlanBuilder()
            .Piece(new Piece.Turntable(new("X"), 4, Length.FromMeters(0.3)) { Feed = BridgeFeed.SplitRing, SplitAfter = 2 }).Feed("d", "X@0.1").Graph();
        string Head(string position)
        {
            var legs = Polarity.LegsIn(graph, new Dictionary<PieceId, string> { [new("X")] = position });
            return string.Concat(new[] { "head/left", "head/right" }.Select(rail => legs[graph.NodeInside(new("X"), rail)!.Value].Single()[^1]));
        }

        Assert.Equal(["BA", "BA", "AB", "AB"], new[] { "t1", "t2", "t3", "t4" }.Select(Head));
    }
}
