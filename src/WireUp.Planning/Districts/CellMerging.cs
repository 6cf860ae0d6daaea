using System.Collections.Immutable;

namespace WireUp.Planning.Districts;

/// <summary>
/// Makes large track coarser: draws neighbouring cells together as long as the sum stays short, first those that most boundaries would have
/// to part, such as the two roads of a passing loop, then the shortest. Heavy-edge matching in rounds. Source: G. Karypis, V. Kumar, A fast
/// and high quality multilevel scheme for partitioning irregular graphs, SIAM Journal on Scientific Computing 20 (1998) 359–392 (from memory).
/// </summary>
internal static class CellMerging
{
    /// <summary>The map in cells of up to a length; cells that are longer stay as they are.</summary>
    /// <param name="map">The cells.</param>
    /// <param name="mostMetres">Longest cell to make.</param>
    /// <param name="nameOf">The district that a cell must go to, or null; only cells of one name, or of none, are drawn together.</param>
    public static CellGraph Merged(CellGraph map, double mostMetres, Func<TrackCell, string?> nameOf)
    {
        while (Round(map, mostMetres, nameOf) is { IsEmpty: false } pairs)
        {
            map = map.DrawnTogether(edge => pairs.Contains(PairOf(edge)));
        }

        return map;
    }

    /// <summary>Pairs to draw together, no cell in two of them.</summary>
    private static ImmutableHashSet<(int, int)> Round(CellGraph map, double mostMetres, Func<TrackCell, string?> nameOf)
    {
        string?[] names = [.. map.Cells.Select(nameOf)];
        double[] metres = [.. map.Cells.Select(cell => cell.LengthMetres)];
        HashSet<int> taken = [];
        return
        [
            .. map.Edges.GroupBy(PairOf, edge => edge.Boundary.Cost)
                .Select(group => (Pair: group.Key, Cost: group.Sum(), Metres: Math.Round(metres[group.Key.One] + metres[group.Key.Other], 6)))
                .Where(each => each.Metres <= mostMetres && names[each.Pair.One] == names[each.Pair.Other])
                .OrderByDescending(each => each.Cost).ThenBy(each => each.Metres).ThenBy(each => each.Pair)
                .Select(each => each.Pair)
                .Where(pair => !taken.Contains(pair.One) && !taken.Contains(pair.Other) && taken.Add(pair.One) && taken.Add(pair.Other)),
        ];
    }

    private static (int One, int Other) PairOf(CellEdge edge) => (Math.Min(edge.From, edge.To), Math.Max(edge.From, edge.To));
}
