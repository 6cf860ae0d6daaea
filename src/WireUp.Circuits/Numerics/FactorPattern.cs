namespace WireUp.Circuits.Numerics;

/// <summary>
/// Where the entries of the factor lie: worked out once, used for every factorisation and every selected inverse of the same
/// network. For each pair of entries of a column it remembers where their product lands, so that both run without any search.
/// </summary>
/// <remarks>
/// <para>Symbols: n vertices of two unknowns each; column j of L has the rows S_j, all greater than j, ascending, at entries
/// ColumnStart[j] to ColumnStart[j + 1]; an entry is a block of two by two. For a before b in S_j the entry (row b, column a)
/// exists, because S_j \ {a} is contained in S_a.</para>
/// <para>Source: T. A. Davis, Direct Methods for Sparse Linear Systems, SIAM 2006, theorems 4.2 and 4.3.</para>
/// </remarks>
internal sealed class FactorPattern
{
    private readonly int[] _pairStart;
    private readonly int[] _target;

    private FactorPattern(int[] slotOf, int[] columnStart, int[] rows, long mostPairs)
    {
        (SlotOf, ColumnStart, Rows) = (slotOf, columnStart, rows);
        EmptySlots = Empty(slotOf, Count);
        _pairStart = new int[columnStart.Length];
        long pairs = 0;
        for (int j = 0; j < Count; j++)
        {
            long length = columnStart[j + 1] - columnStart[j];
            LongestColumn = Math.Max(LongestColumn, (int)length);
            pairs += length * (length - 1) / 2;
            _pairStart[j + 1] = (int)Math.Min(pairs, int.MaxValue);
        }

        IsIndexed = pairs <= mostPairs;
        _target = IsIndexed ? GC.AllocateUninitializedArray<int>((int)pairs) : [];
        for (int j = 0; IsIndexed && j < Count; j++)
        {
            FindTargets(j, _target.AsSpan(_pairStart[j], _pairStart[j + 1] - _pairStart[j]));
        }
    }

    /// <summary>For every unknown its place: twice its column, and one more if it is the second of its vertex.</summary>
    internal int[] SlotOf { get; }

    /// <summary>The places that belong to no unknown: the second of every vertex that holds one only.</summary>
    internal int[] EmptySlots { get; }

    /// <summary>First entry of every column, and one more: the number of entries below the diagonal.</summary>
    internal int[] ColumnStart { get; }

    /// <summary>Row of every entry.</summary>
    internal int[] Rows { get; }

    /// <summary>Entries of the longest column.</summary>
    internal int LongestColumn { get; }

    /// <summary>Whether all targets are remembered. On a mesh too dense for that they are found again each time.</summary>
    internal bool IsIndexed { get; }

    /// <summary>Unknowns.</summary>
    internal int UnknownCount => SlotOf.Length;

    /// <summary>Columns: vertices.</summary>
    internal int Count => ColumnStart.Length - 1;

    /// <summary>Orders the vertices and lays out the factor.</summary>
    /// <param name="graph">The graph with all couplings.</param>
    /// <param name="mostPairs">Targets remembered at most, four bytes each; above it they are searched for each time.</param>
    internal static FactorPattern Analyse(VertexGraph graph, long mostPairs = 1L << 28)
    {
        EliminationOrder order = EliminationOrder.Of(graph);
        int[] columnStart = new int[graph.VertexCount + 1];
        for (int i = 0; i < order.Sequence.Length; i++)
        {
            columnStart[i + 1] = checked(columnStart[i] + order.Pattern(order.Sequence[i]).Length);
        }

        return new(Slots(graph, order), columnStart, LayRows(order, columnStart), mostPairs);
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

    private static int[] Slots(VertexGraph graph, EliminationOrder order)
    {
        bool[] hasFirst = new bool[graph.VertexCount];
        int[] slotOf = new int[graph.UnknownCount];
        for (int unknown = 0; unknown < slotOf.Length; unknown++)
        {
            int place = order.PlaceOf[graph.VertexOf[unknown]];
            slotOf[unknown] = (2 * place) + (hasFirst[place] ? 1 : 0);
            hasFirst[place] = true;
        }

        return slotOf;
    }

    private static int[] Empty(int[] slotOf, int columns)
    {
        bool[] used = new bool[2 * columns];
        foreach (int slot in slotOf)
        {
            used[slot] = true;
        }

        return [.. Enumerable.Range(0, used.Length).Where(slot => !used[slot])];
    }

    private static int[] LayRows(EliminationOrder order, int[] columnStart)
    {
        int[] rows = GC.AllocateUninitializedArray<int>(columnStart[^1]);
        for (int i = 0; i < order.Sequence.Length; i++)
        {
            ReadOnlySpan<int> pattern = order.Pattern(order.Sequence[i]);
            Span<int> column = rows.AsSpan(columnStart[i], pattern.Length);
            for (int k = 0; k < pattern.Length; k++)
            {
                column[k] = order.PlaceOf[pattern[k]];
            }

            Sort(column);
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
