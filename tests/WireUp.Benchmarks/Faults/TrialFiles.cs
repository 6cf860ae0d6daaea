using System.Globalization;

namespace WireUp.Benchmarks.Faults;

/// <summary>Records of trials in a folder, a file for each range of numbers: several runs may share the work.</summary>
internal sealed class TrialFiles
{
    /// <summary>So many trials are read in one run of the simulator and kept together.</summary>
    private const int Batch = 20;

    private readonly string _folder;

    internal TrialFiles(string folder)
    {
        _folder = folder;
        Directory.CreateDirectory(folder);
    }

    /// <summary>All records of a kind, each number once.</summary>
    internal List<TrialRecord> Read(TrialKind kind) => [.. Directory.GetFiles(_folder, $"{kind.Name}-*.tsv")
        .SelectMany(File.ReadAllLines).Select(TrialRecord.Parse).DistinctBy(record => record.Number).OrderBy(record => record.Number)];

    /// <summary>Runs those of a range that no file holds yet.</summary>
    internal void Fill(FaultTrials trials, TrialKind kind, int from, int to)
    {
        HashSet<int> known = [.. Read(kind).Select(record => record.Number)];
        string file = Path.Combine(_folder, string.Create(CultureInfo.InvariantCulture, $"{kind.Name}-{from}.tsv"));
        foreach (int[] numbers in Enumerable.Range(from, to - from).Where(number => !known.Contains(number)).Chunk(Batch))
        {
            File.AppendAllLines(file, trials.Run(kind, numbers).Select(record => record.ToString()));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind.Name}: up to {numbers[^1]}"));
        }
    }
}
