using System.Collections.Immutable;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Commands;

/// <summary>What was typed for <c>diagnose</c>, before it is read.</summary>
/// <param name="File">Name of the readings file, <c>-</c> for standard input, or null.</param>
/// <param name="Readings">Readings typed as sentences.</param>
/// <param name="Symptoms">Symptoms typed as sentences or in free words.</param>
/// <param name="Tools">Tools on hand, or null for what the file says.</param>
internal sealed record ReadingArguments(string? File, string[] Readings, string[] Symptoms, string? Tools)
{
    /// <summary>Whether anything was read or seen.</summary>
    public bool IsEmpty => File is null && Readings.Length == 0 && Symptoms.Length == 0;

    /// <summary>The readings, and the symptoms that only advice can answer.</summary>
    /// <exception cref="InputRefused">Something typed cannot be read.</exception>
    public (ReadingSet Set, ImmutableArray<SymptomRow> Advice) Read(Layout layout, LayoutFiles files, FileInfo layoutFile)
    {
        ReadingSet set = File is null ? ReadingSet.None : files.ReadReadings(layout, File, layoutFile);
        IEnumerable<MeterReading> typed = Readings.Select(text => Sentence(layout, text, "--reading"));
        List<SymptomRow> advice = [];
        List<MeterReading> seen = [];
        foreach (string symptom in Symptoms)
        {
            if (LayoutWords.Sentence(layout, symptom).Value is { } reading)
            {
                seen.Add(reading);
            }
            else if (LayoutWords.IsReading(symptom))
            {
                _ = Sentence(layout, symptom, "--symptom");
            }
            else
            {
                advice.AddRange(Matching(symptom));
            }
        }

        set = Tools is null ? set : set with { Tools = ReadTools(Tools) };
        return (set with { Readings = [.. set.Readings, .. typed, .. seen] }, [.. advice.Distinct()]);
    }

    private static MeterReading Sentence(Layout layout, string text, string option)
    {
        ReadingRead read = LayoutWords.Sentence(layout, text);
        return read.Value ?? throw new InputRefused($"{option} '{text}': {read.Trouble}");
    }

    private static ImmutableArray<SymptomRow> Matching(string symptom)
    {
        ImmutableArray<SymptomRow> rows = SymptomTable.Matching(symptom);
        return !rows.IsEmpty ? rows : throw new InputRefused(
            $"--symptom '{symptom}' is neither a reading nor one of the symptoms listed; expected a sentence such as 'stops at siding@1 m when T1.diverging', "
            + "or some words of one of these:\n" + string.Join('\n', SymptomTable.Rows.Select(row => "  " + row.Symptom)));
    }

    private static ReadingTools ReadTools(string typed)
    {
        ReadingTools tools = ReadingTools.None;
        foreach (string word in typed.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            tools |= LayoutWords.Tool(word) ?? throw new InputRefused($"--tools '{typed}': '{word}' is not a tool; expected some of volts, ohms, load, clamp, supply");
        }

        return tools;
    }
}
