using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Buses;

/// <summary>
/// A short tree for when there are too many terminals to try every set of them. A first tree joins the nearest terminal again and
/// again; it is then improved by leaving out or taking in one branching point at a time.
/// Source: H. Takahashi and A. Matsuyama, An approximate solution for the Steiner problem in graphs, Math. Japonica 24 (1980) 573–577.
/// </summary>
/// <param name="corridor">Where wire can run.</param>
/// <param name="terminals">Points to join, at least one; the first is the root.</param>
internal sealed class ImprovedTree(Corridor corridor, ImmutableArray<int> terminals)
{
    private const int MostRounds = 4, MostStarts = 4;

    private int Root => terminals[0];

    /// <summary>The edges of the best tree found, ascending.</summary>
    public ImmutableArray<int> Find() => [.. Starts().Select(Improve).MinBy(tree => Math.Round(LengthOf(tree), 9))!];

    /// <summary>Trees to improve on: nearest terminal first, farthest terminal first, and all track spanned.</summary>
    private IEnumerable<SortedSet<int>> Starts()
    {
        yield return Grow([Root], terminals);
        (double[] metres, _) = corridor.From([Root]);
        foreach (int first in terminals.OrderByDescending(terminal => Math.Round(metres[terminal], 9)).ThenBy(terminal => terminal).Take(MostStarts))
        {
            SortedSet<int> trunk = Grow([Root], [first]);
            SortedSet<int> branches = Grow(PointsOf(trunk), terminals);
            yield return SpanningTree(trunk.Union(branches));
        }

        yield return SpanningTree(Enumerable.Range(0, corridor.Edges.Length));
    }

    /// <summary>
    /// Joins the nearest terminal that is not in the tree yet, until all are. Ways found so far are kept: what a terminal adds to
    /// the tree only makes them shorter.
    /// </summary>
    private SortedSet<int> Grow(IEnumerable<int> starts, IEnumerable<int> wanted)
    {
        SortedSet<int> edges = [];
        double[] metres = new double[corridor.PointCount];
        int[] by = new int[corridor.PointCount];
        Array.Fill(metres, double.PositiveInfinity);
        PriorityQueue<int, (double Metres, int Point)> open = new();
        HashSet<int> left = [.. wanted];
        foreach (int start in starts)
        {
            Join(start);
        }

        while (left.Count > 0 && open.TryDequeue(out int point, out (double Metres, int Point) priority))
        {
            if (priority.Metres > metres[point])
            {
                continue;
            }

            if (left.Contains(point))
            {
                for (int at = point; ;)
                {
                    int edge = by[at];
                    Join(at);
                    if (edge < 0)
                    {
                        break;
                    }

                    edges.Add(edge);
                    at = corridor.Opposite(edge, at);
                }

                continue;
            }

            corridor.Follow(point, open, metres, by);
        }

        return edges;

        void Join(int point)
        {
            (metres[point], by[point]) = (0, -1);
            open.Enqueue(point, (0, point));
            left.Remove(point);
        }
    }

    private SortedSet<int> Improve(SortedSet<int> edges)
    {
        double best = LengthOf(edges);
        int[] branchings = [.. Enumerable.Range(0, corridor.PointCount).Where(point => corridor.EdgesAt[point].Length > 2)];
        for (int round = 0, changes = 1; round < MostRounds && changes > 0; round++)
        {
            changes = 0;
            foreach (int point in branchings)
            {
                SortedSet<int> other = Touches(edges, point) ? Without(edges, point) : With(edges, point);
                if (LengthOf(other) < best - 1e-6)
                {
                    (edges, best, changes) = (other, LengthOf(other), changes + 1);
                }
            }
        }

        return edges;
    }

    private bool Touches(SortedSet<int> edges, int point) => corridor.EdgesAt[point].Any(edges.Contains);

    /// <summary>The tree that also calls at a point, if that lets it leave out something longer.</summary>
    private SortedSet<int> With(SortedSet<int> edges, int point)
    {
        (double[] metres, int[] by) = corridor.From(PointsOf(edges));
        if (double.IsInfinity(metres[point]))
        {
            return edges;
        }

        SortedSet<int> wider = [.. edges];
        foreach (int edge in corridor.EdgesAt[point])
        {
            for (int at = corridor.Opposite(edge, point); by[at] >= 0 && wider.Add(by[at]); at = corridor.Opposite(by[at], at))
            {
            }

            wider.Add(edge);
        }

        return SpanningTree(wider);
    }

    /// <summary>The tree grown anew from the branching points of this one but for one of them.</summary>
    private SortedSet<int> Without(SortedSet<int> edges, int point)
    {
        int[] keys = [.. PointsOf(edges).Where(at => at != point && corridor.EdgesAt[at].Count(edges.Contains) > 2)];
        return SpanningTree(Grow([Root], terminals.Union(keys)));
    }

    /// <summary>The shortest spanning tree of some edges, with all ends that are no terminal taken off.</summary>
    public SortedSet<int> SpanningTree(IEnumerable<int> edges)
    {
        DisjointSetsWorkspace joined = new(corridor.PointCount);
        SortedSet<int> tree = [];
        foreach (int edge in edges.OrderBy(edge => corridor.Edges[edge].Metres).ThenBy(edge => edge))
        {
            (int from, int to, _) = corridor.Edges[edge];
            if (joined.Find(from) != joined.Find(to))
            {
                joined.Join(from, to);
                tree.Add(edge);
            }
        }

        Prune(tree);
        return tree;
    }

    private void Prune(SortedSet<int> tree)
    {
        Stack<int> loose = new(tree.SelectMany(edge => new[] { corridor.Edges[edge].From, corridor.Edges[edge].To }).Distinct());
        while (loose.TryPop(out int point))
        {
            int[] edges = [.. corridor.EdgesAt[point].Where(tree.Contains)];
            if (edges.Length == 1 && !terminals.Contains(point))
            {
                tree.Remove(edges[0]);
                loose.Push(corridor.Opposite(edges[0], point));
            }
        }
    }

    private IEnumerable<int> PointsOf(SortedSet<int> edges) =>
        edges.SelectMany(edge => new[] { corridor.Edges[edge].From, corridor.Edges[edge].To }).Append(Root).Distinct().Order();

    private double LengthOf(SortedSet<int> edges) => edges.Sum(edge => corridor.Edges[edge].Metres);
}
