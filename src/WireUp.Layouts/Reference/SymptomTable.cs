using System.Collections.Immutable;

namespace WireUp.Layouts.Reference;

/// <summary>A symptom in words, for which the trade has an answer that no single reading gives.</summary>
/// <param name="Symptom">What is seen.</param>
/// <param name="Likely">What it usually is.</param>
/// <param name="Test">What tells the likely causes apart.</param>
/// <param name="Typical">Figures that are met, or empty.</param>
/// <param name="Standing">How well it is founded.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record SymptomRow(string Symptom, string Likely, string Test, string Typical, Standing Standing, string Source);

/// <summary>Symptoms and what to do about them (shared/symptoms.csv).</summary>
public static class SymptomTable
{
    /// <summary>Words that say nothing of what is wrong.</summary>
    private static readonly string[] Empty =
        ["a", "an", "the", "at", "in", "on", "of", "to", "is", "are", "it", "and", "or", "when", "while", "with", "only", "one", "some", "my", "after", "always"];

    private static readonly string[] Endings = ["ing", "ed", "es", "s", "e"];

    /// <summary>Every row, in the order of the table.</summary>
    public static ImmutableArray<SymptomRow> Rows { get; } =
    [
        .. ReferenceTable.Read("symptoms.csv").Select(row =>
            new SymptomRow(row.Text("symptom"), row.Text("likely"), row.Text("test"), row.Text("typical"), row.Standing, row.Source)),
    ];

    /// <summary>
    /// The rows whose symptom shares most words with what somebody says, beginnings of words counted; none where fewer than half of the
    /// words that say something are found. Rows that are as near are given together, three at most.
    /// </summary>
    public static ImmutableArray<SymptomRow> Matching(string words)
    {
        string[] said = Telling(words);
        if (said.Length == 0)
        {
            return [];
        }

        (SymptomRow Row, int Shared, int Of)[] shared = [.. Rows.Select(row => (row, Shared(said, Telling(row.Symptom)), Telling(row.Symptom).Length))];
        int most = shared.Max(entry => entry.Shared);
        if (2 * most < said.Length)
        {
            return [];
        }

        int fewest = shared.Where(entry => entry.Shared == most).Min(entry => entry.Of);
        return [.. shared.Where(entry => entry.Shared == most && entry.Of <= fewest + 1).Take(3).Select(entry => entry.Row)];
    }

    private static int Shared(string[] said, string[] row) => said.Count(word => row.Any(other => IsAlike(word, other)));

    /// <summary>Words of one stem: the same without their endings, or alike in four letters or more but for an ending of three.</summary>
    private static bool IsAlike(string one, string other)
    {
        int least = Math.Min(one.Length, other.Length), most = Math.Max(one.Length, other.Length);
        int alike = Enumerable.Range(0, least).TakeWhile(i => one[i] == other[i]).Count();
        return Stem(one) == Stem(other) || (alike >= Math.Max(4, least - 1) && most - alike <= 3);
    }

    private static string Stem(string word) =>
        Endings.FirstOrDefault(ending => word.Length > ending.Length + 2 && word.EndsWith(ending, StringComparison.Ordinal)) is { } ending ? word[..^ending.Length] : word;

    private static string[] Telling(string words) =>
        [.. words.ToLowerInvariant().Split([' ', ',', ';', ':', '.', '-', '/', '(', ')', '?', '!'], StringSplitOptions.RemoveEmptyEntries).Except(Empty).Distinct()];
}
