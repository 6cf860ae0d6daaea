using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>Finds the widths of a table's columns.</summary>
internal static class ColumnWidths
{
    /// <summary>Room between two columns in millimetres.</summary>
    public const double Gutter = 3.2;

    private const double WidestWord = 42;
    private const double TickWidth = 5;

    /// <summary>
    /// Columns without a share get what their longest cell needs, but no more than <see cref="WidestWord"/>; the others divide the
    /// rest. Where there is not enough, columns give up what they have over their longest word in proportion, and cells are broken
    /// into lines.
    /// </summary>
    public static ImmutableArray<double> Of(Table table, double width)
    {
        double room = width - (Gutter * table.Columns.Length);
        double shares = table.Columns.Sum(column => column.Share);
        double[] least = [.. table.Columns.Select((_, i) => Words(table, i).Append(0).Max())];
        double[] natural = [.. table.Columns.Select((column, i) => column.Share > 0 ? least[i] : Math.Max(least[i], Natural(table, i)))];
        double[] whole = [.. table.Columns.Select((column, i) => column.Share > 0 ? Math.Max(natural[i], Cells(table, i) + 0.1) : natural[i])];
        double spare = room - natural.Sum() - Math.Min(room * 0.2, whole.Sum() - natural.Sum());
        double over = natural.Zip(least, (one, other) => one - other).Sum();
        double keep = spare >= 0 || over <= 0 ? 1 : Math.Max(0, 1 + (spare / over));
        double[] widths = [.. natural.Zip(least, (one, other) => other + (keep * (one - other)))];
        double scale = Math.Min(1, room / widths.Sum());
        double rest = room - (scale * widths.Where((_, i) => table.Columns[i].Share == 0).Sum());
        bool fits = whole.Where((_, i) => table.Columns[i].Share > 0).Sum() <= rest;
        double[] atLeast = [.. table.Columns.Select((column, i) => fits && column.Share > 0 ? whole[i] : scale * widths[i])];
        return fits ? [.. Divide(table, atLeast, rest, shares)] : [.. DivideByNeed(table, atLeast, whole, rest)];
    }

    /// <summary>The same where not all cells fit into one line: no column gets more than its longest cell, and the others divide what is left.</summary>
    private static IEnumerable<double> DivideByNeed(Table table, double[] least, double[] whole, double room)
    {
        double[] widths = [.. least];
        ImmutableArray<Column> open = table.Columns;
        while (true)
        {
            Table left = table with { Columns = open };
            double[] divided = [.. Divide(left, widths, room, open.Sum(column => column.Share))];
            int[] wide = [.. Enumerable.Range(0, widths.Length).Where(i => open[i].Share > 0 && divided[i] > whole[i] + 1e-9)];
            if (wide.Length == 0) return divided;
            foreach (int i in wide)
            {
                widths[i] = whole[i];
                room -= whole[i];
                open = open.SetItem(i, open[i] with { Share = 0 });
            }
        }
    }

    /// <summary>Columns with a share divide the room by their shares, but none gets less than its longest word, nor than its longest cell where there is room for all of these.</summary>
    private static IEnumerable<double> Divide(Table table, double[] least, double room, double shares)
    {
        double extra = Math.Max(0, room - table.Columns.Select((column, i) => column.Share > 0 ? least[i] : 0).Sum());
        bool even = table.Columns.Index().All(pair => pair.Item.Share == 0 || room * pair.Item.Share / shares >= least[pair.Index]);
        for (int i = 0; i < least.Length; i++)
        {
            double share = table.Columns[i].Share;
            yield return share == 0 ? least[i] : even ? room * share / shares : least[i] + (extra * share / shares);
        }
    }

    /// <summary>Widths of the words that a column would not like to break.</summary>
    private static IEnumerable<double> Words(Table table, int index)
    {
        Column column = table.Columns[index];
        foreach (string word in column.Head.Split(' ')) yield return TextFlow.Width(word, BookStyle.CellHead) + 0.1;
        if (column.Ticks)
        {
            yield return TickWidth;
            yield break;
        }

        foreach (Row row in table.Rows)
        {
            foreach (string word in column.KeepsTogether ? [row.Cells[index]] : row.Cells[index].Split(' '))
            {
                yield return Math.Min(TextFlow.Width(word, StyleOf(column, row)) + 0.1, WidestWord);
            }
        }
    }

    private static double Natural(Table table, int index)
    {
        Column column = table.Columns[index];
        double head = Math.Min(TextFlow.Width(column.Head, BookStyle.CellHead), 24);
        if (column.Ticks) return head + 0.1;
        return Math.Max(head, Math.Min(Cells(table, index), WidestWord)) + 0.1;
    }

    /// <summary>Width of the longest cell of a column of words.</summary>
    private static double Cells(Table table, int index) =>
        table.Rows.Select(row => TextFlow.Width(row.Cells[index], StyleOf(table.Columns[index], row))).DefaultIfEmpty(0).Max();

    private static TextStyle StyleOf(Column column, Row row) => column.Bold || row.Strong ? BookStyle.CellStrong : BookStyle.Cell;
}
