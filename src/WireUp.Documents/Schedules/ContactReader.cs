using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents;

/// <summary>Reads the moving contacts of a piece off its row of the trackwork table.</summary>
internal static class ContactReader
{
    private const string Points = "the points", Route = "the route that is set", Wheel = "the first wheel that finds it wrong", Bridge = "the bridge as it turns";

    /// <summary>The moving contacts of a piece. Wipers that take their current from the road a bridge stands at are none: they join what meets.</summary>
    public static IEnumerable<MovingContact> Of(Piece piece, ControlSystem control)
    {
        if (KindOf(piece) is not { } kind) return [];
        Trackwork row = TrackworkTable.Of(piece, control);
        IGrouping<PieceNode, SwitchedBond>[] conductors =
            [.. row.Switched.Where(bond => row.Positions.Contains(bond.Position)).Select(bond => Turned(bond, kind)).GroupBy(bond => bond.From)];
        return conductors.Select(conductor => new MovingContact(
            piece.Id, NameOf(conductor.Key), kind, MovedBy(piece, conductor.Key.Name), Throws(piece, row, conductor, single: conductors.Length == 1))
        {
            Name = NameOn(piece, conductor.Key),
        });
    }

    private static ContactKind? KindOf(Piece piece) => piece switch
    {
        Piece.Turnout { Stub: true } => ContactKind.MovingRails,
        Piece.Turnout turnout => KindOf(turnout.Frog, turnout.Feed),
        Piece.MultiTurnout turnout => KindOf(turnout.Frog, turnout.Feed),
        Piece.Crossing { Feed: not FrogFeed.None } crossing => OfFeed(crossing.Feed),
        Piece.Slip { Feed: not FrogFeed.None } slip => OfFeed(slip.Feed),
        Piece.Scissors scissors => scissors.Feed == FrogFeed.None ? ContactKind.Blades : OfFeed(scissors.Feed),
        Piece.Turntable { Feed: BridgeFeed.SplitRing } => ContactKind.SplitRing,
        _ => null,
    };

    private static ContactKind KindOf(FrogKind frog, FrogFeed feed) => (frog, feed) switch
    {
        (_, FrogFeed.Sensor) => ContactKind.Changeover,
        (FrogKind.Live, FrogFeed.Contact) => ContactKind.BladesAndContact,
        (_, FrogFeed.Contact) => ContactKind.Contact,
        _ => ContactKind.Blades,
    };

    private static ContactKind OfFeed(FrogFeed feed) => feed == FrogFeed.Sensor ? ContactKind.Changeover : ContactKind.Contact;

    // The moving rails of a stub turnout are those of its points end; a ring is told from the rails of the bridge, and of blades without
    // a frog that carries current the rail beyond.
    private static SwitchedBond Turned(SwitchedBond bond, ContactKind kind) =>
        kind == ContactKind.SplitRing || (kind != ContactKind.MovingRails && bond is { From.Name: "points", From.Side: not null })
        ? new(bond.To, bond.From, bond.Position)
        : bond;

    private static string MovedBy(Piece piece, string conductor) => piece switch
    {
        Piece.Turnout { Feed: FrogFeed.Sensor } or Piece.MultiTurnout { Feed: FrogFeed.Sensor } or Piece.Crossing { Feed: FrogFeed.Sensor }
            or Piece.Slip { Feed: FrogFeed.Sensor } or Piece.Scissors { Feed: FrogFeed.Sensor } => Wheel,
        Piece.Turnout or Piece.MultiTurnout => Points,
        Piece.Slip { Drive: SlipDrive.Route } => Route,
        Piece.Slip slip => (conductor == "frog-west") == (slip.Drive == SlipDrive.OtherEnd) ? "the points at a2 and b2" : "the points at a1 and b1",
        Piece.Turntable => Bridge,
        _ => Route,
    };

    private static ImmutableArray<ContactThrow> Throws(Piece piece, Trackwork row, IEnumerable<SwitchedBond> bonds, bool single)
    {
        (PieceNode Node, ImmutableArray<string> Positions)[] targets = [.. bonds.GroupBy(bond => bond.To).Select(target =>
            (target.Key, row.Positions.Where(position => target.Any(bond => bond.Position == position)).ToImmutableArray()))];
        bool named = single && targets.All(target => target.Positions.Length == 1);
        return [.. targets.Select((target, i) => new ContactThrow(
            named ? target.Positions[0] : (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture),
            target.Positions,
            NameOn(piece, target.Node))
        {
            Node = target.Node,
        })];
    }

    private static string NameOn(Piece piece, PieceNode node) =>
        node.Side is { } side ? new RailEnd(piece.End(node.Name), side).ToString() : $"{piece.Id}/{node.Name}";

    private static string NameOf(PieceNode node) => node.Side is { } side ? $"{node.Name}/{RailSides.Word(side)}" : node.Name;
}
