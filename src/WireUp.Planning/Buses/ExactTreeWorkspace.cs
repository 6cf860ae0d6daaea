using System.Collections.Immutable;

namespace WireUp.Planning.Buses;

/// <summary>
/// The shortest tree that joins some terminals, by dynamic programming over sets of them: the shortest tree that joins a set and ends at
/// a point is two such trees of smaller sets that meet there, or one of a neighbouring point and the edge between. Takes 3^k steps for each
/// point and k + 1 terminals.
/// Sources: S. E. Dreyfus and R. A. Wagner, The Steiner problem in graphs, Networks 1 (1971) 195–207; with shortest ways for each set
/// as in R. E. Erickson, C. L. Monma and A. F. Veinott, Send-and-split method for minimum-concave-cost network flows,
/// Mathematics of Operations Research 12 (1987) 634–664.
/// </summary>
internal sealed class ExactTreeWorkspace
{
    private const int None = int.MaxValue;

    private readonly Corridor _corridor;
    private readonly ImmutableArray<int> _terminals;
    private readonly int _root;
    private readonly double[][] _metres;

    /// <summary>For each set and point how the tree ends there: an edge, or the complement of a smaller set, or nothing.</summary>
    private readonly int[][] _by;

    /// <summary>Prepares the tables.</summary>
    /// <param name="corridor">Where wire can run; leads from each terminal to every other.</param>
    /// <param name="terminals">Points to join, all different, at least one.</param>
    public ExactTreeWorkspace(Corridor corridor, ImmutableArray<int> terminals)
    {
        (_corridor, _root, _terminals) = (corridor, terminals[0], terminals[1..]);
        int sets = 1 << _terminals.Length;
        _metres = [.. Enumerable.Range(0, sets).Select(_ => new double[corridor.PointCount])];
        _by = [.. Enumerable.Range(0, sets).Select(_ => new int[corridor.PointCount])];
    }

    /// <summary>The edges of a shortest tree, ascending.</summary>
    public ImmutableArray<int> Find()
    {
        int all = _metres.Length - 1;
        for (int set = 1; set <= all; set++)
        {
            Meet(set);
            Spread(set);
        }

        SortedSet<int> edges = [];
        Collect(all, _root, edges);
        return [.. edges];
    }

    /// <summary>Trees of two smaller sets that meet in a point. Each pair is looked at once: the part keeps the lowest terminal.</summary>
    private void Meet(int set)
    {
        (double[] metres, int[] by) = (_metres[set], _by[set]);
        Array.Fill(metres, double.PositiveInfinity);
        Array.Fill(by, None);
        int lowest = set & -set, others = set ^ lowest;
        if (others == 0)
        {
            metres[_terminals[int.TrailingZeroCount(set)]] = 0;
        }

        for (int rest = others; rest > 0; rest = (rest - 1) & others)
        {
            (double[] one, double[] other) = (_metres[set ^ rest], _metres[rest]);
            for (int point = 0; point < metres.Length; point++)
            {
                if (one[point] + other[point] < metres[point])
                {
                    (metres[point], by[point]) = (one[point] + other[point], ~rest);
                }
            }
        }
    }

    /// <summary>Shortest ways on from where the trees of a set end.</summary>
    private void Spread(int set)
    {
        (double[] metres, int[] by) = (_metres[set], _by[set]);
        PriorityQueue<int, (double Metres, int Point)> open = new(
            Enumerable.Range(0, metres.Length).Where(point => !double.IsInfinity(metres[point])).Select(point => (point, (metres[point], point))));
        _corridor.Spread(open, metres, by);
    }

    private void Collect(int set, int point, SortedSet<int> edges)
    {
        for (; _by[set][point] is >= 0 and not None; point = _corridor.Opposite(_by[set][point], point))
        {
            edges.Add(_by[set][point]);
        }

        if (_by[set][point] < 0)
        {
            int rest = ~_by[set][point];
            Collect(rest, point, edges);
            Collect(set ^ rest, point, edges);
        }
    }
}
