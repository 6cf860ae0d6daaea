namespace WireUp.Circuits.Numerics;

/// <summary>
/// Where the entries of the factor lie: worked out once, used for every factorisation and every selected inverse of the same
/// network. For each pair of entries of a column it remembers where their product lands, so that both run without any search.
/// </summary>
/// <remarks>
/// <para>Symbols: n unknowns; column j of L has the rows S_j, all greater than j, ascending, at entries ColumnStart[j] to
/// ColumnStart[j + 1]; for a before b in S_j the entry (row b, column a) exists, because S_j \ {a} is contained in S_a.</para>
/// <para>Source: T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, theorems 4.2 and 4.3.</para>
/// </remarks>
internal sealed class FactorPattern
{
    private readonly int[] _pairStart;
    private readonly int[] _target;

    private FactorPattern(int[] placeOf, int[] columnStart, int[] rows, long mostPairs)
    {
        (PlaceOf, ColumnStart, Rows) = (placeOf, columnStart, rows);
        _pairStart = new int[placeOf.Length + 1];
        long pairs = 0;
        for (int j = 0; j < placeOf.Length; j++)
        {
            long length = columnStart[j + 1] - columnStart[j];
            LongestColumn = Math.Max(LongestColumn, (int)length);
            pairs += length * (length - 1) / 2;
            _pairStart[j + 1] = (int)Math.Min(pairs, int.MaxValue);
        }

        IsIndexed = pairs <= mostPairs;
        _target = IsIndexed ? GC.AllocateUninitializedArray<int>((int)pairs) : [];
        for (int j = 0; IsIndexed && j < placeOf.Length; j++)
        {
            FindTargets(j, _target.AsSpan(_pairStart[j], _pairStart[j + 1] - _pairStart[j]));
        }
    }

    /// <summary>For every unknown its column.</summary>
    internal int[] PlaceOf { get; }

    /// <summary>First entry of every column, and one more: the number of entries below the diagonal.</summary>
    internal int[] ColumnStart { get; }

    /// <summary>Row of every entry.</summary>
    internal int[] Rows { get; }

    /// <summary>Entries of the longest column.</summary>
    internal int LongestColumn { get; }

    /// <summary>Whether all targets are remembered. On a mesh too dense for that they are found again each time.</summary>
    internal bool IsIndexed { get; }

    /// <summary>Unknowns.</summary>
    internal int Count => PlaceOf.Length;

    /// <summary>Orders the unknowns and lays out the factor.</summary>
    /// <param name="graph">The graph with all couplings.</param>
    /// <param name="mostPairs">Targets remembered at most, four bytes each; above it they are searched for each time.</param>
    internal static FactorPattern Analyse(VertexGraph graph, long mostPairs = 1L << 28)
    {
        EliminationOrder order = EliminationOrder.Of(graph);
        (int[] first, int[] placeOf) = NumberUnknowns(graph, order);
        int[] columnStart = new int[graph.UnknownCount + 1];
        for (int i = 0; i < order.Sequence.Length; i++)
        {
            int below = 0;
            foreach (int other in order.Pattern(order.Sequence[i]))
            {
                below += first[order.PlaceOf[other] + 1] - first[order.PlaceOf[other]];
            }

            for (int j = first[i]; j < first[i + 1]; j++)
            {
                columnStart[j + 1] = checked(columnStart[j] + below + (first[i + 1] - 1 - j));
            }
        }

        return new(placeOf, columnStart, LayRows(order, first, columnStart), mostPairs);
    }

    /// <summary>
    /// For every pair a before b of column j, in the order (0,1), (0,2), …, (1,2), …: the entry at row b of column a.
    /// </summary>
    /// <param name="j">The column.</param>
    /// <param name="scratch">Room for LongestColumn·(LongestColumn − 1)/2 numbers, touched only where nothing is remembered.</param>
    internal ReadOnlySpan<int> Targets(int j, Span<int> scratch)
    {
        if (IsIndexed)
        {
            return _target.AsSpan(_pairStart[j], _pairStart[j + 1] - _pairStart[j]);
        }

        int length = ColumnStart[j + 1] - ColumnStart[j];
        Span<int> found = scratch[..(length * (length - 1) / 2)];
        FindTargets(j, found);
        return found;
    }

    /// <summary>The entry at a row of a column, or −1 where there is none.</summary>
    internal int EntryAt(int row, int column)
    {
        int start = ColumnStart[column];
        int found = Rows.AsSpan(start, ColumnStart[column + 1] - start).BinarySearch(row);
        return found < 0 ? -1 : start + found;
    }

    private static (int[] First, int[] PlaceOf) NumberUnknowns(VertexGraph graph, EliminationOrder order)
    {
        int[] first = new int[graph.VertexCount + 1];
        foreach (int vertex in graph.VertexOf)
        {
            first[order.PlaceOf[vertex] + 1]++;
        }

        for (int i = 0; i < graph.VertexCount; i++)
        {
            first[i + 1] += first[i];
        }

        int[] next = first[..graph.VertexCount];
        int[] placeOf = new int[graph.UnknownCount];
        for (int unknown = 0; unknown < placeOf.Length; unknown++)
        {
            placeOf[unknown] = next[order.PlaceOf[graph.VertexOf[unknown]]]++;
        }

        return (first, placeOf);
    }

    private static int[] LayRows(EliminationOrder order, int[] first, int[] columnStart)
    {
        int[] rows = GC.AllocateUninitializedArray<int>(columnStart[^1]);
        int[] later = new int[order.Sequence.Length];
        for (int i = 0; i < order.Sequence.Length; i++)
        {
            ReadOnlySpan<int> pattern = order.Pattern(order.Sequence[i]);
            for (int k = 0; k < pattern.Length; k++)
            {
                later[k] = order.PlaceOf[pattern[k]];
            }

            Span<int> ascending = later.AsSpan(0, pattern.Length);
            Sort(ascending);
            for (int j = first[i]; j < first[i + 1]; j++)
            {
                LayColumn(rows.AsSpan(columnStart[j], columnStart[j + 1] - columnStart[j]), j + 1, first[i + 1], ascending, first);
            }
        }

        return rows;
    }

    /// <summary>Columns are short: insertion beats the general sort up to a dozen rows.</summary>
    private static void Sort(Span<int> values)
    {
        if (values.Length > 12)
        {
            values.Sort();
            return;
        }

        for (int i = 1; i < values.Length; i++)
        {
            int value = values[i], at = i;
            for (; at > 0 && values[at - 1] > value; at--)
            {
                values[at] = values[at - 1];
            }

            values[at] = value;
        }
    }

    private static void LayColumn(Span<int> rows, int fromOwn, int toOwn, ReadOnlySpan<int> later, int[] first)
    {
        int at = 0;
        for (int row = fromOwn; row < toOwn; row++)
        {
            rows[at++] = row;
        }

        foreach (int place in later)
        {
            for (int row = first[place]; row < first[place + 1]; row++)
            {
                rows[at++] = row;
            }
        }
    }

    private unsafe void FindTargets(int j, Span<int> found)
    {
        int start = ColumnStart[j], length = ColumnStart[j + 1] - start;
        fixed (int* rows = Rows, columnStart = ColumnStart, target = found)
        {
            int* own = rows + start;
            int pair = 0;
            for (int a = 0; a < length - 1; a++)
            {
                int entry = columnStart[own[a]];
                for (int b = a + 1; b < length; b++, entry++)
                {
                    while (rows[entry] != own[b])
                    {
                        entry++;
                    }

                    target[pair++] = entry;
                }
            }
        }
    }
}
