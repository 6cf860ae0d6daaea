using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Finds positions in which a rail has no current.</summary>
internal sealed class FeedStates(RailGraph graph, RailNets nets, BridgeSearchWorkspace search)
{
    private const int MostPositions = 3;

    private readonly Dictionary<PieceId, ImmutableArray<string>> _positions = [];

    /// <summary>Whether the net has current in some positions, or that was not found out.</summary>
    internal bool IsEverFed(int net) => search.FedFrom(net, Anything).Any() || search.RanOut;

    /// <summary>
    /// The fewest positions, besides those given, in which a net has no current; null where it has some in all that were tried: up to
    /// three positions more than given.
    /// </summary>
    internal ImmutableSortedDictionary<PieceId, string>? DeadWhen(int net, ImmutableSortedDictionary<PieceId, string> given) =>
        nets.IsFed(net) ? null : Fewest(settled => Ways([.. search.FedFrom(net, settled).Take(1)]), given);

    /// <summary>
    /// The fewest positions in which two rails do not have opposite legs of one supply; null where they have in all that were tried.
    /// </summary>
    internal ImmutableSortedDictionary<PieceId, string>? TrackDeadWhen(int first, int second) => Fewest(
        settled => search.Worst(first, second, settled, (kind, _, _) => kind == MeetingKind.Short) is { } live
            ? Ways([live.Near, live.Far])
            : null,
        Anything);

    /// <summary>Positions in which exactly one of two nets has current, or null.</summary>
    internal ImmutableSortedDictionary<PieceId, string>? OneOnly(int first, int second)
    {
        foreach ((int fed, int dead) in new[] { (first, second), (second, first) })
        {
            foreach (NetWay way in search.FedFrom(fed, Anything))
            {
                if (Positions(way) is { } positions && DeadWhen(dead, positions) is { } found)
                {
                    return found;
                }
            }
        }

        return null;
    }

    private static ImmutableSortedDictionary<PieceId, string> Anything => ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>The pieces on which some ways depend, or null where there is no way.</summary>
    private ImmutableArray<PieceId>? Ways(ImmutableArray<NetWay> ways) => ways.IsEmpty
        ? null
        : [.. ways.SelectMany(way => way.Contacts).Select(contact => search.Contacts[contact].Piece).Distinct()];

    private ImmutableSortedDictionary<PieceId, string>? Fewest(
        Func<ImmutableSortedDictionary<PieceId, string>, ImmutableArray<PieceId>?> way, ImmutableSortedDictionary<PieceId, string> given)
    {
        for (int more = 0; more <= MostPositions; more++)
        {
            if (Without(way, given, more) is { } found)
            {
                return found;
            }
        }

        return null;
    }

    /// <summary>Positions in which there is no way: every way that there is must be broken at one of the pieces it depends on.</summary>
    private ImmutableSortedDictionary<PieceId, string>? Without(
        Func<ImmutableSortedDictionary<PieceId, string>, ImmutableArray<PieceId>?> way, ImmutableSortedDictionary<PieceId, string> given, int more)
    {
        if (way(given) is not { } pieces)
        {
            return search.RanOut ? null : given;
        }

        foreach (PieceId piece in more == 0 ? [] : pieces)
        {
            foreach (string position in given.ContainsKey(piece) ? [] : PositionsOf(piece))
            {
                if (Without(way, given.Add(piece, position), more - 1) is { } found)
                {
                    return found;
                }
            }
        }

        return null;
    }

    private ImmutableArray<string> PositionsOf(PieceId piece)
    {
        if (!_positions.TryGetValue(piece, out ImmutableArray<string> positions))
        {
            _positions[piece] = positions = graph.PositionsOf(piece);
        }

        return positions;
    }

    /// <summary>The positions of a way, or null where it needs one piece in two of them.</summary>
    private ImmutableSortedDictionary<PieceId, string>? Positions(NetWay way)
    {
        ImmutableSortedDictionary<PieceId, string>.Builder positions = ImmutableSortedDictionary.CreateBuilder<PieceId, string>();
        foreach (NetContact contact in way.Contacts.Select(index => search.Contacts[index]))
        {
            if (positions.TryGetValue(contact.Piece, out string? known) && known != contact.Position)
            {
                return null;
            }

            positions[contact.Piece] = contact.Position;
        }

        return positions.ToImmutable();
    }
}
