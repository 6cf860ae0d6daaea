using System.Data;
using System.Globalization;
using Sylvan.Data.Csv;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>
/// A schedule as comma-separated values for a spreadsheet. A cell that a spreadsheet would take for a formula (it begins with
/// =, +, -, @, a tab or a line end) gets an apostrophe before it, which spreadsheets show as plain text.
/// </summary>
public static class ScheduleCsv
{
    private static readonly string[] Columns =
        ["id", "kind", "district", "leg", "from", "to", "wire", "length", "cut", "colour", "taps", "built"];

    /// <summary>One row a wire under one row of names.</summary>
    public static string Write(Schedule schedule)
    {
        using DataTable table = new() { Locale = CultureInfo.InvariantCulture };
        foreach (string column in Columns) table.Columns.Add(column is "length" or "cut" ? $"{column}-{(schedule.Lengths == LengthStyle.Feet ? "in" : "mm")}" : column, typeof(string));
        foreach (ScheduledWire wire in schedule.Wires) table.Rows.Add([.. Cells(wire, schedule.Lengths).Select(Guard)]);
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

    private static IEnumerable<string> Cells(ScheduledWire wire, LengthStyle lengths) =>
    [
        wire.Id, wire.Kind.ToString().ToLowerInvariant(), wire.District, wire.Leg, wire.From, wire.To, wire.Wire.ToString()!,
        Number(wire.Length, lengths), Number(wire.CutLength, lengths), wire.Colour,
        string.Join(' ', wire.Taps.Select(tap => $"{tap.Point}@{Number(tap.FromStart, lengths)}")), wire.IsBuilt ? "yes" : "no",
    ];

    /// <summary>Whole millimetres, or inches to an eighth.</summary>
    private static string Number(Length length, LengthStyle lengths) => lengths == LengthStyle.Feet
        ? (Math.Round(length.Inches * 8) / 8).ToString("0.###", CultureInfo.InvariantCulture)
        : Math.Round(length.Millimeters).ToString("0", CultureInfo.InvariantCulture);
}
