using WireUp.Documents.Book;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>Where pages of the book break.</summary>
public sealed class BookFlowTests
{
    [Fact]
    public void A_name_that_stands_for_many_rows_is_repeated_at_the_top_of_each_page()
    {
        BookFlow flow = Begun();
        flow.Table(Table.Of(
            [new("District"), new("Gauge")],
            Enumerable.Range(0, 120).Select(i => new Row(i == 0 ? "yard" : string.Empty, $"{i}"))));

        Assert.True(flow.Pages.Count >= 3);
        Assert.All(flow.Pages, page => Assert.Single(page.Shapes.OfType<Shape.Text>(), text => text.Content == "yard"));
    }

    [Theory]
    [InlineData(30)]
    [InlineData(33)]
    [InlineData(36)]
    [InlineData(39)]
    [InlineData(42)]
    [InlineData(45)]
    public void A_heading_stands_on_one_page_with_the_words_and_the_table_that_follow_it(int lines)
    {
        BookFlow flow = Begun();
        for (int i = 0; i < lines; i++) flow.Paragraph("line");
        flow.Subheading("heading");
        flow.Intro(string.Join(' ', Enumerable.Repeat("words that take several lines of the page", 8)));
        flow.Table(Table.Of([new("column")], [new Row("cell"), new Row("another")]));

        BookPage page = Assert.Single(flow.Pages, page => Has(page, "heading"));
        Assert.True(Has(page, "cell"));
    }

    private static bool Has(BookPage page, string words) => page.Shapes.OfType<Shape.Text>().Any(text => text.Content == words);

    private static BookFlow Begun()
    {
        BookFlow flow = new(Sheet.Of(PaperSize.A4));
        flow.Section("Section");
        return flow;
    }
}
