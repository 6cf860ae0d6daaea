using CsCheck;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Tests.Schedules.Properties;

public sealed class ContactTableProperties
{
    [Fact]
    public void The_table_joins_just_what_the_trackwork_table_joins_in_every_position() => Pieces().Sample(
        piece =>
        {
            Trackwork row = TrackworkTable.Of(piece, ControlSystem.Command);
            ContactTable table = ContactTable.Of(TrackKit.Of("one", [piece]));
            HashSet<string> expected = [.. row.Switched.Where(bond => row.Positions.Contains(bond.Position)).Select(bond => Pair(piece, bond.Position, Name(piece, bond.From), Name(piece, bond.To)))];
            string[] told = [.. from contact in table.Contacts from side in contact.Throws from position in side.Positions select Pair(piece, position, contact.Name, side.Joins)];
            Assert.Equal(told.Length, told.Distinct().Count());
            Assert.Equal(expected.Order(StringComparer.Ordinal), told.Order(StringComparer.Ordinal));
        },
        iter: 400,
        print: piece => piece.ToString()!);

    [Fact]
    public void Every_contact_has_a_wire_to_its_frog_and_one_from_each_terminal() => Pieces().Sample(
        piece =>
        {
            Layout layout = TrackKit.Of("one", [piece]);
            ScheduledWire[] wires = [.. Schedule.Of(layout).Wires.Where(wire => wire.Kind == WireKind.Frog)];
            MovingContact[] contacts = [.. ContactTable.Of(layout).Contacts.Where(contact => contact.IsWired)];
            Assert.Equal(contacts.Sum(contact => 1 + contact.Throws.Length), wires.Length);
            Assert.Equal(wires.Length, wires.Select(wire => wire.Id).Distinct().Count());
            Assert.All(contacts, contact => Assert.Single(wires, wire => wire.To == contact.Name));
        },
        iter: 200,
        print: piece => piece.ToString()!);

    private static string Pair(Piece piece, string position, string one, string other) =>
        string.CompareOrdinal(one, other) < 0 ? $"{piece.Id} {position}: {one} {other}" : $"{piece.Id} {position}: {other} {one}";

    private static string Name(Piece piece, PieceNode node) =>
        node.Side is { } side ? new RailEnd(piece.End(node.Name), side).ToString() : $"{piece.Id}/{node.Name}";

    // Bridges on wires or wipers have no contacts of their own.
    private static Gen<Piece> Pieces()
    {
        PieceId id = new("P");
        Gen<FrogKind> frogs = AnyOf(FrogKind.Insulated, FrogKind.Isolated, FrogKind.Live);
        return Gen.OneOf(
            from frog in frogs
            from hand in AnyOf(TurnoutHand.Left, TurnoutHand.Right, TurnoutHand.Wye)
            from kind in Gen.Int[0, 3]
            from feed in Feed(frog)
            select (Piece)new Piece.Turnout(id, hand, frog)
            {
                Feed = kind == 1 ? FrogFeed.None : feed,
                Stub = kind == 1,
                PowerRouting = kind == 2 && frog == FrogKind.Insulated,
                HeelInFrog = kind == 3 && frog == FrogKind.Isolated,
                EarlyContact = kind == 3 && feed == FrogFeed.Contact,
            },
            from frog in frogs
            from legs in Gen.Int[3, 9]
            from feed in Feed(frog)
            select (Piece)new Piece.MultiTurnout(id, legs, frog) { Feed = feed },
            from frog in frogs
            from feed in Feed(frog)
            from opposite in Gen.Bool
            select (Piece)new Piece.Crossing(id, Angle.FromDegrees(30), frog) { Feed = feed, OppositePhase = opposite },
            from frog in frogs
            from feed in Feed(frog)
            from both in Gen.Bool
            from drive in AnyOf(SlipDrive.OtherEnd, SlipDrive.OwnEnd, SlipDrive.Route)
            select (Piece)new Piece.Slip(id, both, frog) { Feed = feed, Drive = drive },
            from frog in frogs
            from feed in Feed(frog)
            select (Piece)new Piece.Scissors(id, frog) { Feed = feed },
            from roads in Gen.Int[2, 30]
            select (Piece)new Piece.Turntable(id, roads, Length.FromMeters(0.3)) { Feed = BridgeFeed.SplitRing });
    }

    private static Gen<T> AnyOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static Gen<FrogFeed> Feed(FrogKind frog) => frog == FrogKind.Insulated
        ? Gen.Const(FrogFeed.None)
        : AnyOf(FrogFeed.None, FrogFeed.Contact, FrogFeed.Sensor);
}
