using System.Collections.Immutable;

namespace WireUp.Web.Drafting;

/// <summary>
/// The changes of a layout's text that a journal holds: those that were made, the last of which is undone next, and those undone, the last
/// of which is made again next.
/// </summary>
/// <param name="Text">The text as the journal has it.</param>
/// <param name="Made">Changes made, first to last.</param>
/// <param name="Undone">Changes undone, in the order in which they were undone.</param>
internal sealed record EditHistory(string Text, ImmutableStack<NamedChange> Made, ImmutableStack<NamedChange> Undone)
{
    /// <summary>A history that begins with a text.</summary>
    public static EditHistory Begin(string text) => new(text, [], []);

    /// <summary>What would be undone, in words; null where there is nothing.</summary>
    public string? ToUndo => Made.IsEmpty ? null : Made.Peek().Said;

    /// <summary>What would be made again, in words; null where there is nothing.</summary>
    public string? ToRedo => Undone.IsEmpty ? null : Undone.Peek().Said;

    /// <summary>The history with one step more; null where the step does not fit.</summary>
    public EditHistory? With(JournalStep step) => step switch
    {
        JournalStep.Edit edit => edit.Change.Change.Make(Text) is { } text ? new(text, Made.Push(edit.Change), []) : null,
        JournalStep.Undo => !Made.IsEmpty && Made.Peek().Change.TakeBack(Text) is { } text ? new(text, Made.Pop(), Undone.Push(Made.Peek())) : null,
        JournalStep.Redo => !Undone.IsEmpty && Undone.Peek().Change.Make(Text) is { } text ? new(text, Made.Push(Undone.Peek()), Undone.Pop()) : null,
        _ => throw new ArgumentOutOfRangeException(nameof(step), step, "not a step"),
    };
}

/// <summary>A change with what it did, one sentence.</summary>
internal sealed record NamedChange(TextChange Change, string Said);

/// <summary>A step of a journal.</summary>
internal abstract record JournalStep
{
    private JournalStep()
    {
    }

    /// <summary>A change is made.</summary>
    public sealed record Edit(NamedChange Change) : JournalStep;

    /// <summary>The last change is taken back.</summary>
    public sealed record Undo : JournalStep;

    /// <summary>What was taken back last is made again.</summary>
    public sealed record Redo : JournalStep;
}
