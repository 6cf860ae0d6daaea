using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Turnouts of three legs and more, legs counted from the left. Where the right rail of leg j crosses the left rail of a leg k to the
/// right of it there is a frog, <c>frog-j-k</c>: it belongs to the right stock rail when leg j or one to the left of it is set, to
/// the left stock rail when leg k or one to the right of it is set; between them its polarity does not matter. A three-way turnout has
/// two tie bars: the first is thrown for the left leg only, the second for the right leg only, and both at once is no position; the
/// law of <c>frog-1-2</c> is that of the first, the law of <c>frog-2-3</c> that of the second.
/// </summary>
internal static class MultiTurnouts
{
    internal static Trackwork Row(Piece.MultiTurnout turnout)
    {
        ImmutableArray<string> legs = [.. turnout.Legs];
        PieceNode leftStock = InwardLeft("points"), rightStock = InwardRight("points");
        ImmutableArray<FixedBond> stockRails = [new(leftStock, OutwardLeft(legs[0])), new(rightStock, OutwardRight(legs[^1]))];
        ImmutableArray<InnerRail> inner = [.. InnerRails(legs)];
        (ImmutableArray<FixedBond> bonds, ImmutableArray<SwitchedBond> switched) = turnout switch
        {
            { Frog: FrogKind.Live } => (HeelRails(legs), [.. FrogLaws(legs, 0.5)]),
            { Frog: FrogKind.Insulated, PowerRouting: true } => ([], ByBlades(legs, inner)),
            { Frog: FrogKind.Isolated, Feed: not FrogFeed.None } => (Bonded(inner), [.. FrogLaws(legs, 0)]),
            _ => (Bonded(inner), ImmutableArray<SwitchedBond>.Empty),
        };
        return new(
            legs,
            [.. stockRails, .. bonds],
            switched,
            [.. legs.Select(leg => new DrivableWay("points", leg, leg))],
            [new(["points"], legs)]);
    }

    /// <summary>Every rail of the legs but the two that are stock rails, leg by leg, with the stock rail of its polarity.</summary>
    private static IEnumerable<InnerRail> InnerRails(ImmutableArray<string> legs)
    {
        for (int leg = 0; leg < legs.Length; leg++)
        {
            if (leg > 0)
            {
                yield return new(OutwardLeft(legs[leg]), InwardLeft("points"), [.. legs.Skip(leg)]);
            }

            if (leg < legs.Length - 1)
            {
                yield return new(OutwardRight(legs[leg]), InwardRight("points"), [.. legs.Take(leg + 1)]);
            }
        }
    }

    /// <summary>Insulated and bonded, or isolated: each inner rail always has the stock rail of its polarity.</summary>
    private static ImmutableArray<FixedBond> Bonded(ImmutableArray<InnerRail> inner) => [.. inner.Select(rail => new FixedBond(rail.Stock, rail.Rail))];

    /// <summary>
    /// Insulated, power-routing: a left rail touches the left stock rail when its own leg or one to the right of it is set, a right rail the
    /// right stock rail when its own leg or one to the left of it is; so a leg that is not set keeps one rail.
    /// </summary>
    private static ImmutableArray<SwitchedBond> ByBlades(ImmutableArray<string> legs, ImmutableArray<InnerRail> inner) =>
    [
        .. from set in legs
           from rail in inner
           where rail.TouchesWhen.Contains(set)
           select new SwitchedBond(rail.Stock, rail.Rail, set, 1),
    ];

    /// <summary>Live: the frogs nearest the heel are one with the two rails beyond them; those nearer the points are alone.</summary>
    private static ImmutableArray<FixedBond> HeelRails(ImmutableArray<string> legs) => [.. Enumerable.Range(0, legs.Length - 1).SelectMany(leg => new FixedBond[]
    {
        new(Frog(leg, leg + 1), OutwardRight(legs[leg]), 0.5),
        new(Frog(leg, leg + 1), OutwardLeft(legs[leg + 1]), 0.5),
    })];

    /// <summary>Frog by frog, for each leg that is set, the stock rail it belongs to.</summary>
    private static IEnumerable<SwitchedBond> FrogLaws(ImmutableArray<string> legs, double share) =>
        from j in Enumerable.Range(0, legs.Length)
        from k in Enumerable.Range(j + 1, legs.Length - j - 1)
        from set in Enumerable.Range(0, legs.Length)
        where set <= j || set >= k
        select new SwitchedBond(Frog(j, k), set <= j ? InwardRight("points") : InwardLeft("points"), legs[set], share);

    private static PieceNode Frog(int j, int k) => PieceNode.Inner($"{TrackworkTable.Frog}-{j + 1}-{k + 1}");

    private readonly record struct InnerRail(PieceNode Rail, PieceNode Stock, ImmutableArray<string> TouchesWhen);
}
