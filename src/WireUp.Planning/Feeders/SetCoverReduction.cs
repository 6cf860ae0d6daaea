using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>What is left of a cover once the obvious is decided.</summary>
/// <param name="Taken">Columns that an optimal cover can be said to have.</param>
/// <param name="Parts">Independent covers still to be solved; each a list of rows, each row a list of columns.</param>
internal sealed record SetCoverReduction(ImmutableArray<int> Taken, ImmutableArray<ImmutableArray<ImmutableArray<int>>> Parts)
{
    /// <summary>
    /// Reduces a cover: a row that holds all of another row is met with it; a column whose rows another column covers too is
    /// not needed; a row with one column left decides it. Repeated until nothing changes.
    /// Source: N. Christofides, Graph Theory: An Algorithmic Approach, London 1975, chapter 3 (set covering; from memory).
    /// </summary>
    public static SetCoverReduction Of(IReadOnlyList<ImmutableArray<int>> rows, IReadOnlyList<double> preference)
    {
        List<int> taken = [];
        List<ImmutableArray<int>> left = [.. rows];
        for (bool changed = true; changed;)
        {
            int before = left.Sum(row => row.Length) + left.Count;
            left = StrikeColumns(StrikeRows(left), preference);
            int[] forced = [.. left.Where(row => row.Length == 1).Select(row => row[0]).Distinct().Order()];
            taken.AddRange(forced);
            left.RemoveAll(row => row.Any(forced.Contains));
            changed = left.Sum(row => row.Length) + left.Count != before;
        }

        return new([.. taken.Order()], Split(left));
    }

    private static List<ImmutableArray<int>> StrikeRows(List<ImmutableArray<int>> rows)
    {
        List<ImmutableArray<int>> kept = [];
        Dictionary<int, List<ImmutableArray<int>>> keptByColumn = [];
        bool[] holds = new bool[rows.SelectMany(row => row).DefaultIfEmpty(-1).Max() + 1];
        foreach (ImmutableArray<int> row in rows.OrderBy(row => row.Length).ThenBy(row => row, ColumnsInOrder.Instance))
        {
            Mark(holds, row, true);
            bool implied = row.Any(column => keptByColumn.TryGetValue(column, out List<ImmutableArray<int>>? smaller)
                && smaller.Exists(each => each.All(other => holds[other])));
            Mark(holds, row, false);
            if (implied)
            {
                continue;
            }

            kept.Add(row);
            if (!keptByColumn.TryGetValue(row[0], out List<ImmutableArray<int>>? list))
            {
                keptByColumn[row[0]] = list = [];
            }

            list.Add(row);
        }

        return kept;
    }

    private static void Mark(bool[] holds, ImmutableArray<int> row, bool value)
    {
        foreach (int column in row)
        {
            holds[column] = value;
        }
    }

    private static List<ImmutableArray<int>> StrikeColumns(List<ImmutableArray<int>> rows, IReadOnlyList<double> preference)
    {
        Dictionary<int, List<int>> rowsOf = [];
        for (int i = 0; i < rows.Count; i++)
        {
            foreach (int column in rows[i])
            {
                (rowsOf.TryGetValue(column, out List<int>? list) ? list : rowsOf[column] = []).Add(i);
            }
        }

        HashSet<int> struck = [];
        foreach (int column in rowsOf.Keys.OrderByDescending(column => preference[column]).ThenByDescending(column => column))
        {
            IEnumerable<int> rivals = rows[rowsOf[column][0]].Where(rival => rival != column && !struck.Contains(rival));
            if (rivals.Any(rival => IsSubset(rowsOf[column], rowsOf[rival])))
            {
                struck.Add(column);
            }
        }

        return [.. rows.Select(row => row.RemoveAll(struck.Contains))];
    }

    private static ImmutableArray<ImmutableArray<ImmutableArray<int>>> Split(List<ImmutableArray<int>> rows)
    {
        DisjointSetsWorkspace columns = new(rows.SelectMany(row => row).DefaultIfEmpty(-1).Max() + 1);
        foreach (ImmutableArray<int> row in rows)
        {
            foreach (int column in row)
            {
                columns.Join(row[0], column);
            }
        }

        return [.. rows.GroupBy(row => columns.Find(row[0])).OrderBy(group => group.Key).Select(group => group.ToImmutableArray())];
    }

    /// <summary>Whether every number of one ascending list is in another.</summary>
    private static bool IsSubset(IReadOnlyList<int> small, IReadOnlyList<int> large)
    {
        if (small.Count > large.Count)
        {
            return false;
        }

        for (int i = 0, j = 0; i < small.Count; i++, j++)
        {
            while (j < large.Count && large[j] < small[i])
            {
                j++;
            }

            if (j == large.Count || large[j] != small[i])
            {
                return false;
            }
        }

        return true;
    }

    private sealed class ColumnsInOrder : IComparer<ImmutableArray<int>>
    {
        public static ColumnsInOrder Instance { get; } = new();

        public int Compare(ImmutableArray<int> x, ImmutableArray<int> y) => x.AsSpan().SequenceCompareTo(y.AsSpan());
    }
}
