using System.Collections.Immutable;
using Google.OrTools.Sat;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>The edges to cut in one 2-connected part of a signed graph, as a constraint programme.</summary>
internal static class FrustratedBlock
{
    private const int MostRoots = 40;

    /// <summary>The cheapest edges found, and a bound.</summary>
    internal static (IEnumerable<int> Cut, int Bound) Of(ImmutableArray<SignedEdge> edges, ImmutableArray<int> block, double budgetSeconds)
    {
        if (IsBalanced(edges, block))
        {
            return ([], 0);
        }

        CpModel model = new();
        Dictionary<int, BoolVar> cut = block.ToDictionary(edge => edge, edge => model.NewBoolVar($"y{edge}"));
        int[] vertices = [.. block.SelectMany(edge => new[] { edges[edge].One, edges[edge].Other }).Distinct().Order()];
        Dictionary<int, BoolVar> label = vertices.ToDictionary(vertex => vertex, vertex => model.NewBoolVar($"x{vertex}"));
        _ = model.Add(label[vertices[0]] == 0);
        foreach (int edge in block)
        {
            AddEdge(model, cut[edge], (label[edges[edge].One], label[edges[edge].Other]), edges[edge].Negative);
        }

        AddDegrees(model, edges, block, cut);
        foreach (ImmutableArray<int> cycle in vertices.Take(MostRoots).SelectMany(root => OddCyclesFrom(root, edges, block)))
        {
            _ = model.AddBoolOr(cycle.Select(edge => cut[edge]));
        }

        model.Minimize(LinearExpr.WeightedSum(block.Select(edge => cut[edge]), block.Select(edge => edges[edge].Weight)));
        using CpSolver solver = new() { StringParameters = SolverSettings.For(budgetSeconds) };
        return solver.Solve(model) is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (block.Where(edge => solver.BooleanValue(cut[edge])), (int)Math.Ceiling(solver.BestObjectiveBound - 1e-6))
            : (block.Where(edge => !Tree(vertices[0], edges, block).Contains(edge)), 1);
    }

    private static bool IsBalanced(ImmutableArray<SignedEdge> edges, ImmutableArray<int> block)
    {
        SignUnionWorkspace union = new(edges.Max(edge => Math.Max(edge.One, edge.Other)) + 1);
        return block.All(edge => union.Join(edges[edge].One, edges[edge].Other, edges[edge].Negative));
    }

    private static void AddEdge(CpModel model, BoolVar cut, (BoolVar One, BoolVar Other) label, bool negative)
    {
        if (negative)
        {
            _ = model.Add(label.One + label.Other <= 1 + cut);
            _ = model.Add(label.One + label.Other + cut >= 1);
        }
        else
        {
            _ = model.Add(label.One - label.Other <= cut);
            _ = model.Add(label.Other - label.One <= cut);
        }
    }

    /// <summary>Some best labelling leaves at most half of what meets at a vertex unheeded: else the vertex would better change its label.</summary>
    private static void AddDegrees(CpModel model, ImmutableArray<SignedEdge> edges, ImmutableArray<int> block, Dictionary<int, BoolVar> cut)
    {
        foreach (IGrouping<int, int> star in block
            .SelectMany(edge => new[] { (Vertex: edges[edge].One, edge), (Vertex: edges[edge].Other, edge) })
            .GroupBy(pair => pair.Vertex, pair => pair.edge)
            .OrderBy(star => star.Key))
        {
            _ = model.Add(LinearExpr.WeightedSum(star.Select(edge => cut[edge]), star.Select(edge => 2 * edges[edge].Weight)) <= star.Sum(edge => edges[edge].Weight));
        }
    }

    /// <summary>The odd cycles that one edge closes with a tree of shortest ways from a root.</summary>
    private static IEnumerable<ImmutableArray<int>> OddCyclesFrom(int root, ImmutableArray<SignedEdge> edges, ImmutableArray<int> block)
    {
        Dictionary<int, ImmutableHashSet<int>> ways = Ways(root, edges, block);
        foreach (int edge in block)
        {
            ImmutableHashSet<int> round = ways[edges[edge].One].SymmetricExcept(ways[edges[edge].Other]);
            if (!round.Contains(edge) && round.Add(edge).Count(each => edges[each].Negative) % 2 == 1)
            {
                yield return [.. round.Add(edge).Order()];
            }
        }
    }

    private static HashSet<int> Tree(int root, ImmutableArray<SignedEdge> edges, ImmutableArray<int> block) =>
        [.. Ways(root, edges, block).Values.SelectMany(way => way)];

    private static Dictionary<int, ImmutableHashSet<int>> Ways(int root, ImmutableArray<SignedEdge> edges, ImmutableArray<int> block)
    {
        ILookup<int, int> touching = block
            .SelectMany(edge => new[] { (Vertex: edges[edge].One, edge), (Vertex: edges[edge].Other, edge) })
            .ToLookup(pair => pair.Vertex, pair => pair.edge);
        Dictionary<int, ImmutableHashSet<int>> ways = new() { [root] = [] };
        Queue<int> open = new([root]);
        while (open.TryDequeue(out int vertex))
        {
            foreach (int edge in touching[vertex])
            {
                if (ways.TryAdd(edges[edge].Opposite(vertex), ways[vertex].Add(edge)))
                {
                    open.Enqueue(edges[edge].Opposite(vertex));
                }
            }
        }

        return ways;
    }
}
