using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Frogs;

/// <summary>
/// A conductor inside a piece that has one polarity in one position and the other in another, or would have if it were fed: a frog with
/// whatever is one piece of metal with it, the rails of a bridge that gets current from its roads. Worked out from the trackwork
/// table, for every kind of piece alike.
/// </summary>
/// <param name="Piece">The piece.</param>
/// <param name="Names">Names of the inner conductors that are one.</param>
/// <param name="Rails">The rails at ends of the piece that are one with it.</param>
/// <param name="Positions">Positions in which something feeds it.</param>
internal sealed record FollowingConductor(
    Piece Piece, ImmutableArray<string> Names, ImmutableArray<FollowingRail> Rails, ImmutableArray<string> Positions)
{
    /// <summary>Every such conductor of a piece, in the order of the table's row.</summary>
    internal static ImmutableArray<FollowingConductor> Of(Piece piece, ControlSystem control)
    {
        // Foil that is not cut yet joins what the rest of the row keeps apart; it is no part of what the piece is meant to be.
        Piece meant = piece is Piece.Turnout { CopperClad: true } turnout ? turnout with { CopperClad = false } : piece;
        return new Finder(meant, TrackworkTable.Of(meant, control)).Find();
    }

    /// <summary>Which polarity a conductor has: the group of ends it hangs together with, and whether it is their left rail.</summary>
    private readonly record struct Polarity(int Group, bool IsLeft);

    private sealed class Finder
    {
        private readonly Piece _piece;
        private readonly Trackwork _row;
        private readonly ImmutableArray<PieceNode> _nodes;
        private readonly DisjointSetsWorkspace _metal;

        internal Finder(Piece piece, Trackwork row)
        {
            (_piece, _row) = (piece, row);
            _nodes =
            [
                .. row.Fixed.SelectMany(bond => new[] { bond.From, bond.To })
                    .Concat(row.Switched.SelectMany(bond => new[] { bond.From, bond.To }))
                    .Distinct(),
            ];
            _metal = new(_nodes.Length);
            foreach (FixedBond bond in row.Fixed)
            {
                _metal.Join(_nodes.IndexOf(bond.From), _nodes.IndexOf(bond.To));
            }
        }

        internal ImmutableArray<FollowingConductor> Find() =>
        [
            .. _nodes.Where(node => node.Side is null)
                .GroupBy(MetalOf)
                .Select(inner => Make(inner.Key, [.. inner.Select(node => node.Name)]))
                .OfType<FollowingConductor>(),
        ];

        private int MetalOf(PieceNode node) => _metal.Find(_nodes.IndexOf(node));

        private FollowingConductor? Make(int metal, ImmutableArray<string> names)
        {
            (PieceNode Rail, Polarity Polarity)[] own = [.. RailsOf(metal)];
            if (own.Select(rail => rail.Polarity).Distinct().Count() == 1)
            {
                // One with rails of one polarity only: it keeps that, and what it is bonded to follows it.
                return null;
            }

            (string Position, Polarity Polarity)[] fed =
            [
                .. _row.Switched
                    .Where(bond => (MetalOf(bond.From) == metal) != (MetalOf(bond.To) == metal))
                    .Select(bond => (bond.Position, Other: MetalOf(bond.From) == metal ? MetalOf(bond.To) : MetalOf(bond.From)))
                    .Select(bond => (bond.Position, Keeps: RailsOf(bond.Other).Select(rail => rail.Polarity).Distinct().ToArray()))
                    .Where(bond => bond.Keeps.Length == 1)
                    .Select(bond => (bond.Position, bond.Keeps[0])),
            ];
            return own.Select(rail => rail.Polarity).Concat(fed.Select(one => one.Polarity)).Distinct().Count() < 2
                ? null
                : new(
                    _piece,
                    names,
                    [
                        .. own.Select(rail => new FollowingRail(
                            new(_piece.End(rail.Rail.Name), rail.Rail.Side!.Value),
                            [.. fed.Where(one => one.Polarity != rail.Polarity).Select(one => one.Position).Distinct()])),
                    ],
                    [.. fed.Select(one => one.Position).Distinct()]);
        }

        /// <summary>The rails at ends that are one with a conductor.</summary>
        private IEnumerable<(PieceNode Rail, Polarity Polarity)> RailsOf(int metal) =>
            from node in _nodes
            where node.Side is not null && MetalOf(node) == metal
            from number in Enumerable.Range(0, _row.Phases.Length)
            let isPlus = _row.Phases[number].Plus.Contains(node.Name)
            where isPlus || _row.Phases[number].Minus.Contains(node.Name)
            select (node, new Polarity(number, isPlus == (node.Side == RailSide.Right)));
    }
}

/// <summary>A rail at an end of a piece that is one with a conductor that follows the piece's position.</summary>
/// <param name="Rail">The rail, looking out of the end.</param>
/// <param name="Against">Positions in which the conductor has the polarity of the rail beside this one; none where nothing feeds it.</param>
internal readonly record struct FollowingRail(RailEnd Rail, ImmutableArray<string> Against);
