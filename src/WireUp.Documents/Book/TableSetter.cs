using System.Collections.Immutable;

namespace WireUp.Documents.Book;

/// <summary>A row broken into lines.</summary>
/// <param name="Cells">The lines of each cell.</param>
/// <param name="Height">Its height in millimetres.</param>
/// <param name="Source">The row it comes from; a very long row is set as several.</param>
internal sealed record SetRow(ImmutableArray<IReadOnlyList<string>> Cells, double Height, Row Source)
{
    /// <summary>Whether its first cell is left out, being the same as in the row above.</summary>
    public bool IsSameAsAbove => Cells[0].All(line => line.Length == 0);

    /// <summary>The row with the first cell of an earlier one, as far as its height has room for it.</summary>
    public SetRow Named(SetRow earlier) => this with { Cells = Cells.SetItem(0, [.. earlier.Cells[0].Take(Cells.Max(cell => cell.Count))]) };
}

/// <summary>Sets a table: column widths, lines, zebra, boxes to tick.</summary>
internal sealed class TableSetter(Table table, double width)
{
    private const double Pad = 1.05;
    private const int MostLines = 30;
    private const double TickSize = 3.1;

    private readonly ImmutableArray<double> _widths = ColumnWidths.Of(table, width);

    /// <summary>Height of the head.</summary>
    public double HeadHeight => (HeadLines().Max(lines => lines.Count) * LineHeight(BookStyle.CellHead)) + (2 * Pad);

    /// <summary>Every row, broken into lines.</summary>
    public IEnumerable<SetRow> Rows() => table.Rows.SelectMany(Set);

    /// <summary>Writes the head and returns where the first row begins.</summary>
    public double WriteHead(BookPage page, double left, double top)
    {
        IReadOnlyList<string>[] heads = [.. HeadLines()];
        double height = HeadHeight;
        double line = LineHeight(BookStyle.CellHead);
        for (int i = 0; i < heads.Length; i++)
        {
            double first = top + height - Pad - (heads[i].Count * line);
            WriteLines(page, heads[i], i, left, first, BookStyle.CellHead);
        }

        page.Rule(left, left + width, top + height, BookStyle.HeadRule);
        return top + height;
    }

    /// <summary>Writes a row and returns where the next begins.</summary>
    public double WriteRow(BookPage page, double left, double top, SetRow row, bool shaded)
    {
        if (shaded) page.Box(new(left, top, left + width, top + row.Height), ShapeStyle.Area(SceneColours.Zebra));
        for (int i = 0; i < table.Columns.Length; i++)
        {
            if (table.Columns[i].Ticks)
            {
                if (row.Source.Cells[i] != Row.NoBox) WriteTick(page, X(i, left, TextAlign.Middle), top + (row.Height / 2));
            }
            else
            {
                WriteLines(page, row.Cells[i], i, left, top + Pad, StyleOf(table.Columns[i], row.Source));
            }
        }

        return top + row.Height;
    }

    private IEnumerable<SetRow> Set(Row row)
    {
        IReadOnlyList<string>[] cells = [.. table.Columns.Select((column, i) =>
            column.Ticks ? [string.Empty] : TextFlow.Lines(row.Cells[i], _widths[i], StyleOf(column, row)))];
        int lines = cells.Max(cell => cell.Count);
        for (int from = 0; from < lines; from += MostLines)
        {
            ImmutableArray<IReadOnlyList<string>> part =
                [.. cells.Select(cell => (IReadOnlyList<string>)[.. cell.Skip(from).Take(MostLines)])];
            yield return new(part, (part.Max(cell => cell.Count) * LineHeight(BookStyle.Cell)) + (2 * Pad), row);
        }
    }

    private IEnumerable<IReadOnlyList<string>> HeadLines() =>
        table.Columns.Select((column, i) => TextFlow.Lines(column.Head, _widths[i] + 0.1, BookStyle.CellHead));

    private void WriteLines(BookPage page, IReadOnlyList<string> lines, int column, double left, double top, TextStyle style)
    {
        TextAlign align = table.Columns[column].Align;
        double x = X(column, left, align);
        double line = LineHeight(style);
        for (int i = 0; i < lines.Count; i++)
        {
            double baseline = top + (i * line) + (0.5 * (line - style.SizeMillimetres)) + (SceneText.Ascent * style.SizeMillimetres);
            if (lines[i].Length > 0) page.Write(lines[i], x, baseline, style with { Align = align });
        }
    }

    private double X(int column, double left, TextAlign align)
    {
        double x = left + (ColumnWidths.Gutter / 2) + _widths.Take(column).Sum(before => before + ColumnWidths.Gutter);
        return align switch { TextAlign.Left => x, TextAlign.Middle => x + (_widths[column] / 2), _ => x + _widths[column] };
    }

    private static void WriteTick(BookPage page, double x, double y) => page.Box(
        new(x - (TickSize / 2), y - (TickSize / 2), x + (TickSize / 2), y + (TickSize / 2)),
        new() { Fill = SceneColours.Paper, Stroke = SceneColours.Ink, WidthMillimetres = 0.22 });

    private static TextStyle StyleOf(Column column, Row row) => column.Bold || row.Strong ? BookStyle.CellStrong : BookStyle.Cell;

    private static double LineHeight(TextStyle style) => style.SizeMillimetres * BookStyle.Leading;
}
