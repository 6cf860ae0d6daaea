using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>Finds the measures of a shape in one direction: lengths near those wanted, and every link long enough.</summary>
internal sealed class GridCoordinatesWorkspace
{
    private const int NewtonRounds = 12, CgSteps = 200;
    private const double GapWeight = 50, Settled = 0.05, CgTolerance = 1e-7;
    private const double Clearance = 0.4, Apart = 1.6;
    private const double HelpingPull = 0.001;

    private readonly GridShapeBuilder _shape;
    private readonly int _along;
    private readonly int[] _lineOf;
    private readonly int _lines;
    private readonly List<(int Line, double Gap)>[] _before;
    private readonly List<(int Line, double Gap)>[] _after;
    private readonly List<(int Line, double Offset, double Weight)>[] _pulls;
    private readonly ImmutableArray<(int Low, int High, double Wanted)> _stretches;

    /// <summary>Gathers lines and the lengths wanted between them.</summary>
    /// <param name="shape">A shape cut into rectangles.</param>
    /// <param name="edgeLengths">Wanted length of each edge.</param>
    /// <param name="horizontal">True for x, false for y.</param>
    /// <param name="trackOnly">Whether helping lines are left out of account.</param>
    public GridCoordinatesWorkspace(GridShapeBuilder shape, double[] edgeLengths, bool horizontal, bool trackOnly)
    {
        (_shape, _along) = (shape, horizontal ? 0 : 1);
        (_lineOf, _lines) = Lines(trackOnly);
        (_before, _after, _pulls) = (NewLists<(int, double)>(), NewLists<(int, double)>(), NewLists<(int, double, double)>());
        _stretches = [.. Stretches().Select(stretch => (_lineOf[stretch.Low], _lineOf[stretch.High], edgeLengths[stretch.Edge] / stretch.Of))];
    }

    // The stretches of track in this direction, lower end first.
    private IEnumerable<(int Low, int High, int Edge, int Of)> Stretches()
    {
        foreach ((int from, int to, int edge, int of) in _shape.Stretches)
        {
            if (Reaches(from, to)) yield return (from, to, edge, of);
            else if (Reaches(to, from)) yield return (to, from, edge, of);
        }
    }

    /// <summary>Coordinates under which every helping line keeps its direction too.</summary>
    public double[] Solve()
    {
        for (int vertex = 0; vertex < _shape.Count; vertex++) AddLink(vertex, _shape.Link(vertex, _along), helping: true);
        foreach ((int low, int high, double wanted) in _stretches) Pull(low, high, wanted, 1 / (1 + wanted));
        return Settle(new double[_lines]);
    }

    /// <summary>Better coordinates: lines keep their order only where they face each other.</summary>
    /// <param name="own">The coordinates in this direction so far.</param>
    /// <param name="across">The coordinates in the other direction.</param>
    public double[] Improve(double[] own, double[] across)
    {
        foreach (var list in _before.Concat(_after)) list.Clear();
        foreach (var list in _pulls) list.Clear();
        foreach ((int low, int high, _, _) in Stretches()) AddLink(low, high, helping: false);
        AddFacing(own, across);
        var at = new double[_lines];
        for (int vertex = 0; vertex < _shape.Count; vertex++) at[_lineOf[vertex]] = own[vertex];

        // The weight of a square by its present length makes its force that of a logarithm: no track is crushed to shorten another.
        foreach ((int low, int high, double wanted) in _stretches) Pull(low, high, wanted, 1 / (1 + Math.Max(at[high] - at[low], 0)));
        return Settle(at);
    }

    private void AddLink(int vertex, int next, bool helping)
    {
        if (next < 0) return;
        double gap = _shape.Room(vertex, _along) + _shape.Room(next, _along + 2) + Clearance;
        AddGap(_lineOf[vertex], _lineOf[next], gap);
        if (helping) Pull(_lineOf[vertex], _lineOf[next], gap, HelpingPull);
    }

    private void AddGap(int low, int high, double gap)
    {
        int known = _after[low].FindIndex(after => after.Line == high);
        if (known >= 0 && _after[low][known].Gap >= gap) return;
        if (known >= 0)
        {
            _after[low][known] = (high, gap);
            _before[high][_before[high].FindIndex(before => before.Line == low)] = (low, gap);
            return;
        }

        _after[low].Add((high, gap));
        _before[high].Add((low, gap));
    }

    // Sweeps over the lines in order; the front is what the next line sees behind it.
    private void AddFacing(double[] own, double[] across)
    {
        var spans = new (double Low, double High, double At)[_lines];
        Array.Fill(spans, (double.PositiveInfinity, double.NegativeInfinity, 0));
        foreach ((int from, int to, _, _) in _shape.Stretches)
        {
            foreach (int v in (int[])[from, to])
            {
                int line = _lineOf[v];
                spans[line] = (Math.Min(spans[line].Low, across[v] - Apart / 2), Math.Max(spans[line].High, across[v] + Apart / 2), own[v]);
            }
        }

        var front = new List<(double Low, double High, int Line)>();
        foreach (int line in Enumerable.Range(0, _lines).Where(line => spans[line].Low < spans[line].High).OrderBy(line => spans[line].At).ThenBy(line => line))
        {
            (double low, double high, _) = spans[line];
            var next = new List<(double, double, int)>();
            foreach ((double l, double h, int other) in front)
            {
                if (h <= low || l >= high)
                {
                    next.Add((l, h, other));
                    continue;
                }

                if (spans[other].At < spans[line].At) AddGap(other, line, Apart);
                if (l < low) next.Add((l, low, other));
                if (h > high) next.Add((high, h, other));
            }

            next.Add((low, high, line));
            front = next;
        }
    }

    private double[] Settle(double[] at)
    {
        int[] order = Order();
        foreach (int line in order) at[line] = _before[line].Select(gap => at[gap.Line] + gap.Gap).Append(at[line]).Max();
        for (int round = 0; round < NewtonRounds && ConjugateGradients(at) > Settled; round++)
        {
        }

        foreach (int line in order) at[line] = _before[line].Select(gap => at[gap.Line] + gap.Gap).Append(at[line]).Max();
        return [.. _lineOf.Select(line => at[line])];
    }

    private List<T>[] NewLists<T>() => [.. Enumerable.Range(0, _lines).Select(_ => new List<T>())];

    private bool Reaches(int from, int to)
    {
        while (from >= 0 && from != to) from = _shape.Link(from, _along);
        return from == to;
    }

    // Vertices joined across share a line.
    private (int[] LineOf, int Lines) Lines(bool trackOnly)
    {
        var lineOf = new int[_shape.Count];
        Array.Fill(lineOf, -1);
        int lines = 0;
        for (int vertex = 0; vertex < lineOf.Length; vertex++)
        {
            if (lineOf[vertex] >= 0) continue;
            Mark(vertex, _along + 1);
            Mark(vertex, _along + 3);
            lines++;
        }

        return (lineOf, lines);

        void Mark(int at, int direction)
        {
            lineOf[at] = lines;
            while (_shape.Link(at, direction) is >= 0 and var next && (!trackOnly || _shape.IsTrack(at, direction))) lineOf[at = next] = lines;
        }
    }

    private void Pull(int low, int high, double wanted, double weight)
    {
        _pulls[high].Add((low, wanted, weight));
        _pulls[low].Add((high, -wanted, weight));
    }

    private int[] Order()
    {
        int[] waiting = [.. _before.Select(gaps => gaps.Count)];
        var order = new List<int>(Enumerable.Range(0, _lines).Where(line => waiting[line] == 0));
        for (int i = 0; i < order.Count; i++)
        {
            foreach ((int next, _) in _after[order[i]])
            {
                if (--waiting[next] == 0) order.Add(next);
            }
        }

        return [.. order];
    }

    // One step for a function that is square in pieces: the gaps that are too small now pull as strong springs.
    private double ConjugateGradients(double[] at)
    {
        var springs = new List<(int Low, int High, double Weight)>();
        var residual = new double[_lines];
        var diagonal = new double[_lines];
        Array.Fill(diagonal, 1e-6);
        for (int line = 0; line < _lines; line++)
        {
            foreach ((int other, double offset, double weight) in _pulls[line])
            {
                if (offset < 0) AddSpring(line, other, -offset, weight);
            }

            foreach ((int next, double gap) in _after[line])
            {
                if (at[next] - at[line] < gap) AddSpring(line, next, gap, GapWeight);
            }
        }

        double[] step = new double[_lines], z = [.. residual.Select((r, i) => r / diagonal[i])], direction = [.. z], product = new double[_lines];
        double before = Dot(residual, z), first = before;
        for (int i = 0; i < CgSteps && before > first * CgTolerance && before > 0; i++)
        {
            for (int line = 0; line < _lines; line++) product[line] = 1e-6 * direction[line];
            Multiply(CollectionsMarshal.AsSpan(springs), direction, product);

            double length = before / Dot(direction, product);
            for (int line = 0; line < _lines; line++)
            {
                step[line] += length * direction[line];
                residual[line] -= length * product[line];
                z[line] = residual[line] / diagonal[line];
            }

            double after = Dot(residual, z);
            for (int line = 0; line < _lines; line++) direction[line] = z[line] + (after / before * direction[line]);
            before = after;
        }

        double longest = 0;
        for (int line = 0; line < _lines; line++)
        {
            at[line] += step[line];
            longest = Math.Max(longest, Math.Abs(step[line]));
        }

        return longest;

        void AddSpring(int low, int high, double wanted, double weight)
        {
            double pull = weight * (at[high] - at[low] - wanted);
            springs.Add((low, high, weight));
            residual[high] -= pull;
            residual[low] += pull;
            diagonal[high] += weight;
            diagonal[low] += weight;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Multiply(ReadOnlySpan<(int Low, int High, double Weight)> springs, double[] direction, double[] product)
    {
        foreach ((int low, int high, double weight) in springs)
        {
            double pull = weight * (direction[high] - direction[low]);
            product[high] += pull;
            product[low] -= pull;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }
}
