using System.Globalization;

namespace WireUp.Layouts.Quantities;

/// <summary>Writes numbers so that reading them back gives the same number.</summary>
internal static class Numbers
{
    /// <summary>The shortest text of a number that reads back the same.</summary>
    public static string Exact(double number) => number.ToString("R", CultureInfo.InvariantCulture);
}

/// <summary>Writes numbers by the thousand: millimetres, milliohms.</summary>
internal static class Thousandths
{
    /// <summary>A thousand times the number, short; null where that would not read back the same.</summary>
    public static string? Of(double number)
    {
        double thousand = Math.Round(number * 1000, 9) + 0.0;
        string text = Numbers.Exact(thousand);
        return thousand / 1000 == number && !text.Contains('E', StringComparison.Ordinal) ? text : null;
    }
}
