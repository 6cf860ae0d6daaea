using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Turnouts of two legs: left, right, wye and curved ones are one row. The stock rails run to the outer rails of the legs in every
/// kind but a stub; kinds differ in what the two inner rails and the frog between them join. The polarity law of a frog: it belongs to
/// the right stock rail when set for the left leg, and to the left stock rail when set for the right leg.
/// </summary>
internal static class Turnouts
{
    private static readonly PieceNode LeftStock = InwardLeft("points"), RightStock = InwardRight("points");
    private static readonly PieceNode Frog = PieceNode.Inner(TrackworkTable.Frog);

    internal static Trackwork Row(Piece.Turnout turnout)
    {
        T t = new(turnout.LeftLeg, turnout.RightLeg);
        Kind kind = turnout.Stub ? StubKind(turnout, t) : PointsKind(turnout, t);
        bool fedFrog = turnout.Frog != FrogKind.Insulated && turnout.Feed != FrogFeed.None;
        bool early = fedFrog && turnout is { EarlyContact: true, Feed: FrogFeed.Contact } && !kind.Blades.IsEmpty;
        return new(
            turnout.Hand == TurnoutHand.Wye ? ["left", "right"] : ["through", "diverging"],
            [.. kind.Fixed, .. CopperFoil.Uncut(turnout, (LeftStock, RightStock, Frog), (t.Left, t.Right))],
            [.. kind.Blades, .. fedFrog ? t.FrogLaw(0) : [], .. early ? EarlyContact(kind.Blades, t) : []],
            [.. turnout.EndNames.Skip(1).Select(leg => new DrivableWay("points", leg, leg))],
            [new(["points"], [.. turnout.EndNames.Skip(1)])])
        {
            Moments = early ? [t.ToRight, t.ToLeft] : [],
            Wheels = turnout is { Stub: false, Frog: FrogKind.Live } ? t.OpenBlades : [],
        };
    }

    private static Kind PointsKind(Piece.Turnout turnout, T t) => turnout switch
    {
        { Frog: FrogKind.Live } => Live(t),
        { Frog: FrogKind.Isolated, HeelInFrog: true } => IsolatedToHeel(t),
        { Frog: FrogKind.Insulated, PowerRouting: true } => InsulatedRouting(t),
        _ => Bonded(t),
    };

    /// <summary>
    /// Insulated, or isolated and cut at both sides of the frog: each inner rail is bonded to the stock rail of its own polarity, and the
    /// frog is alone.
    /// </summary>
    private static Kind Bonded(T t) => new([.. t.StockRails, new(RightStock, t.LeftLegInner), new(LeftStock, t.RightLegInner)], []);

    /// <summary>Insulated, power-routing: each inner rail gets current through its own blade, in its own position only.</summary>
    private static Kind InsulatedRouting(T t) => new(
        t.StockRails,
        [new(RightStock, t.LeftLegInner, t.Left, 1), new(LeftStock, t.RightLegInner, t.Right, 1)]);

    /// <summary>Live: blades, closure rails, frog and both inner rails beyond are one conductor, fed through the blade that touches.</summary>
    private static Kind Live(T t) => new([.. t.StockRails, .. t.FrogToHeel], [.. t.FrogLaw(0.5)]);

    /// <summary>Isolated, uncut beyond: the frog is cut from the closure rails, but is one with the inner rails beyond.</summary>
    private static Kind IsolatedToHeel(T t) => new([.. t.StockRails, .. t.FrogToHeel], []);

    /// <summary>A stub: the rails of the points end move as a whole to meet both rails of one leg. The frog is as in the other kinds.</summary>
    private static Kind StubKind(Piece.Turnout turnout, T t)
    {
        ImmutableArray<SwitchedBond> outer = [new(LeftStock, OutwardLeft(t.Left), t.Left, 1), new(RightStock, OutwardRight(t.Right), t.Right, 1)];
        return turnout switch
        {
            { Frog: FrogKind.Live } => new([.. t.FrogToHeel], [.. outer, .. t.FrogLaw(0.5)]),
            { Frog: FrogKind.Isolated, HeelInFrog: true } => new([.. t.FrogToHeel], outer),
            _ => new([], [.. outer, new(RightStock, t.LeftLegInner, t.Left, 1), new(LeftStock, t.RightLegInner, t.Right, 1)]),
        };
    }

    /// <summary>On the way from one position to the other the old blade still touches, and the contact has changed over.</summary>
    private static IEnumerable<SwitchedBond> EarlyContact(ImmutableArray<SwitchedBond> blades, T t) =>
        from moment in new[] { (Name: t.ToRight, Old: t.Left, New: t.Right), (Name: t.ToLeft, Old: t.Right, New: t.Left) }
        from bond in blades.Where(blade => blade.Position == moment.Old).Concat(t.FrogLaw(0).Where(contact => contact.Position == moment.New))
        select bond with { Position = moment.Name };

    /// <summary>What the metal of a kind joins always and what its blades join by position; contacts come on top.</summary>
    private sealed record Kind(ImmutableArray<FixedBond> Fixed, ImmutableArray<SwitchedBond> Blades);

    /// <summary>The rails of a turnout by name, seen from the points towards the frog.</summary>
    private readonly record struct T(string Left, string Right)
    {
        internal PieceNode LeftLegInner => OutwardRight(Left);

        internal PieceNode RightLegInner => OutwardLeft(Right);

        internal ImmutableArray<FixedBond> StockRails => [new(LeftStock, OutwardLeft(Left)), new(RightStock, OutwardRight(Right))];

        internal ImmutableArray<FixedBond> FrogToHeel => [new(Frog, LeftLegInner, 0.5), new(Frog, RightLegInner, 0.5)];

        internal IEnumerable<SwitchedBond> FrogLaw(double share) => Follows(Frog, share, [(Left, RightStock), (Right, LeftStock)]);

        /// <summary>The blade that does not touch is one with the frog and so opposite to the stock rail beside it.</summary>
        internal ImmutableArray<WheelBridge> OpenBlades =>
            [new(Frog, LeftStock, Left, WheelBridgeKind.OpenBlade), new(Frog, RightStock, Right, WheelBridgeKind.OpenBlade)];

        internal string ToRight => $"{Left}>{Right}";

        internal string ToLeft => $"{Right}>{Left}";
    }
}
