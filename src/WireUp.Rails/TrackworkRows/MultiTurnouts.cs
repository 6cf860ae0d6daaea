using System.Collections.Immutable;
using WireUp.Layouts;
using static WireUp.Rails.TrackworkRows.Rails;

namespace WireUp.Rails.TrackworkRows;

/// <summary>
/// Turnouts of three legs and more, legs counted from the left. Where the right rail of leg j crosses the left rail of a leg k to the
/// right of it there is a frog, <c>frog-j-k</c>: it belongs to the right stock rail when leg j or one to the left of it is set, to
/// the left stock rail when leg k or one to the right of it is set; between them its polarity does not matter.
/// </summary>
internal static class MultiTurnouts
{
    internal static Trackwork Row(Piece.MultiTurnout turnout)
    {
        ImmutableArray<string> legs = [.. turnout.Legs];
        PieceNode leftStock = InwardLeft("points"), rightStock = InwardRight("points");
        ImmutableArray<FixedBond> stockRails = [new(leftStock, OutwardLeft(legs[0])), new(rightStock, OutwardRight(legs[^1]))];
        IEnumerable<(PieceNode Rail, PieceNode Stock, int Leg)> inner =
            Enumerable.Range(0, legs.Length).SelectMany(leg => new[]
            {
                (Rail: OutwardLeft(legs[leg]), Stock: leftStock, leg),
                (Rail: OutwardRight(legs[leg]), Stock: rightStock, leg),
            }).Where(rail => !stockRails.Any(stock => stock.To == rail.Rail));

        (ImmutableArray<FixedBond> bonds, ImmutableArray<SwitchedBond> switched) = turnout switch
        {
            { Frog: FrogKind.Live } => ([.. HeelRails(legs)], [.. FrogLaws(legs, 0.5)]),
            { Frog: FrogKind.Insulated, PowerRouting: true } =>
                ([], [.. inner.Select(rail => new SwitchedBond(rail.Stock, rail.Rail, legs[rail.Leg], 1))]),
            { Frog: FrogKind.Isolated, Feed: not FrogFeed.None } => ([.. inner.Select(rail => new FixedBond(rail.Stock, rail.Rail))], [.. FrogLaws(legs, 0)]),
            _ => (inner.Select(rail => new FixedBond(rail.Stock, rail.Rail)).ToImmutableArray(), ImmutableArray<SwitchedBond>.Empty),
        };
        return new(
            legs,
            [.. stockRails, .. bonds],
            switched,
            [.. legs.Select(leg => new DrivableWay("points", leg, leg))],
            [new(["points"], legs)]);
    }

    /// <summary>The frogs nearest the heel are one with the two rails beyond them; those nearer the points are alone.</summary>
    private static IEnumerable<FixedBond> HeelRails(ImmutableArray<string> legs) => Enumerable.Range(0, legs.Length - 1).SelectMany(leg => new FixedBond[]
    {
        new(Frog(leg, leg + 1), OutwardRight(legs[leg]), 0.5),
        new(Frog(leg, leg + 1), OutwardLeft(legs[leg + 1]), 0.5),
    });

    private static IEnumerable<SwitchedBond> FrogLaws(ImmutableArray<string> legs, double share) =>
        from j in Enumerable.Range(0, legs.Length)
        from k in Enumerable.Range(j + 1, legs.Length - j - 1)
        from set in Enumerable.Range(0, legs.Length)
        where set <= j || set >= k
        select new SwitchedBond(Frog(j, k), set <= j ? InwardRight("points") : InwardLeft("points"), legs[set], share);

    private static PieceNode Frog(int j, int k) => PieceNode.Inner($"{TrackworkTable.Frog}-{j + 1}-{k + 1}");
}
