using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Finds positions in which a rail has no current.</summary>
internal sealed class FeedStates(RailGraph graph, RailNets nets, BridgeSearchWorkspace search)
{
    private const int MostPositions = 3;

    private readonly Dictionary<PieceId, ImmutableArray<string>> _positions = [];

    /// <summary>Whether the net has current in some positions.</summary>
    internal bool IsEverFed(int net) => !search.FedFrom(net, Anything).IsEmpty;

    /// <summary>
    /// The fewest positions, besides those given, in which a net has no current; null where it has some in all that were tried: up to
    /// three positions more than given.
    /// </summary>
    internal ImmutableSortedDictionary<PieceId, string>? DeadWhen(int net, ImmutableSortedDictionary<PieceId, string> given)
    {
        for (int more = 0; more <= MostPositions && !nets.IsFed(net); more++)
        {
            if (Dead(net, given, more) is { } found)
            {
                return found;
            }
        }

        return null;
    }

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

    private ImmutableSortedDictionary<PieceId, string>? Dead(int net, ImmutableSortedDictionary<PieceId, string> given, int more)
    {
        ImmutableArray<NetWay> ways = search.FedFrom(net, given);
        if (ways.IsEmpty)
        {
            return given;
        }

        foreach (PieceId piece in more == 0 ? [] : ways[0].Contacts.Select(contact => search.Contacts[contact].Piece).Distinct())
        {
            foreach (string position in given.ContainsKey(piece) ? [] : PositionsOf(piece))
            {
                if (Dead(net, given.Add(piece, position), more - 1) is { } found)
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
