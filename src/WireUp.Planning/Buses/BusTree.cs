using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Buses;

/// <summary>A tree of corridor edges that joins all terminals to a root.</summary>
/// <param name="Edges">Its edges, ascending.</param>
/// <param name="Metres">Its length.</param>
/// <param name="BoundMetres">No tree that joins them is shorter.</param>
/// <param name="Unreached">Terminals that no way along the track leads to.</param>
internal sealed record BusTree(ImmutableArray<int> Edges, double Metres, double BoundMetres, ImmutableArray<int> Unreached);

/// <summary>
/// Short trees along the track. A first tree joins the nearest terminal again and again; it is then improved by leaving out
/// or taking in one branching point at a time; a dual ascent says how short any tree can be at best.
/// Sources: H. Takahashi and A. Matsuyama, An approximate solution for the Steiner problem in graphs, Math. Japonica 24 (1980)
/// 573–577; R. T. Wong, A dual ascent approach for Steiner tree problems on a directed graph, Mathematical Programming 28 (1984) 271–287.
/// </summary>
internal sealed class BusTreeFinder
{
    private const int MostRounds = 4, MostStarts = 4;

    private readonly Corridor _corridor;

    private BusTreeFinder(Corridor corridor) => _corridor = corridor;

    /// <summary>Finds a tree.</summary>
    /// <param name="along">Where wire can run.</param>
    /// <param name="roots">Points that are joined already: a booster, or a bus that is there.</param>
    /// <param name="terminals">Points to join.</param>
    public static BusTree Find(Corridor along, ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        (Corridor between, ImmutableArray<int> points, ImmutableArray<ImmutableArray<int>> chains) =
            along.Between(roots.Concat(terminals).ToHashSet());
        BusTree tree = new BusTreeFinder(between).Find(
            [.. roots.Select(root => points.BinarySearch(root))], [.. terminals.Select(terminal => points.BinarySearch(terminal))]);
        return tree with
        {
            Edges = [.. tree.Edges.SelectMany(edge => chains[edge]).Order()],
            Unreached = [.. tree.Unreached.Select(point => points[point])],
        };
    }

    private BusTree Find(ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        (double[] reach, _) = _corridor.From(roots);
        ImmutableArray<int> reached = [.. terminals.Where(terminal => !double.IsInfinity(reach[terminal])).Distinct().Order()];
        SortedSet<int> edges = Starts(roots, reached)
            .Select(start => Improve(roots, reached, start))
            .MinBy(tree => Math.Round(LengthOf(tree), 9)) ?? [];
        double metres = edges.Sum(edge => _corridor.Edges[edge].Metres);
        return new(
            [.. edges],
            metres,
            Math.Min(metres, new DualAscentWorkspace(_corridor, roots, reached).Bound()),
            [.. terminals.Where(terminal => double.IsInfinity(reach[terminal]))]);
    }

    /// <summary>Trees to improve on: nearest terminal first, farthest terminal first, and all track spanned.</summary>
    private IEnumerable<SortedSet<int>> Starts(ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        yield return Grow(roots, terminals);
        (double[] metres, _) = _corridor.From(roots);
        foreach (int first in terminals.OrderByDescending(terminal => Math.Round(metres[terminal], 9)).ThenBy(terminal => terminal).Take(MostStarts))
        {
            SortedSet<int> trunk = Grow(roots, [first]);
            SortedSet<int> branches = Grow(PointsOf(roots, trunk), terminals);
            yield return SpanningTree(roots, terminals, [.. trunk, .. branches]);
        }

        yield return SpanningTree(roots, terminals, [.. Enumerable.Range(0, _corridor.Edges.Length)]);
    }

    /// <summary>
    /// Joins the nearest terminal that is not in the tree yet, until all are. Ways found so far are kept: what a terminal adds to
    /// the tree only makes them shorter.
    /// </summary>
    private SortedSet<int> Grow(IEnumerable<int> roots, IEnumerable<int> terminals)
    {
        SortedSet<int> edges = [];
        double[] metres = new double[_corridor.PointCount];
        int[] by = new int[_corridor.PointCount];
        Array.Fill(metres, double.PositiveInfinity);
        PriorityQueue<int, (double Metres, int Point)> open = new();
        HashSet<int> left = [.. terminals];
        foreach (int root in roots)
        {
            Join(root);
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
                    at = _corridor.Opposite(edge, at);
                }

                continue;
            }

            foreach (int edge in _corridor.EdgesAt[point])
            {
                int other = _corridor.Opposite(edge, point);
                double through = priority.Metres + _corridor.Edges[edge].Metres;
                if (through < metres[other])
                {
                    (metres[other], by[other]) = (through, edge);
                    open.Enqueue(other, (through, other));
                }
            }
        }

        return edges;

        void Join(int point)
        {
            (metres[point], by[point]) = (0, -1);
            open.Enqueue(point, (0, point));
            left.Remove(point);
        }
    }

    private SortedSet<int> Improve(ImmutableArray<int> roots, ImmutableArray<int> terminals, SortedSet<int> edges)
    {
        double best = LengthOf(edges);
        int[] branchings = [.. Enumerable.Range(0, _corridor.PointCount).Where(point => _corridor.EdgesAt[point].Length > 2)];
        for (int round = 0, changes = 1; round < MostRounds && changes > 0; round++)
        {
            changes = 0;
            foreach (int point in branchings)
            {
                SortedSet<int> other = Touches(edges, point) ? Without(roots, terminals, edges, point) : With(roots, terminals, edges, point);
                if (LengthOf(other) < best - 1e-6)
                {
                    (edges, best, changes) = (other, LengthOf(other), changes + 1);
                }
            }
        }

        return edges;
    }

    private bool Touches(SortedSet<int> edges, int point) => _corridor.EdgesAt[point].Any(edges.Contains);

    /// <summary>The tree that also calls at a point, if that lets it leave out something longer.</summary>
    private SortedSet<int> With(ImmutableArray<int> roots, ImmutableArray<int> terminals, SortedSet<int> edges, int point)
    {
        (double[] metres, int[] by) = _corridor.From(PointsOf(roots, edges));
        if (double.IsInfinity(metres[point]))
        {
            return edges;
        }

        SortedSet<int> wider = [.. edges];
        foreach (int edge in _corridor.EdgesAt[point])
        {
            for (int at = _corridor.Opposite(edge, point); by[at] >= 0 && wider.Add(by[at]); at = _corridor.Opposite(by[at], at))
            {
            }

            wider.Add(edge);
        }

        return SpanningTree(roots, terminals, wider);
    }

    /// <summary>The tree grown anew from the branching points of this one but for one of them.</summary>
    private SortedSet<int> Without(ImmutableArray<int> roots, ImmutableArray<int> terminals, SortedSet<int> edges, int point)
    {
        int[] keys = [.. PointsOf(roots, edges).Where(at => at != point && _corridor.EdgesAt[at].Count(edges.Contains) > 2)];
        return SpanningTree(roots, terminals, Grow(roots, [.. terminals.Union(keys)]));
    }

    /// <summary>The shortest spanning tree of some edges, with all ends that are neither root nor terminal taken off.</summary>
    private SortedSet<int> SpanningTree(ImmutableArray<int> roots, ImmutableArray<int> terminals, SortedSet<int> edges)
    {
        DisjointSetsWorkspace joined = new(_corridor.PointCount);
        foreach (int root in roots)
        {
            joined.Join(roots[0], root);
        }

        SortedSet<int> tree = [];
        foreach (int edge in edges.OrderBy(edge => _corridor.Edges[edge].Metres).ThenBy(edge => edge))
        {
            (int from, int to, _) = _corridor.Edges[edge];
            if (joined.Find(from) != joined.Find(to))
            {
                joined.Join(from, to);
                tree.Add(edge);
            }
        }

        Prune(tree, [.. roots, .. terminals]);
        return tree;
    }

    private void Prune(SortedSet<int> tree, HashSet<int> kept)
    {
        Stack<int> loose = new(tree.SelectMany(edge => new[] { _corridor.Edges[edge].From, _corridor.Edges[edge].To }).Distinct());
        while (loose.TryPop(out int point))
        {
            int[] edges = [.. _corridor.EdgesAt[point].Where(tree.Contains)];
            if (edges.Length == 1 && !kept.Contains(point))
            {
                tree.Remove(edges[0]);
                loose.Push(_corridor.Opposite(edges[0], point));
            }
        }
    }

    private IEnumerable<int> PointsOf(ImmutableArray<int> roots, SortedSet<int> edges) =>
        roots.Concat(edges.SelectMany(edge => new[] { _corridor.Edges[edge].From, _corridor.Edges[edge].To })).Distinct().Order();

    private double LengthOf(SortedSet<int> edges) => edges.Sum(edge => _corridor.Edges[edge].Metres);
}
