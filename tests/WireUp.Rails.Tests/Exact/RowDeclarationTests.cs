using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>What single rows of the table declare where no short and no dead rail would show it.</summary>
public sealed class RowDeclarationTests
{
    private static readonly PieceId X = new("X");

    [Theory]
    [InlineData(FrogFeed.None, 0)]
    [InlineData(FrogFeed.Contact, 4)]
    public void A_live_crossing_that_nobody_feeds_has_no_contacts(FrogFeed feed, int contacts) =>
        Assert.Equal(contacts, Row(new Piece.Crossing(X, Angle.FromDegrees(30), FrogKind.Live) { Feed = feed }).Switched.Count(bond => bond.Position == "a" || bond.Position == "b"));

    [Theory]
    [InlineData(false, "a1-b2")]
    [InlineData(true, "a1-b2 b1-a2")]
    public void A_live_slip_has_the_outer_rail_of_each_of_its_slip_roads(bool isDouble, string roads) =>
        Assert.Equal(roads, string.Join(' ', Row(new Piece.Slip(X, isDouble, FrogKind.Live)).Fixed
            .Where(bond => bond.From.Side is not null && bond.To.Side is not null && bond.From.Name[0] != bond.To.Name[0])
            .Select(bond => $"{bond.From.Name}-{bond.To.Name}")));

    [Theory]
    [InlineData(BridgeFeed.Wires, true)]
    [InlineData(BridgeFeed.Roads, false)]
    public void A_transfer_table_on_wires_of_its_own_has_the_phase_of_its_feeder(BridgeFeed feed, bool inPhase) =>
        Assert.Equal(inPhase, Row(new Piece.TransferTable(X, 3, Length.FromMeters(0.3)) { Feed = feed }).BridgeInPhase);

    [Theory]
    [InlineData(BridgeFeed.Wires, false)]
    [InlineData(BridgeFeed.SplitRing, true)]
    [InlineData(BridgeFeed.Roads, false)]
    public void A_turntable_has_the_phase_of_its_feeder_through_a_split_ring_only(BridgeFeed feed, bool inPhase) =>
        Assert.Equal(inPhase, Row(new Piece.Turntable(X, 6, Length.FromMeters(0.3)) { Feed = feed, SplitAfter = 3 }).BridgeInPhase);

    [Theory]
    [InlineData(6, "t1/t4 t2/t5 t3/t6")]
    [InlineData(5, "t1/ t2/ t3/ t4/ t5/")]
    public void Roads_that_feed_the_bridge_hang_together_where_they_lie_opposite_each_other(int roads, string groups) =>
        Assert.Equal(groups, string.Join(' ', Row(new Piece.Turntable(X, roads, Length.FromMeters(0.3)) { Feed = BridgeFeed.Roads })
            .Phases.Select(group => $"{string.Join(' ', group.Plus)}/{string.Join(' ', group.Minus)}")));

    [Theory]
    [InlineData(TurnoutHand.Wye, "left right")]
    [InlineData(TurnoutHand.Left, "through diverging")]
    public void A_wye_has_positions_of_its_own(TurnoutHand hand, string positions) =>
        Assert.Equal(positions, string.Join(' ', Row(new Piece.Turnout(X, hand, FrogKind.Live)).Positions));

    private static Trackwork Row(Piece piece) => TrackworkTable.Of(piece, ControlSystem.Command);
}
