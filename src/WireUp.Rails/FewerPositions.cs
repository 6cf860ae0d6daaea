using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Leaves out of a way over contacts every position that it can do without. The way with the fewest contacts need not be the one with the
/// fewest positions: a longer way may keep to blades that are set already.
/// </summary>
internal sealed class FewerPositions(ContactWeb web)
{
    /// <summary>Ways that take more pieces than this are left as they are, to bound the work.</summary>
    private const int MostPieces = 12;

    /// <summary>A way between the same nets for which no position can be left out.</summary>
    internal ImmutableArray<int> Of(int net, ImmutableArray<int> way)
    {
        HashSet<(PieceId Piece, string Position)> needed = [.. way.Select(Setting)];
        if (needed.Count is < 2 or > MostPieces)
        {
            return way;
        }

        int goal = way.Aggregate(net, web.Opposite);
        foreach ((PieceId, string) setting in needed.OrderBy(setting => setting).ToList())
        {
            needed.Remove(setting);
            if (Shortest(net, goal, needed) is { } shorter)
            {
                way = shorter;
                needed.IntersectWith(way.Select(Setting));
            }
            else if (way.Select(Setting).Contains(setting))
            {
                needed.Add(setting);
            }
        }

        return way;
    }

    private (PieceId, string) Setting(int contact) => (web.Contacts[contact].Piece, web.Contacts[contact].Position);

    /// <summary>The shortest way over contacts of those settings; it may pass fed nets as well.</summary>
    private ImmutableArray<int>? Shortest(int start, int goal, HashSet<(PieceId, string)> settings)
    {
        Dictionary<int, (int Contact, int From)> cameFrom = new() { [start] = (-1, -1) };
        Queue<int> queue = new([start]);
        while (queue.TryDequeue(out int net) && !cameFrom.ContainsKey(goal))
        {
            foreach (int contact in web.Touching(net))
            {
                int next = web.Opposite(net, contact);
                if (settings.Contains(Setting(contact)) && cameFrom.TryAdd(next, (contact, net)))
                {
                    queue.Enqueue(next);
                }
            }
        }

        return cameFrom.ContainsKey(goal) ? Back(goal, cameFrom) : null;
    }

    private static ImmutableArray<int> Back(int goal, Dictionary<int, (int Contact, int From)> cameFrom)
    {
        List<int> way = [];
        for (int at = goal; cameFrom[at].Contact >= 0; at = cameFrom[at].From)
        {
            way.Add(cameFrom[at].Contact);
        }

        way.Reverse();
        return [.. way];
    }
}
