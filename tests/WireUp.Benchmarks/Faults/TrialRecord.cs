using System.Collections.Immutable;
using System.Globalization;

namespace WireUp.Benchmarks.Faults;

/// <summary>How one trial went; a line of a file, so that a run that was stopped goes on where it was.</summary>
/// <param name="Number">Its number among those of its kind.</param>
/// <param name="Ranks">Place of what was injected in the ranking, from 0, at the complaint and after each reading; −1 where it was not listed.</param>
/// <param name="Alike">Whether it was first or no reading so far told it from the first.</param>
/// <param name="ToCertainty">Readings until one part had 95 %; one more than were made where that did not suffice.</param>
/// <param name="ByHand">What halving by hand takes.</param>
/// <param name="Drawn">Faults that were drawn to find one that somebody notices.</param>
/// <param name="Story">What was injected, what was read and what came out of it.</param>
internal sealed record TrialRecord(int Number, ImmutableArray<int> Ranks, ImmutableArray<bool> Alike, int ToCertainty, int ByHand, int Drawn, string Story)
{
    private const char Column = '\t';

    private const string Injected = "injected ";

    /// <summary>The words in which the story tells what was injected.</summary>
    internal static string Told(string place, double value) => string.Create(CultureInfo.InvariantCulture, $"{Injected}{place}, {value:G3}");

    /// <summary>The first part that was injected.</summary>
    internal string Place => Story.Split(" | ")[0] is var told ? told[Injected.Length..told.LastIndexOf(", ", StringComparison.Ordinal)] : "";

    internal static TrialRecord Parse(string line)
    {
        string[] columns = line.Split(Column);
        return new(
            Int(columns[0]),
            [.. columns[1].Split(' ').Select(Int)],
            [.. columns[2].Split(' ').Select(word => word == "alike")],
            Int(columns[3]),
            Int(columns[4]),
            Int(columns[5]),
            columns[6]);
    }

    /// <summary>The line.</summary>
    public override string ToString() => string.Join(
        Column,
        Text(Number),
        string.Join(' ', Ranks.Select(Text)),
        string.Join(' ', Alike.Select(alike => alike ? "alike" : "apart")),
        Text(ToCertainty),
        Text(ByHand),
        Text(Drawn),
        Story);

    private static int Int(string word) => int.Parse(word, CultureInfo.InvariantCulture);

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}

/// <summary>How the trials of one kind went, reading by reading.</summary>
/// <param name="Count">How many trials.</param>
/// <param name="First">For each number of readings beyond the complaint, in how many the injected part was first.</param>
/// <param name="Among">In how many it was among the first few of the ranking.</param>
/// <param name="Alike">In how many it was first or told apart from the first by no reading.</param>
/// <param name="ToCertainty">Readings until one part had 95 %, summed.</param>
/// <param name="ByHand">What halving by hand takes to the same end, summed.</param>
/// <param name="Drawn">How many faults were drawn to find those that somebody notices.</param>
internal sealed record TrialOutcome(int Count, ImmutableArray<int> First, ImmutableArray<int> Among, ImmutableArray<int> Alike, int ToCertainty, int ByHand, int Drawn)
{
    internal static TrialOutcome Of(TrialKind kind, IReadOnlyCollection<TrialRecord> records)
    {
        IEnumerable<int> steps = Enumerable.Range(0, kind.Readings + 1);
        return new(
            records.Count,
            [.. steps.Select(step => records.Count(record => record.Ranks[step] == 0))],
            [.. steps.Select(step => records.Count(record => record.Ranks[step] >= 0 && record.Ranks[step] < kind.Among))],
            [.. steps.Select(step => records.Count(record => record.Alike[step]))],
            records.Sum(record => record.ToCertainty),
            records.Sum(record => record.ByHand),
            records.Sum(record => record.Drawn));
    }
}
