using System.Text.Json;
using System.Text.Json.Serialization;

namespace WireUp.Web.Drafting;

/// <summary>
/// A journal as text, one JSON object a line. The first holds the whole layout file as it was; each later one a step, or says of the step
/// before it that the layout file has it (<c>done</c>) or never got it (<c>dropped</c>). A step is written before the layout file is, so that a
/// program that is killed between the two leaves a step of which nothing is said: <see cref="Pending"/>.
/// </summary>
/// <param name="History">What all steps come to that the layout file has.</param>
/// <param name="Pending">What the last step would make of it where nothing is said of that step; else null.</param>
internal sealed record JournalText(EditHistory History, EditHistory? Pending)
{
    private static readonly JsonSerializerOptions Written = new() { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>The line that begins a journal.</summary>
    public static string Begin(string text) => Write(new("begin") { Text = text });

    /// <summary>The line of a step.</summary>
    public static string Of(JournalStep step) => step switch
    {
        JournalStep.Edit { Change: var (change, said) } => Write(new("edit") { At = change.At, Taken = change.Taken, Put = change.Put, Said = said }),
        JournalStep.Undo => Write(new("undo")),
        JournalStep.Redo => Write(new("redo")),
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "not a step"),
    };

    /// <summary>The line that says what became of the step before it.</summary>
    public static string Became(bool isDone) => Write(new(isDone ? "done" : "dropped"));

    /// <summary>Reads a journal; null where it cannot be followed. A last line without its end was never finished and is passed over.</summary>
    public static JournalText? Read(string journal)
    {
        JournalText? read = null;
        foreach (string line in journal.Split('\n')[..^1])
        {
            Line? parsed = Parse(line);
            if (parsed is null) continue;
            read = Next(read, parsed);
            if (read is null) return null;
        }

        return read;
    }

    /// <summary>The journal with a line more; null where it does not fit.</summary>
    public JournalText? Next(string line) => Parse(line) is { } parsed ? Next(this, parsed) : null;

    private static JournalText? Next(JournalText? read, Line line) => (line.Step, read) switch
    {
        ("begin", null) => line.Text is null ? null : new(EditHistory.Begin(line.Text), null),
        ("done", { } now) => new(now.Pending ?? now.History, null),
        ("dropped", { } now) => now with { Pending = null },

        // A step that follows another unsaid one: that one was dropped before it, or there would be word of it.
        (_, { } now) => StepOf(line) is { } step && now.History.With(step) is { } next ? now with { Pending = next } : null,
        _ => null,
    };

    private static JournalStep? StepOf(Line line) => line switch
    {
        { Step: "edit", At: { } at, Taken: { } taken, Put: { } put } => new JournalStep.Edit(new(new(at, taken, put), line.Said ?? "A change.")),
        { Step: "undo" } => new JournalStep.Undo(),
        { Step: "redo" } => new JournalStep.Redo(),
        _ => null,
    };

    // Half a line, where the machine stopped while it was written, is no line.
    private static Line? Parse(string line)
    {
        try
        {
            return JsonSerializer.Deserialize<Line>(line, Written);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static string Write(Line line) => JsonSerializer.Serialize(line, Written);

    private sealed record Line(string Step)
    {
        public int? At { get; init; }

        public string? Taken { get; init; }

        public string? Put { get; init; }

        public string? Said { get; init; }

        public string? Text { get; init; }
    }
}
