using System.Globalization;
using UnitsNet;

namespace WireUp.Documents.Book;

/// <summary>Figures as the book prints them.</summary>
internal static class Figure
{
    public static string Volts(ElectricPotential value) => Text($"{value.Volts:0.0} V");

    public static string FineVolts(ElectricPotential value) => Text($"{value.Volts:0.00} V");

    public static string Amps(ElectricCurrent value) => value.Amperes >= 10 ? Text($"{value.Amperes:0} A") : Text($"{value.Amperes:0.0#} A");

    public static string Time(Duration value) => value.Seconds < 1 ? Text($"{value.Milliseconds:0.##} ms") : Text($"{value.Seconds:0.##} s");

    public static string Ohms(ElectricResistance value) => Text($"{value.Ohms:0.00} Ω");

    public static string Percent(Ratio value) => Text($"{value.Percent:0.0} %");

    public static string Times(double value) => value >= 10 ? Text($"{value:0} ×") : Text($"{value:0.0} ×");

    public static string Whole(double value) => Text($"{value:0}");

    public static string Count(int count, string one, string many) => Text($"{count} {(count == 1 ? one : many)}");

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
