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
        Console.WriteLine(Text(kind => trials.Run(kind, Enumerable.Range(0, Math.Max(2, kind.Count / 25)))));
    }

    /// <summary>Puts the figures of the records that a folder holds into the page.</summary>
    internal static void Put(string folder)
    {
        TrialFiles files = new(folder);
        string table = Text(files.Read);
        Console.WriteLine(table);
        Page.Put(table, Begin, End, PageFile);
    }

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

    private static FaultTrials Trials() =>
        new(LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "tarrow-valley-as-built.layout.yaml").Layout!, Simulate);

    private static string Text(Func<TrialKind, IReadOnlyCollection<TrialRecord>> recordsOf)
    {
        StringBuilder table = new();
        table.Append("| trials | readings | injected part first | among the first three (of pairs: five) | first, or alike to the first in every reading |\n| --- | --- | --- | --- | --- |\n");
        foreach (TrialKind kind in TrialKind.All)
        {
            TrialOutcome outcome = TrialOutcome.Of(kind, recordsOf(kind));
            if (outcome.Count > 0)
            {
                Append(table, kind, outcome);
            }
        }

        TrialOutcome sound = TrialOutcome.Of(TrialKind.Single, recordsOf(TrialKind.Single));
        table.Append(CultureInfo.InvariantCulture, $"\nOf {sound.Drawn} faults drawn as often as the table of rates says, {sound.Count} made a locomotive slow down or stop somewhere: only those are looked for.\n");
        table.Append(CultureInfo.InvariantCulture, $"Readings until one part had 95 %: {Mean(sound.ToCertainty, sound.Count)} on average (five where four did not suffice). ");
        table.Append(CultureInfo.InvariantCulture, $"Halving by hand the parts whose opening would take a fifth of the volts or more, no reading ever wrong: {Mean(sound.ByHand, sound.Count)}.\n");
        return table.ToString();
    }

    private static void Append(StringBuilder table, TrialKind kind, TrialOutcome outcome)
    {
        for (int step = 0; step < outcome.First.Length; step++)
        {
            table.Append(CultureInfo.InvariantCulture, $"| {(step == 0 ? $"{outcome.Count}: {kind.Words}" : "")} | {(step == 0 ? "complaint only" : step.ToString(CultureInfo.InvariantCulture))} ");
            table.Append(CultureInfo.InvariantCulture, $"| {Part(outcome.First[step], outcome.Count)} | {Part(outcome.Among[step], outcome.Count)} | {Part(outcome.Alike[step], outcome.Count)} |\n");
        }
    }

    private static string Part(int count, int all) => string.Create(CultureInfo.InvariantCulture, $"{100.0 * count / all:f1} %");

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
