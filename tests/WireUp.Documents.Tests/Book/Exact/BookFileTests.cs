using System.Text.RegularExpressions;
using System.Xml.Linq;
using MiniExcelLibs;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Book.Exact;

/// <summary>The book as a workbook and as one page for a browser.</summary>
public sealed class BookFileTests
{
    private static readonly ComposedBook Balloon = Make(TestLayouts.Balloon);

    /// <summary>A feeder whose name every spreadsheet would take for a formula, and a browser for markup.</summary>
    private static readonly string[] Dangerous = ["=1+1", "+1", "-1", "@SUM(A1)", "=cmd|x", "<b>&\"'"];

    [Fact]
    public void Another_program_reads_the_sheets_and_their_figures()
    {
        using MemoryStream file = new(Balloon.ToXlsx());
        string[] sheets = [.. file.GetSheetNames()];
        Assert.Contains("Wiring schedule", sheets);
        Assert.Contains("Shopping list", sheets);
        Assert.Contains("Drilling list", sheets);
        IDictionary<string, object?>[] rows = Rows(file, "Wiring schedule");
        IDictionary<string, object?> wire = Assert.Single(rows, row => Equals(row["A"], "f2/A"));
        Assert.Equal("Q1", wire["C"]);
        Assert.Equal(300.0, Convert.ToDouble(wire["G"], System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact]
    public void Every_table_is_a_list_of_its_own_without_boxes_to_tick()
    {
        BookList wires = Assert.Single(Balloon.ToLists(), list => list.Name.EndsWith("-wiring-schedule-feeders", StringComparison.Ordinal));
        Assert.StartsWith("Wire,District,From,To,Gauge,Colour,Length mm,Cut mm\n", wires.Csv, StringComparison.Ordinal);
        Assert.Contains("f2/A,D,Q1,loop@1200 mm/left,0.5 mm²,RD,300,380\n", wires.Csv, StringComparison.Ordinal);
        Assert.Contains(Balloon.ToLists(), list => list.Name.EndsWith("-shopping-list", StringComparison.Ordinal));
        Assert.Equal(Balloon.ToLists().Length, Balloon.ToLists().Select(list => list.Name).Distinct().Count());
    }

    [Fact]
    public void No_name_becomes_a_formula_or_markup()
    {
        foreach (string name in Dangerous)
        {
            Layout layout = TestLayouts.Balloon with
            {
                Wiring = TestLayouts.Balloon.Wiring with { Feeders = [.. TestLayouts.Balloon.Wiring.Feeders.Select(feeder => feeder.Name == "f1" ? feeder with { Name = name } : feeder)] },
            };
            ComposedBook book = Make(layout);
            Assert.DoesNotContain(book.ToLists(), list => list.Csv.Split('\n').Any(line => line.StartsWith(name, StringComparison.Ordinal) && "=+-@".Contains(name[0], StringComparison.Ordinal)));
            using MemoryStream file = new(book.ToXlsx());
            Assert.Contains(Rows(file, "Wiring schedule"), row => Equals(row["A"], $"{name}/A"));
            using System.IO.Compression.ZipArchive zip = new(new MemoryStream(book.ToXlsx()));
            foreach (System.IO.Compression.ZipArchiveEntry sheet in zip.Entries.Where(entry => entry.FullName.Contains("worksheets/sheet", StringComparison.Ordinal)))
            {
                using Stream content = sheet.Open();
                Assert.DoesNotContain(XDocument.Load(content).Descendants(), element => element.Name.LocalName == "f");
            }

            Assert.DoesNotContain("<b>&\"", book.ToHtml(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void The_page_holds_every_table_and_drawing_and_loads_nothing()
    {
        string html = Balloon.ToHtml();
        Assert.Contains("<h2 id=\"s0\">Before you start</h2>", html, StringComparison.Ordinal);
        Assert.Contains(">Plan from below, mirrored</h2>", html, StringComparison.Ordinal);
        Assert.Contains("f3/B", html, StringComparison.Ordinal);
        Assert.Contains("type=\"checkbox\"", html, StringComparison.Ordinal);
        Assert.DoesNotMatch(new Regex("(src|href)=\"(?!#)", RegexOptions.ExplicitCapture, TimeSpan.FromSeconds(5)), html);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);

        // Cover, plan from above and below, volts and fault current: five drawings of whole pages at least.
        Assert.True(html.Split("<svg").Length > 5);
        int contents = html.Split("<li>").Length - 1;
        Assert.Equal(contents, html.Split("<h2 id=").Length - 1);
    }

    [Fact]
    public void The_same_plan_gives_the_same_bytes()
    {
        ComposedBook again = Make(TestLayouts.Balloon);
        Assert.Equal(Balloon.ToXlsx(), again.ToXlsx());
        Assert.Equal(Balloon.ToHtml(), again.ToHtml());
    }

    private static ComposedBook Make(Layout layout) => WiringBook.Make(TestPlans.Of(layout), new(), TestContext.Current.CancellationToken);

    private static IDictionary<string, object?>[] Rows(Stream file, string sheet)
    {
        file.Position = 0;
        return [.. file.Query(sheetName: sheet).Cast<IDictionary<string, object?>>()];
    }
}
