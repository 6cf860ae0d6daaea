using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

/// <summary>The positions that a layout file may name are those in which the table of trackwork joins something.</summary>
public sealed class PositionNameTests
{
    private static readonly PieceId U = new("u");

    private static readonly FrogKind[] Frogs = Enum.GetValues<FrogKind>();

    private static readonly FrogFeed[] Feeds = Enum.GetValues<FrogFeed>();

    private static IEnumerable<Piece> Pieces =>
    [
        new Piece.Stop(U),
        new Piece.Section(U, Length.FromMeters(1)),
        new Piece.Section(U, Length.FromMeters(1)) { LiftOut = true },
        .. from frog in Frogs from feed in Feeds from piece in WithFrogs(frog, feed) select piece,
        .. from roads in new[] { 2, 3, 9, 24, 100 } from feed in Enum.GetValues<BridgeFeed>() select new Piece.Turntable(U, roads, Length.FromMeters(1)) { Feed = feed },
        .. from roads in new[] { 1, 5, 100 } from feed in new[] { BridgeFeed.Wires, BridgeFeed.Roads } select new Piece.TransferTable(U, roads, Length.FromMeters(1)) { Feed = feed },
    ];

    private static IEnumerable<Piece> WithFrogs(FrogKind frog, FrogFeed feed) =>
    [
        .. from hand in Enum.GetValues<TurnoutHand>() from stub in new[] { false, true } select new Piece.Turnout(U, hand, frog) { Feed = feed, Stub = stub },
        .. from legs in Enumerable.Range(3, 7) select new Piece.MultiTurnout(U, legs, frog) { Feed = feed },
        .. from opposite in new[] { false, true } select new Piece.Crossing(U, Angle.FromDegrees(30), frog) { Feed = feed, OppositePhase = opposite },
        .. from slips in new[] { false, true } from drive in Enum.GetValues<SlipDrive>() select new Piece.Slip(U, slips, frog) { Feed = feed, Drive = drive },
        new Piece.Scissors(U, frog) { Feed = feed },
    ];

    [Theory]
    [InlineData(ControlSystem.Command)]
    [InlineData(ControlSystem.Direct)]
    [InlineData(ControlSystem.ThreeRail)]
    public void The_file_names_the_positions_of_the_table(ControlSystem control) =>
        Assert.All(Pieces, piece => Assert.Equal(TrackworkTable.Of(piece, control).Positions, PiecePositions.Of(piece)));
}
