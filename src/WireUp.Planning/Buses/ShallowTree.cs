using System.Collections.Immutable;

namespace WireUp.Planning.Buses;

/// <summary>
/// Makes the ways from the booster to the taps shorter where that costs next to no wire. Around a ring of track a shortest tree leaves out the longest
/// stretch between two taps, wherever that is; left out on the far side, nearly as much wire serves both halves from two sides.
/// </summary>
internal sealed class ShallowTree
{
    /// <summary>How much longer the tree may become for it.</summary>
    private const double MostLonger = 0.015;

    private const double LeastGain = 1e-6;
    private const int MostSwaps = 100;

    private readonly Corridor _short;
    private readonly ImmutableArray<ImmutableArray<int>> _chains;
    private readonly ImmutableHashSet<int> _roots, _terminals;
    private readonly HashSet<int> _tree;

    private ShallowTree(Corridor corridor, BusTree tree, ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        HashSet<int> inTree = [.. tree.Edges];
        HashSet<int> kept = [.. roots, .. terminals, .. tree.Edges.SelectMany(edge => new[] { corridor.Edges[edge].From, corridor.Edges[edge].To })
            .Where(point => corridor.EdgesAt[point].Count(inTree.Contains) > 2)];
        (_short, ImmutableArray<int> points, _chains) = corridor.Between(kept);
        _roots = [.. roots.Select(root => points.BinarySearch(root))];
        _terminals = [.. terminals.Select(terminal => points.BinarySearch(terminal)).Where(point => point >= 0)];
        _tree = [.. Enumerable.Range(0, _chains.Length).Where(chain => _chains[chain].All(inTree.Contains))];
    }

    /// <summary>A tree to the same taps whose ways are shorter, or the same.</summary>
    /// <param name="corridor">Where wire can run.</param>
    /// <param name="tree">The tree.</param>
    /// <param name="roots">Points from which it starts.</param>
    /// <param name="terminals">Taps.</param>
    public static BusTree Of(Corridor corridor, BusTree tree, ImmutableArray<int> roots, ImmutableArray<int> terminals)
    {
        ShallowTree shallow = new(corridor, tree, roots, [.. terminals.Except(tree.Unreached)]);
        shallow.Improve(MostLonger * tree.Metres);
        ImmutableArray<int> edges = [.. shallow._tree.SelectMany(chain => shallow._chains[chain]).Order()];
        double metres = edges.Sum(edge => corridor.Edges[edge].Metres);
        return metres > tree.Metres * (1 + MostLonger) + LeastGain ? tree : tree with { Edges = edges, Metres = Math.Max(metres, tree.BoundMetres) };
    }

    private void Improve(double spare)
    {
        for (int swap = 0; swap < MostSwaps; swap++)
        {
            (double[] depth, int[] by) = Depths();
            double now = Deepness(depth);
            if (Best(depth, by, now, spare) is not { } best)
            {
                return;
            }

            spare -= Swap(best.In, best.Out);
        }
    }

    /// <summary>The exchange of two chains that makes the ways shortest, if any does.</summary>
    private (int In, int Out)? Best(double[] depth, int[] by, double now, double spare)
    {
        (int In, int Out)? best = null;
        foreach (int chain in Enumerable.Range(0, _chains.Length).Where(chain => !_tree.Contains(chain)))
        {
            (int from, int to, double metres) = _short.Edges[chain];
            if (from == to || double.IsInfinity(depth[from]) || double.IsInfinity(depth[to]))
            {
                continue;
            }

            foreach (int left in Between(from, to, by).Where(left => metres - _short.Edges[left].Metres <= spare))
            {
                Swap(chain, left);
                double deepness = Deepness(Depths().Depth);
                Swap(left, chain);
                if (deepness < now - LeastGain)
                {
                    (best, now) = ((chain, left), deepness);
                }
            }
        }

        return best;
    }

    /// <summary>Exchanges two chains and says how much longer the tree is for it.</summary>
    private double Swap(int taken, int left)
    {
        _tree.Add(taken);
        _tree.Remove(left);
        return _short.Edges[taken].Metres - _short.Edges[left].Metres;
    }

    /// <summary>The chains of the tree between two of its points.</summary>
    private IEnumerable<int> Between(int one, int other, int[] by)
    {
        HashSet<int> ways = [.. Up(one, by)];
        ways.SymmetricExceptWith(Up(other, by));
        return ways.Order();
    }

    private IEnumerable<int> Up(int point, int[] by)
    {
        for (; by[point] >= 0; point = _short.Opposite(by[point], point))
        {
            yield return by[point];
        }
    }

    private double Deepness(double[] depth) => _terminals.Sum(terminal => depth[terminal] * depth[terminal]);

    /// <summary>How far each point is from the roots along the tree, and the chain by which it is reached.</summary>
    private (double[] Depth, int[] By) Depths()
    {
        double[] depth = new double[_short.PointCount];
        int[] by = new int[_short.PointCount];
        Array.Fill(depth, double.PositiveInfinity);
        Array.Fill(by, -1);
        Stack<int> open = new(_roots.Order());
        foreach (int root in _roots)
        {
            depth[root] = 0;
        }

        while (open.TryPop(out int point))
        {
            foreach (int chain in _short.EdgesAt[point].Where(_tree.Contains))
            {
                int other = _short.Opposite(chain, point);
                if (double.IsInfinity(depth[other]))
                {
                    (depth[other], by[other]) = (depth[point] + _short.Edges[chain].Metres, chain);
                    open.Push(other);
                }
            }
        }

        return (depth, by);
    }
}
