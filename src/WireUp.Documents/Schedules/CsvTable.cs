using System.Data;
using System.Globalization;
using Sylvan.Data.Csv;

namespace WireUp.Documents;

/// <summary>
/// Rows of words as comma-separated values for a spreadsheet. A cell that a spreadsheet would take for a formula (it begins with
/// =, +, -, @, a tab or a line end) gets an apostrophe before it, which spreadsheets show as plain text.
/// </summary>
internal static class CsvTable
{
    /// <summary>One line a row under one line of names; a name that occurs again is numbered.</summary>
    public static string Write(IEnumerable<string> columns, IEnumerable<IEnumerable<string>> rows)
    {
        using DataTable table = new() { Locale = CultureInfo.InvariantCulture };
        foreach (string column in columns) table.Columns.Add(Free(table, column), typeof(string));
        foreach (IEnumerable<string> row in rows) table.Rows.Add([.. row.Select(Guard)]);
        using StringWriter text = new(CultureInfo.InvariantCulture);
        using (CsvDataWriter csv = CsvDataWriter.Create(text, new() { NewLine = "\n" }))
        {
            csv.Write(table.CreateDataReader());
        }

        return text.ToString();
    }

    /// <summary>The cell as plain text.</summary>
    internal static string Guard(string cell) =>
        cell.Length > 0 && cell[0] is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' ? "'" + cell : cell;

    private static string Free(DataTable table, string name)
    {
        for (int i = 1; ; i++)
        {
            string free = i == 1 ? name : string.Create(CultureInfo.InvariantCulture, $"{name} {i}");
            if (!table.Columns.Contains(free)) return free;
        }
    }
}
