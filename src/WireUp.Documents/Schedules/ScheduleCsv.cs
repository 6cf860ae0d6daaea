using System.Globalization;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>A schedule as comma-separated values for a spreadsheet; no cell is taken for a formula.</summary>
public static class ScheduleCsv
{
    private static readonly string[] Columns =
        ["id", "kind", "district", "leg", "from", "to", "wire", "length", "cut", "colour", "taps", "built"];

    /// <summary>One row a wire under one row of names.</summary>
    public static string Write(Schedule schedule)
    {
        string unit = schedule.Lengths == LengthStyle.Feet ? "in" : "mm";
        return CsvTable.Write(
            Columns.Select(column => column is "length" or "cut" ? $"{column}-{unit}" : column),
            schedule.Wires.Select(wire => Cells(wire, schedule.Lengths)));
    }

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
