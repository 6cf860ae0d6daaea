using System.Collections.Immutable;

namespace WireUp.Planning.Buses;

/// <summary>
/// How short a tree can be at best. Every set of points that holds a terminal but not the root must be entered by some edge; raising a
/// price for entering such sets until edges are paid for adds up to a length that no tree undercuts.
/// Source: R. T. Wong, Mathematical Programming 28 (1984) 271–287.
/// </summary>
internal sealed class DualAscentWorkspace
{
    private const double Paid = 1e-9;

    private readonly Corridor _corridor;
    private readonly int _root;
    private readonly ImmutableArray<int> _terminals;
    private readonly double[] _left;

    /// <summary>Prepares the ascent; an edge counts once in each direction.</summary>
    public DualAscentWorkspace(Corridor corridor, int root, ImmutableArray<int> terminals)
    {
        (_corridor, _root, _terminals) = (corridor, root, terminals);
        _left = [.. corridor.Edges.SelectMany(edge => new[] { edge.Metres, edge.Metres })];
    }

    /// <summary>The bound in metres.</summary>
    public double Bound()
    {
        double bound = 0;
        PriorityQueue<int, (int Size, int Terminal)> active = new();
        foreach (int terminal in _terminals)
        {
            active.Enqueue(terminal, (1, terminal));
        }

        while (active.TryDequeue(out int terminal, out (int Size, int Terminal) priority))
        {
            (HashSet<int> points, List<int> entering, bool rooted) = Behind(terminal);
            if (rooted || entering.Count == 0)
            {
                continue;
            }

            if (points.Count > priority.Size)
            {
                active.Enqueue(terminal, (points.Count, terminal));
                continue;
            }

            double step = entering.Min(arc => _left[arc]);
            bound += step;
            entering.ForEach(arc => _left[arc] -= step);
            active.Enqueue(terminal, (points.Count, terminal));
        }

        return bound;
    }

    /// <summary>Points from which a terminal is reached by arcs that are paid for, and the arcs that enter them.</summary>
    private (HashSet<int> Points, List<int> Entering, bool Rooted) Behind(int terminal)
    {
        HashSet<int> points = [terminal];
        Stack<int> open = new([terminal]);
        List<int> beside = [];
        while (open.TryPop(out int point))
        {
            if (point == _root)
            {
                return (points, [], true);
            }

            foreach (int edge in _corridor.EdgesAt[point])
            {
                int other = _corridor.Opposite(edge, point);
                int arc = (2 * edge) + (_corridor.Edges[edge].To == point ? 0 : 1);
                if (points.Contains(other))
                {
                    continue;
                }

                if (_left[arc] <= Paid)
                {
                    points.Add(other);
                    open.Push(other);
                }
                else
                {
                    beside.Add(arc);
                }
            }
        }

        return (points, [.. beside.Where(arc => !points.Contains(TailOf(arc)))], false);
    }

    private int TailOf(int arc) => arc % 2 == 0 ? _corridor.Edges[arc / 2].From : _corridor.Edges[arc / 2].To;
}
