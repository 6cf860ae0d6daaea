using WireUp.Checking;

namespace WireUp.Documents.Book;

/// <summary>What is to be done to make one layout out of another, one line a thing, with boxes to tick.</summary>
internal static class ChangeChapter
{
    public const string Title = "What changes";
    public const string DrawingTitle = "What changes, on the plan";

    public static void Write(BookFacts facts, ChangeList changes, BookFlow flow)
    {
        flow.Section(Title);
        if (changes.Changes.IsEmpty)
        {
            flow.Paragraph("Nothing: both layouts are the same.");
            return;
        }

        flow.Paragraph(Verdict(facts));
        flow.Paragraph("Power off, supplies unplugged, before you touch a wire. The cautions of the wiring book hold here too.");
        flow.Intro(
            "N is new, T is taken away, M moves or is made different, R has only another name. Details are in the words of the layout file, where "
            + "bare lengths are millimetres.");
        flow.Table(Table.Of(
            [Column.Names("Sign"), new("Part"), Column.Wide("Name", 2), new("Do"), Column.Wide("Details", 4), Column.TickBoxes("done")],
            changes.Changes.Select(change => new Row(change.Sign, change.Part, change.Name, change.Work, change.Details, string.Empty))));
    }

    private static string Verdict(BookFacts facts)
    {
        int errors = facts.Plan.Findings.Count(finding => finding.Severity == Severity.Error);
        return errors == 0
            ? "The check finds no error in the railway as it is to be."
            : $"The check finds {Figure.Count(errors, "error", "errors")} in the railway as it is to be: do not connect what it names before they are mended.";
    }
}
