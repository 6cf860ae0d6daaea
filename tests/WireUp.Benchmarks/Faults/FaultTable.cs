using System.Diagnostics;
using System.Globalization;
using System.Text;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Testing;

namespace WireUp.Benchmarks.Faults;

/// <summary>How often the search finds faults put into the club sample, written into docs/fault-trials.md between two marks.</summary>
internal static class FaultTable
{
    private const string PageFile = "docs/fault-trials.md", Begin = "<!-- figures of {0} -->", End = "<!-- end of {0} -->";

    /// <summary>Runs all trials that a folder does not hold yet and puts the figures into the page.</summary>
    /// <param name="folder">Holds a record of each trial.</param>
    internal static void Run(string folder)
    {
        foreach (TrialKind kind in TrialKind.All)
        {
            Run(folder, kind, 0, kind.Count);
        }

        Put(folder);
    }

    /// <summary>Runs those trials of a range that a folder does not hold yet: several runs may share the work.</summary>
    internal static void Run(string folder, TrialKind kind, int from, int to) => new TrialFiles(folder).Fill(Trials(), kind, from, to);

    /// <summary>Runs a few trials of each kind and prints the figures.</summary>
    internal static void Quick()
    {
        FaultTrials trials = Trials();
        foreach (TrialKind kind in TrialKind.All)
        {
            Console.WriteLine(Text(kind, trials.Run(kind, Enumerable.Range(0, Math.Clamp(kind.Count / 25, 2, 40)))));
        }
    }

    /// <summary>Puts the figures of the records that a folder holds into the page; kinds of which it holds none keep theirs.</summary>
    internal static void Put(string folder)
    {
        TrialFiles files = new(folder);
        foreach (TrialKind kind in TrialKind.All)
        {
            if (files.Read(kind) is { Count: > 0 } records)
            {
                string table = Text(kind, records);
                Console.WriteLine(table);
                Page.Put(table, Mark(Begin, kind), Mark(End, kind), PageFile);
            }
        }
    }

    private static string Mark(string format, TrialKind kind) => string.Format(CultureInfo.InvariantCulture, format, kind.Name);

    /// <summary>Tells of the trials in which something else came first.</summary>
    internal static void Tell(string folder)
    {
        TrialFiles files = new(folder);
        foreach (TrialKind kind in TrialKind.All)
        {
            foreach (TrialRecord record in files.Read(kind).Where(record => record.Ranks[^1] != 0).OrderByDescending(record => (uint)record.Ranks[^1]))
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind.Name} {record.Number}, rank {string.Join(' ', record.Ranks)}{(record.Alike[^1] ? ", alike to the first" : "")}"));
                Console.WriteLine("  " + record.Story.Replace(" | ", "\n  ", StringComparison.Ordinal));
            }
        }
    }

    private static Layout Club() =>
        LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "tarrow-valley-as-built.layout.yaml").Layout!;

    private static FaultTrials Trials() => new(Club(), Simulate);

    private static string Text(TrialKind kind, IReadOnlyCollection<TrialRecord> records)
    {
        TrialOutcome outcome = TrialOutcome.Of(kind, records);
        StringBuilder table = new();
        table.Append(CultureInfo.InvariantCulture, $"| {outcome.Count}: {kind.Words} | injected part first | among the first {(kind.IsPair ? "five" : "three")} | first, or alike to the first in every reading |\n| --- | --- | --- | --- |\n");
        for (int step = 0; step < outcome.First.Length; step++)
        {
            table.Append(CultureInfo.InvariantCulture, $"| {(step == 0 ? "complaint only" : $"{step} reading{(step == 1 ? "" : "s")}")} ");
            table.Append(CultureInfo.InvariantCulture, $"| {Part(outcome.First[step], outcome.Count)} | {Part(outcome.Among[step], outcome.Count)} | {Part(outcome.Alike[step], outcome.Count)} |\n");
        }

        if (kind.HasSupply)
        {
            AppendKinds(table, kind, records);
        }

        if (!kind.IsPair)
        {
            table.Append(CultureInfo.InvariantCulture, $"\nOf {outcome.Drawn} faults drawn as often as the table of rates says, {outcome.Count} {(kind.HasSupply ? "tripped a breaker or " : "")}made a locomotive slow down or stop somewhere: only those are looked for.\n");
            table.Append(CultureInfo.InvariantCulture, $"Readings until one part had 95 %: {Mean(outcome.ToCertainty, outcome.Count)} on average (five where four did not suffice).");
            table.Append(kind.HasSupply ? "\n" : $" Halving by hand the parts whose opening would take a fifth of the volts or more, no reading ever wrong: {Mean(outcome.ByHand, outcome.Count)}.\n");
        }

        return table.ToString();
    }

    /// <summary>The same after the last reading by kinds of parts.</summary>
    private static void AppendKinds(StringBuilder table, TrialKind kind, IReadOnlyCollection<TrialRecord> records)
    {
        Dictionary<string, FaultElementKind> kinds = FaultSearch.Parts(Club()).ToDictionary(part => part.Place, part => part.Kind, StringComparer.Ordinal);
        table.Append("\n| part | trials | first after four readings | among the first three |\n| --- | --- | --- | --- |\n");
        foreach (IGrouping<FaultElementKind, TrialRecord> group in records.GroupBy(record => kinds[record.Place]).OrderBy(group => group.Key))
        {
            TrialOutcome outcome = TrialOutcome.Of(kind, [.. group]);
            table.Append(CultureInfo.InvariantCulture, $"| {group.Key.Word()} | {outcome.Count} | {outcome.First[^1]} | {outcome.Among[^1]} |\n");
        }
    }

    /// <summary>A part of all, and between what the true part lies with 95 %: the score interval.</summary>
    private static string Part(int count, int all)
    {
        const double Z = 1.959964;
        double part = (double)count / all, middle = (part + (Z * Z / (2 * all))) / (1 + (Z * Z / all));
        double half = Z / (1 + (Z * Z / all)) * Math.Sqrt((part * (1 - part) / all) + (Z * Z / (4.0 * all * all)));
        return string.Create(CultureInfo.InvariantCulture, $"{100 * part:f1} % ({Math.Max(0, 100 * (middle - half)):f1} to {Math.Min(100, 100 * (middle + half)):f1})");
    }

    private static string Mean(int sum, int count) => string.Create(CultureInfo.InvariantCulture, $"{(double)sum / count:f2}");

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
