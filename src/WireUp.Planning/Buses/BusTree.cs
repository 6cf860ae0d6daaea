using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Buses;

/// <summary>A tree of corridor edges that joins all terminals to a root.</summary>
/// <param name="Edges">Its edges, ascending.</param>
/// <param name="Metres">Its length.</param>
/// <param name="BoundMetres">No tree that joins them is shorter.</param>
/// <param name="Unreached">Terminals that no way along the corridor leads to.</param>
internal sealed record BusTree(ImmutableArray<int> Edges, double Metres, double BoundMetres, ImmutableArray<int> Unreached);

/// <summary>
/// The shortest tree that joins some points. What is decided is taken first: points where less than three edges meet are passed
/// over; an edge between two terminals that is in a shortest spanning tree of everything is in some shortest tree too, so its ends
/// become one; and parts that hang together in one point only are solved one by one, that point being a terminal of each. What is left
/// is solved exactly where it has few terminals; else a tree is improved step by step, and a dual ascent says how short any can be.
/// Source of such reductions: C. Duin and A. Volgenant, Reduction tests for the Steiner problem in graphs, Networks 19 (1989) 549–567.
/// </summary>
internal static class BusTreeFinder
{
    // Every set of the terminals but one is looked at: 3^11 pairs of sets for each point.
    private const int MostExactTerminals = 12;

    // Sums of one length added up in different orders differ by less.
    private const double ProvedMetres = 1e-6;

    /// <summary>Finds a tree.</summary>
    /// <param name="along">Where wire can run.</param>
    /// <param name="roots">Points that are joined already: a booster, or a bus that is there.</param>
    /// <param name="terminals">Points to join.</param>
    public static BusTree Find(Corridor along, ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        (double[] reach, _) = along.From(roots);
        HashSet<int> joined = [.. roots];
        (Corridor merged, ImmutableArray<int> kept) = along.Merging(point => joined.Contains(point) ? roots[0] : point);
        ImmutableArray<int> reached = [roots[0], .. terminals.Where(terminal => !joined.Contains(terminal) && !double.IsInfinity(reach[terminal])).Distinct().Order()];
        Part tree = Solve(merged, reached);
        ImmutableArray<int> edges = [.. tree.Edges.Select(edge => kept[edge]).Order()];
        double metres = edges.Sum(edge => along.Edges[edge].Metres);
        return new(edges, metres, tree.BoundMetres > metres - ProvedMetres ? metres : tree.BoundMetres, [.. terminals.Where(terminal => double.IsInfinity(reach[terminal]))]);
    }

    private readonly record struct Part(IEnumerable<int> Edges, double BoundMetres);

    private static Part Solve(Corridor corridor, ImmutableArray<int> terminals)
    {
        if (terminals.Length < 2)
        {
            return new([], 0);
        }

        (Corridor between, ImmutableArray<int> points, ImmutableArray<ImmutableArray<int>> chains) = corridor.Between(terminals.ToHashSet());
        ImmutableArray<int> ends = [.. terminals.Select(terminal => points.BinarySearch(terminal))];
        Part part = Reduce(between, ends);
        return part with { Edges = part.Edges.SelectMany(edge => chains[edge]) };
    }

    private static Part Reduce(Corridor corridor, ImmutableArray<int> terminals)
    {
        (ImmutableArray<int> taken, DisjointSetsWorkspace joined) = Certain(corridor, [.. terminals]);
        (Corridor merged, ImmutableArray<int> kept) = corridor.Merging(joined.Find);
        ImmutableArray<int> ends = [.. terminals.Select(joined.Find).Distinct().Order()];
        ImmutableArray<ImmutableArray<int>> parts = BiconnectedParts.Of(merged.PointCount, [.. merged.Edges.Select(edge => (edge.From, edge.To))]);
        if (taken.IsEmpty && parts.Length == 1)
        {
            return Tree(corridor, terminals);
        }

        double bound = taken.Sum(edge => corridor.Edges[edge].Metres);
        List<int> edges = [.. taken];
        foreach ((ImmutableArray<int> part, ImmutableArray<int> own) in Needed(merged, parts, [.. ends]))
        {
            Part solved = Solve(Corridor.Of(merged.PointCount, part.Select(edge => merged.Edges[edge])), own);
            edges.AddRange(solved.Edges.Select(edge => kept[part[edge]]));
            bound += solved.BoundMetres;
        }

        return new(edges, bound);
    }

    private static Part Tree(Corridor corridor, ImmutableArray<int> terminals)
    {
        if (terminals.Length <= MostExactTerminals)
        {
            // Edges without length may close a ring at no cost.
            SortedSet<int> exact = new ImprovedTree(corridor, terminals).SpanningTree(new ExactTreeWorkspace(corridor, terminals).Find());
            return new(exact, exact.Sum(edge => corridor.Edges[edge].Metres));
        }

        return new(new ImprovedTree(corridor, terminals).Find(), new DualAscentWorkspace(corridor, terminals[0], terminals[1..]).Bound());
    }

    /// <summary>Edges of a shortest spanning tree that join two terminals, and the points that they make one.</summary>
    private static (ImmutableArray<int> Taken, DisjointSetsWorkspace Joined) Certain(Corridor corridor, HashSet<int> terminals)
    {
        DisjointSetsWorkspace spanned = new(corridor.PointCount), joined = new(corridor.PointCount);
        ImmutableArray<int>.Builder taken = ImmutableArray.CreateBuilder<int>();
        foreach (int edge in Enumerable.Range(0, corridor.Edges.Length).OrderBy(edge => corridor.Edges[edge].Metres).ThenBy(edge => edge))
        {
            (int from, int to, _) = corridor.Edges[edge];
            if (spanned.Find(from) != spanned.Find(to))
            {
                spanned.Join(from, to);
                if (terminals.Contains(from) && terminals.Contains(to))
                {
                    taken.Add(edge);
                    joined.Join(from, to);
                }
            }
        }

        return (taken.ToImmutable(), joined);
    }

    /// <summary>The parts that have terminals of their own or lie between such; each with the points it has to join.</summary>
    private static IEnumerable<(ImmutableArray<int> Edges, ImmutableArray<int> Terminals)> Needed(
        Corridor corridor, ImmutableArray<ImmutableArray<int>> parts, HashSet<int> terminals)
    {
        List<(ImmutableArray<int> Edges, HashSet<int> Points)> left =
            [.. parts.Select(part => (part, part.SelectMany(edge => new[] { corridor.Edges[edge].From, corridor.Edges[edge].To }).ToHashSet()))];
        Dictionary<int, int> uses = left.SelectMany(part => part.Points).CountBy(point => point).ToDictionary();
        while (left.RemoveAll(part => IsIdle(part.Points)) > 0)
        {
        }

        return left.Select(part => (part.Edges, part.Points.Where(point => terminals.Contains(point) || uses[point] > 1).Order().ToImmutableArray()));

        bool IsIdle(HashSet<int> points)
        {
            int[] shared = [.. points.Where(point => uses[point] > 1)];
            if (shared.Length > 1 || points.Any(point => terminals.Contains(point) && !shared.Contains(point)))
            {
                return false;
            }

            foreach (int point in points)
            {
                uses[point]--;
            }

            return true;
        }
    }
}
