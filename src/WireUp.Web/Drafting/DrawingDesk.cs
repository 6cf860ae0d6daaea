using WireUp.Web.Folders;
using WireUp.Web.Hosting;

namespace WireUp.Web.Drafting;

/// <summary>
/// Saves changes of a layout's text so that each can be undone. Before the layout file is written, the change stands in the journal beside
/// it; what a program that was killed left half done is brought to its end when the layout is next drawn or changed.
/// </summary>
internal sealed class DrawingDesk(ILayoutFolder folder)
{
    private const string Elsewhere = "Changed outside this view.";

    private readonly Lock _gate = new();
    private (LayoutName Name, string Text, JournalText Read)? _last;

    /// <summary>What can be undone and made again, after bringing to its end what was left half done.</summary>
    public EditHistory History(LayoutName name)
    {
        lock (_gate)
        {
            Settle(name);
            string? text = (folder.Read(name, FileRole.Layout) as StoredFile.Found)?.Text;
            EditHistory? known = Journal(name)?.History;
            return text is null ? known ?? EditHistory.Begin("")
                : known is null ? EditHistory.Begin(text)
                : UpTo(known, text);
        }
    }

    /// <summary>Whether earlier changes stand in a journal that was put aside.</summary>
    public bool IsCut(LayoutName name) => folder.Read(name, FileRole.JournalBefore) is not StoredFile.Missing;

    /// <summary>Saves a changed text.</summary>
    /// <param name="name">The layout.</param>
    /// <param name="seen">The version that was changed.</param>
    /// <param name="text">The text as it is to be.</param>
    /// <param name="said">What was done, one sentence.</param>
    public SaveOutcome Edit(LayoutName name, string seen, string text, string said) =>
        Take(name, seen, history => new JournalStep.Edit(new(TextChange.Between(history.Text, text), said)));

    /// <summary>Takes the last change back.</summary>
    public SaveOutcome Undo(LayoutName name, string seen) => Take(name, seen, history => history.Made.IsEmpty ? null : new JournalStep.Undo());

    /// <summary>Makes the change again that was taken back last.</summary>
    public SaveOutcome Redo(LayoutName name, string seen) => Take(name, seen, history => history.Undone.IsEmpty ? null : new JournalStep.Redo());

    private SaveOutcome Take(LayoutName name, string seen, Func<EditHistory, JournalStep?> choose)
    {
        lock (_gate)
        {
            Settle(name);
            switch (folder.Read(name, FileRole.Layout))
            {
                case StoredFile.Found found when found.Version != seen:
                    return new SaveOutcome.Conflict();
                case StoredFile.Found found:
                    return Keep(name, found.Text) is { } trouble ? new SaveOutcome.Refused(trouble) : Take(name, found, choose);
                case StoredFile.Unreadable unreadable:
                    return new SaveOutcome.Refused(unreadable.Reason);
                default:
                    return new SaveOutcome.Conflict();
            }
        }
    }

    private SaveOutcome Take(LayoutName name, StoredFile.Found found, Func<EditHistory, JournalStep?> choose)
    {
        EditHistory history = Journal(name)!.History;
        if (choose(history) is not { } step) return new SaveOutcome.Refused("There is nothing left to do that with.");
        if (history.With(step) is not { } next) return new SaveOutcome.Refused("The change does not fit the text as it is now.");
        if (Append(name, JournalText.Of(step), isForGood: true) is { } trouble) return new SaveOutcome.Refused(trouble);
        SaveOutcome outcome = folder.Save(name, FileRole.Layout, next.Text, found.Version);
        _ = Append(name, JournalText.Became(outcome is SaveOutcome.Saved), isForGood: false);
        return outcome;
    }

    /// <summary>Sees to it that the journal ends with the text that the file has. Says why it could not.</summary>
    private string? Keep(LayoutName name, string text)
    {
        string written = (folder.Read(name, FileRole.Journal) as StoredFile.Found)?.Text ?? "";
        JournalText? journal = Journal(name);
        if (journal is null || written.Length > PageLimits.JournalBytes + (2 * text.Length))
        {
            return folder.PutJournalAside(name) ?? Append(name, JournalText.Begin(text), isForGood: true);
        }

        if (journal.History.Text == text) return null;
        JournalStep.Edit elsewhere = new(new(TextChange.Between(journal.History.Text, text), Elsewhere));
        return Append(name, JournalText.Of(elsewhere), isForGood: true) ?? Append(name, JournalText.Became(true), isForGood: false);
    }

    /// <summary>A step of which nothing is said: the file has it, or has what was before it and gets it now, or was changed otherwise since.</summary>
    private void Settle(LayoutName name)
    {
        if (Journal(name) is not { Pending: { } pending, History: var history } || folder.Read(name, FileRole.Layout) is not StoredFile.Found found) return;
        bool isThere = found.Text == pending.Text
            || (found.Text == history.Text && folder.Save(name, FileRole.Layout, pending.Text, found.Version) is SaveOutcome.Saved);
        _ = Append(name, JournalText.Became(isThere), isForGood: true);
    }

    private static EditHistory UpTo(EditHistory known, string text) => known.Text == text
        ? known
        : known.With(new JournalStep.Edit(new(TextChange.Between(known.Text, text), Elsewhere)))!;

    /// <summary>The journal; null where there is none, or none that can be followed.</summary>
    private JournalText? Journal(LayoutName name)
    {
        if (folder.Read(name, FileRole.Journal) is not StoredFile.Found found) return null;
        if (_last is { } last && last.Name == name && last.Text == found.Text) return last.Read;
        JournalText? read = JournalText.Read(found.Text);
        _last = read is null ? null : (name, found.Text, read);
        return read;
    }

    private string? Append(LayoutName name, string line, bool isForGood)
    {
        if (folder.Append(name, FileRole.Journal, line, isForGood) is { } trouble) return trouble;
        if (_last is { } last && last.Name == name && last.Text.EndsWith('\n') && last.Read.Next(line) is { } next) _last = (name, last.Text + line + "\n", next);
        return null;
    }
}
