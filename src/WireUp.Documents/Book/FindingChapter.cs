using WireUp.Checking;

namespace WireUp.Documents.Book;

/// <summary>What the check says of the finished plan, and what the plan could not mend.</summary>
internal static class FindingChapter
{
    public const string Title = "Findings";
    public const string RemainsTitle = "What remains";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        flow.SectionHere(Title, 60);
        if (facts.Plan.Findings.IsEmpty)
        {
            flow.Paragraph("The check of the layout with all of its planned wiring found nothing to report.");
        }
        else
        {
            flow.Intro("What the check says of the layout with all of its planned wiring. The numbers stand on the plans.");
            flow.Table(Table.Of(
                [Column.Figures("No"), Column.Names("Kind"), new("Code"), Column.Wide("What", 3), Column.Wide("What to do", 2)],
                facts.Plan.Findings.Select((finding, i) => new Row(
                    Figure.Whole(i + 1), finding.Severity.Word(), finding.Code, finding.Message, finding.Remedy))));
        }

        flow.SectionHere(RemainsTitle, 40);
        if (facts.Plan.Remains.IsEmpty) flow.Paragraph("Nothing: the plan solves all that it was asked to.");
        foreach (string remains in facts.Plan.Remains) flow.Point(string.Empty, remains);
    }
}
