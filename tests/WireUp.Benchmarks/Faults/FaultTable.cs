using System.Diagnostics;
using System.Globalization;
using System.Text;
using WireUp.Layouts;
using WireUp.Testing;

namespace WireUp.Benchmarks.Faults;

/// <summary>How often the search finds faults put into the club sample, written into docs/fault-trials.md between two marks.</summary>
internal static class FaultTable
{
    private const string PageFile = "docs/fault-trials.md", Begin = "<!-- figures of the trials -->", End = "<!-- end of the figures -->";

    /// <summary>Runs the trials.</summary>
    /// <param name="count">How many of single faults; of the other kinds in proportion.</param>
    /// <param name="isPut">Whether the figures go into the page.</param>
    internal static void Run(int count, bool isPut)
    {
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "tarrow-valley-as-built.layout.yaml").Layout!;
        FaultTrials trials = new(layout, Simulate);
        StringBuilder table = new();
        table.Append("| trials | readings | injected part first | among the first three (of pairs: five) | first, or alike to the first in every reading |\n| --- | --- | --- | --- | --- |\n");
        TrialOutcome sound = trials.Run(count, 4, pairs: false, varies: false, seed: 1);
        Append(table, "one fault, sound parts as the layout says", sound);
        Append(table, "one fault, sound parts vary", trials.Run(Math.Max(1, count * 3 / 10), 4, pairs: false, varies: true, seed: 20001));
        Append(table, "two faults", trials.Run(Math.Max(1, count / 20), 8, pairs: true, varies: false, seed: 30001));
        table.Append(CultureInfo.InvariantCulture, $"\nOf {sound.Drawn} faults drawn as often as the table of rates says, {sound.Count} made a locomotive slow down or stop somewhere: only those are looked for.\n");
        table.Append(CultureInfo.InvariantCulture, $"Readings until one part had 95 %: {Mean(sound.ToCertainty, sound.Count)} on average (five where four did not suffice). ");
        table.Append(CultureInfo.InvariantCulture, $"Halving by hand the parts whose opening would take a fifth of the volts or more, no reading ever wrong: {Mean(sound.ByHand, sound.Count)}.\n");
        Console.WriteLine(table);
        if (isPut)
        {
            Put(table.ToString());
        }
    }

    private static void Append(StringBuilder table, string what, TrialOutcome outcome)
    {
        for (int step = 0; step < outcome.First.Length; step++)
        {
            table.Append(CultureInfo.InvariantCulture, $"| {(step == 0 ? $"{outcome.Count}: {what}" : "")} | {(step == 0 ? "complaint only" : step.ToString(CultureInfo.InvariantCulture))} ");
            table.Append(CultureInfo.InvariantCulture, $"| {Part(outcome.First[step], outcome.Count)} | {Part(outcome.Among[step], outcome.Count)} | {Part(outcome.Group[step], outcome.Count)} |\n");
        }
    }

    private static string Part(int count, int all) => string.Create(CultureInfo.InvariantCulture, $"{100.0 * count / all:f1} %");

    private static string Mean(int sum, int count) => string.Create(CultureInfo.InvariantCulture, $"{(double)sum / count:f2}");

    private static void Put(string table)
    {
        string file = RepoFiles.PathOf(PageFile), page = File.ReadAllText(file);
        int from = page.IndexOf(Begin, StringComparison.Ordinal), to = page.IndexOf(End, StringComparison.Ordinal);
        if (from < 0 || to < from)
        {
            Console.WriteLine($"{PageFile} has no place for the figures");
            return;
        }

        File.WriteAllText(file, $"{page[..(from + Begin.Length)]}\n\n{table}\n{page[to..]}");
    }

    private static string Simulate(string netlist)
    {
        string file = Path.Combine(Path.GetTempPath(), $"wireup-faults-{Environment.ProcessId.ToString(CultureInfo.InvariantCulture)}.cir");
        File.WriteAllText(file, netlist);
        try
        {
            using Process process = Process.Start(new ProcessStartInfo("ngspice", ["-b", file]) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true })!;
            Task<string> errors = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            errors.Wait();
            return output;
        }
        finally
        {
            File.Delete(file);
        }
    }
}
