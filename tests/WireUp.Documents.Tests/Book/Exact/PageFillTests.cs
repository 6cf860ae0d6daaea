using System.Collections.Immutable;
using WireUp.Documents.Book;
using WireUp.Planning;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>How columns share a page, and chapters its room.</summary>
public sealed class PageFillTests
{
    private static readonly Sheet Paper = Sheet.Of(PaperSize.A4);

    [Fact]
    public void A_column_of_short_words_leaves_its_room_to_one_whose_words_would_break()
    {
        const double Width = 150;
        const string Long = "T1 contact of frog-1-2, common, behind the board";
        Table table = Table.Of(
            [Column.Names("Wire"), Column.Wide("From", 2), Column.Wide("To", 3), Column.Sizes("Gauge"), Column.Figures("Length mm"), Column.Figures("Cut mm"), Column.TickBoxes("laid"), Column.TickBoxes("tested")],
            [new("T1:frog-1-2:1", Long, "T1.points/right", "0.5 mm²", "300", "380", "", ""), new("T1:frog-1-2:2", $"{Long} {Long}", "T1.points/left", "0.5 mm²", "300", "380", "", "")]);

        ImmutableArray<double> widths = ColumnWidths.Of(table, Width);

        Assert.Equal(Width - (ColumnWidths.Gutter * table.Columns.Length), widths.Sum(), 1e-6);
        Assert.True(widths[2] <= TextFlow.Width("T1.points/right", BookStyle.Cell) + 0.2, $"{widths[2]}");
        Assert.True(widths[3] >= TextFlow.Width("0.5 mm²", BookStyle.Cell), $"{widths[3]}");
    }

    [Fact]
    public void Lists_with_nothing_in_them_take_no_page_of_their_own()
    {
        BookFlow flow = Begun(lines: 28);
        ListChapter.Write(Facts(new(TestLayouts.Balloon, TestLayouts.Balloon)), flow);
        Assert.Single(flow.Pages);
    }

    [Theory]
    [InlineData(10, true)]
    [InlineData(33, false)]
    public void Spares_are_told_where_all_of_them_have_room_and_else_later(int lines, bool here)
    {
        BookFlow flow = Begun(lines);
        BookFacts facts = Facts(TestPlans.Balloon);
        Assert.Equal(here, ShowChapter.WriteSpares(facts, flow, onlyHere: true));
        Assert.Single(flow.Pages);
        if (here) return;
        Assert.True(ShowChapter.WriteSpares(facts, flow, onlyHere: false));
        Assert.Equal(2, flow.Pages.Count);
    }

    private static BookFacts Facts(PlanResult plan) => new(plan, new(), TestContext.Current.CancellationToken);

    private static BookFlow Begun(int lines)
    {
        BookFlow flow = new(Paper);
        flow.Section("Section");
        for (int i = 0; i < lines; i++) flow.Paragraph("line");
        return flow;
    }
}
