using System.Globalization;
using System.Text;

namespace WireUp.Benchmarks;

/// <summary>
/// What the circuit room costs on layouts of growing size, beside the simulator ngspice on the same netlists in the same run: a table,
/// which the long run writes into docs/performance.md.
/// </summary>
internal static class Performance
{
    internal static void Run(bool quick)
    {
        double budget = quick ? 100 : 1500;
        Measurement[] found = [.. (quick ? [1_000, 10_000] : (ReadOnlySpan<int>)[1_000, 10_000, 100_000]).ToArray()
            .Select(pieces => new Measurement(pieces, budget, simulate: true))];
        string table = Table(found);
        Console.WriteLine(table);
        if (!quick)
        {
            Page.Put(table, PerformanceRows.Begin, PerformanceRows.End);
        }
    }

    private static string Table(Measurement[] found)
    {
        StringBuilder text = new();
        text.Append(CultureInfo.InvariantCulture, $"| | | {string.Join(" | ", found.Select(m => Text($"{m.Pieces:N0} pieces")))} | grows with pieces to the |\n");
        text.Append(CultureInfo.InvariantCulture, $"| --- | --- |{string.Concat(found.Select(_ => " ---: |"))} ---: |\n");
        foreach (PerformanceRow row in PerformanceRows.All)
        {
            string values = string.Join(" | ", found.Select(m => Value(m[row])));
            text.Append(CultureInfo.InvariantCulture, $"| {row.Name} | {row.Unit} | {values} | {Growth(row, found)} |\n");
        }

        return text.ToString();
    }

    /// <summary>Slope of the logarithm between the smallest and the largest.</summary>
    private static string Growth(PerformanceRow row, Measurement[] found) => row.Grows && found[0][row] is { } first && found[^1][row] is { } last
        ? Text($"{Math.Log(last / first) / Math.Log((double)found[^1].Pieces / found[0].Pieces):0.00}")
        : "";

    private static string Value(double? value) => value switch
    {
        null => "–",
        >= 100 => Text($"{value:N0}"),
        >= 10 => Text($"{value:0.0}"),
        >= 1 => Text($"{value:0.00}"),
        _ => Text($"{value:0.000}"),
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
