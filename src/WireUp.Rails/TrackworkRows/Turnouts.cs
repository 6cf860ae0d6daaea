using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Turnouts of two legs: left, right, wye and curved ones are one row. The stock rails run to the outer rails of the legs in every
/// kind; kinds differ in what the two inner rails and the frog between them join. The polarity law of a frog: it belongs to the right
/// stock rail when set for the left leg, and to the left stock rail when set for the right leg.
/// </summary>
internal static class Turnouts
{
    private static readonly PieceNode LeftStock = InwardLeft("points"), RightStock = InwardRight("points");
    private static readonly PieceNode Frog = PieceNode.Inner(TrackworkTable.Frog);

    internal static Trackwork Row(Piece.Turnout turnout)
    {
        T rails = new(turnout.LeftLeg, turnout.RightLeg);
        Trackwork row = turnout switch
        {
            { Stub: true } => StubRails(turnout, rails),
            { Frog: FrogKind.Live } => Live(turnout, rails),
            { Frog: FrogKind.Isolated, HeelInFrog: true } => IsolatedToHeel(turnout, rails),
            { Frog: FrogKind.Isolated } => Isolated(turnout, rails),
            { PowerRouting: true } => InsulatedRouting(rails),
            _ => InsulatedBonded(rails),
        };
        bool fedByBladeToo = turnout is { Frog: FrogKind.Live } or { Stub: true, Frog: not FrogKind.Insulated };
        row = fedByBladeToo && turnout is { EarlyContact: true, Feed: FrogFeed.Contact } ? WithEarlyContact(row, rails) : row;
        return row with
        {
            Positions = turnout.Hand == TurnoutHand.Wye ? ["left", "right"] : ["through", "diverging"],
            Fixed = [.. row.Fixed, .. UncutFoil(turnout, rails, row)],
            Ways = [.. turnout.EndNames.Skip(1).Select(leg => new DrivableWay("points", leg, leg))],
            Phases = [new(["points"], [.. turnout.EndNames.Skip(1)])],
        };
    }

    /// <summary>The frog carries nothing; each inner rail is bonded to the stock rail of its own polarity.</summary>
    private static Trackwork InsulatedBonded(T t) => Of([.. t.StockRails, .. t.Bonded], []);

    /// <summary>The frog carries nothing; each inner rail gets current through its own blade, in its own position only.</summary>
    private static Trackwork InsulatedRouting(T t) => Of(
        t.StockRails,
        [new(t.LeftLegInner, RightStock, t.Left, 1), new(t.RightLegInner, LeftStock, t.Right, 1)]);

    /// <summary>Blades, closure rails, frog and both inner rails beyond are one conductor.</summary>
    private static Trackwork Live(Piece.Turnout turnout, T t) => Of(
        [.. t.StockRails, new(Frog, t.LeftLegInner, 0.5), new(Frog, t.RightLegInner, 0.5)],
        [.. t.FrogLaw(0.5), .. turnout.Feed == FrogFeed.Contact ? t.FrogLaw(0) : []]) with
    {
        Wheels =
        [
            new(Frog, LeftStock, t.Left, WheelBridgeKind.OpenBlade),
            new(Frog, RightStock, t.Right, WheelBridgeKind.OpenBlade),
        ],
    };

    /// <summary>The frog is alone, cut at both sides; the inner rails are bonded to their stock rails.</summary>
    private static Trackwork Isolated(Piece.Turnout turnout, T t) =>
        Of([.. t.StockRails, .. t.Bonded], turnout.Feed == FrogFeed.None ? [] : [.. t.FrogLaw(0)]);

    /// <summary>The frog is cut from the closure rails, but is one with the inner rails beyond.</summary>
    private static Trackwork IsolatedToHeel(Piece.Turnout turnout, T t) => Of(
        [.. t.StockRails, new(Frog, t.LeftLegInner, 0.5), new(Frog, t.RightLegInner, 0.5)],
        turnout.Feed == FrogFeed.None ? [] : [.. t.FrogLaw(0)]);

    /// <summary>The rails of the points end move as a whole; the frog, if it carries current, is one with both inner rails.</summary>
    private static Trackwork StubRails(Piece.Turnout turnout, T t)
    {
        ImmutableArray<SwitchedBond> stock = [new(LeftStock, new(t.Left, RailSide.Left), t.Left, 1), new(RightStock, new(t.Right, RailSide.Right), t.Right, 1)];
        return turnout.Frog == FrogKind.Insulated
            ? Of([], [.. stock, new(RightStock, t.LeftLegInner, t.Left, 1), new(LeftStock, t.RightLegInner, t.Right, 1)])
            : Of([new(Frog, t.LeftLegInner, 0.5), new(Frog, t.RightLegInner, 0.5)], [.. stock, .. t.FrogLaw(0.5)]);
    }

    /// <summary>On the way from one position to the other the blade still touches, and the contact has changed over.</summary>
    private static Trackwork WithEarlyContact(Trackwork row, T t)
    {
        (string toRight, string toLeft) = ($"{t.Left}>{t.Right}", $"{t.Right}>{t.Left}");
        ImmutableArray<SwitchedBond> both =
        [
            new(Frog, RightStock, toRight), new(Frog, LeftStock, toRight),
            new(Frog, LeftStock, toLeft), new(Frog, RightStock, toLeft),
        ];
        return row with { Moments = [toRight, toLeft], Switched = [.. row.Switched, .. both] };
    }

    /// <summary>Copper foil joins everything soldered to a tie until it is cut.</summary>
    private static IEnumerable<FixedBond> UncutFoil(Piece.Turnout turnout, T t, Trackwork row)
    {
        bool Is(TieZones zone) => turnout.CopperClad && (turnout.Uncut & zone) != 0;
        bool metalFrog = row.Fixed.Any(bond => bond.From == Frog) || row.Switched.Any(bond => bond.From == Frog);
        if (Is(TieZones.Switch) || Is(TieZones.Closure))
        {
            yield return new(LeftStock, RightStock, 0);
        }

        if (metalFrog && Is(TieZones.FrogLeft))
        {
            yield return new(LeftStock, Frog, 0);
        }

        if (metalFrog && Is(TieZones.FrogRight))
        {
            yield return new(RightStock, Frog, 0);
        }

        if (Is(TieZones.Beyond))
        {
            yield return new(new(t.Left, RailSide.Left), t.LeftLegInner, 0);
            yield return new(new(t.Right, RailSide.Right), t.RightLegInner, 0);
        }
    }

    private static Trackwork Of(ImmutableArray<FixedBond> @fixed, ImmutableArray<SwitchedBond> switched) => new([], @fixed, switched, [], []);

    /// <summary>The rails of a turnout by name, seen from the points towards the frog.</summary>
    private readonly record struct T(string Left, string Right)
    {
        internal PieceNode LeftLegInner => OutwardRight(Left);

        internal PieceNode RightLegInner => OutwardLeft(Right);

        internal ImmutableArray<FixedBond> StockRails => [new(LeftStock, OutwardLeft(Left)), new(RightStock, OutwardRight(Right))];

        internal ImmutableArray<FixedBond> Bonded => [new(RightStock, LeftLegInner), new(LeftStock, RightLegInner)];

        internal IEnumerable<SwitchedBond> FrogLaw(double share) => Follows(Frog, share, [(Left, RightStock), (Right, LeftStock)]);
    }
}
