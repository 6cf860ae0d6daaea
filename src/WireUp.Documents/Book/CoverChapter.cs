using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Layouts;

namespace WireUp.Documents.Book;

/// <summary>The cover: what railway, a picture of it, the verdict, the figures and the contents.</summary>
internal static class CoverChapter
{
    private const double PictureHeight = 74;

    /// <summary>Writes the cover.</summary>
    /// <param name="facts">The book.</param>
    /// <param name="contents">The other sections and the numbers of their first pages.</param>
    /// <param name="cancellation">Stops a long drawing.</param>
    public static BookPage Write(BookFacts facts, ImmutableArray<(string Section, int Number)> contents, CancellationToken cancellation)
    {
        BookFlow flow = new(Sheet.Of(facts.Options.Paper));
        flow.AddDrawn(new(Sheet.Of(facts.Options.Paper), string.Empty) { HasHead = false }, inContents: false);
        flow.ToTop();
        flow.Paragraph("Wiring book", new(3.6, SceneColours.Quiet));
        flow.Lines(facts.Title, BookStyle.Title, most: 2);
        flow.Space(1);
        flow.Paragraph(Subtitle(facts.Layout), new(3.2, SceneColours.Quiet));
        flow.Draw(PictureHeight, (page, box) => page.Add(Picture(facts, box, cancellation)));
        flow.Space(4);
        flow.Draw(19, (page, box) => WriteVerdict(facts, page, box));
        flow.Space(5);
        flow.Draw(FigureRows(facts).Length * FigureRow, (page, box) => WriteFigures(facts, page, box));
        flow.Space(5);
        flow.Draw(7 + (Math.Ceiling(contents.Length / 2.0) * ContentsRow), (page, box) => WriteContents(contents, page, box));
        string made = string.Join(", ", new[] { facts.Options.By, facts.Options.Date }.Where(words => !string.IsNullOrWhiteSpace(words)));
        if (made.Length > 0) WriteMade(flow.Page, made);
        return flow.Page;
    }

    private const double FigureRow = 5.4;
    private const double ContentsRow = 4.6;

    private static string Subtitle(Layout layout)
    {
        string control = layout.Control switch
        {
            ControlSystem.Command => "digital command control, two-rail",
            ControlSystem.Direct => "direct current, two-rail",
            ControlSystem.ThreeRail => "alternating current, three-rail",
            _ => throw new ArgumentOutOfRangeException(nameof(layout), layout.Control, "no such control"),
        };
        return $"{layout.Scale} scale, {control}";
    }

    private static ImmutableArray<Shape> Picture(BookFacts facts, SceneBox box, CancellationToken cancellation)
    {
        SheetBuilder canvas = new();
        PlanSheet sheet = new(facts.Drawn.Geometry, LayoutDrawing.Around(facts.Drawn.Geometry, box, 3), box, DrawingView.Above);
        new PlanPainter(facts.Drawn, facts.Drawing).Paint(canvas, sheet, PlanDetail.Bare, cancellation);
        return canvas.Shapes;
    }

    private static void WriteVerdict(BookFacts facts, BookPage page, SceneBox box)
    {
        bool finished = facts.Plan.IsFinished;
        SceneColour colour = finished ? SceneColours.Green : SceneColours.Vermilion;
        page.Box(box, ShapeStyle.Area(SceneColours.Zebra));
        page.Box(box with { Right = box.Left + 1.6 }, ShapeStyle.Area(colour));
        page.Write(finished ? "Ready to build" : "Not ready to build", box.Left + 5, box.Top + 6.6, new(4, SceneColours.Ink) { Bold = true });
        double y = box.Top + 11.4;
        foreach (string line in TextFlow.Lines(Verdict.Of(facts), box.Width - 9, BookStyle.Body).Take(2))
        {
            page.Write(line, box.Left + 5, y, BookStyle.Body);
            y += 4.3;
        }
    }

    private static void WriteFigures(BookFacts facts, BookPage page, SceneBox box)
    {
        double half = (box.Width - 8) / 2;
        foreach ((int row, (string Left, string LeftValue, string Right, string RightValue) figures) in FigureRows(facts).Index())
        {
            double y = box.Top + (row * FigureRow) + 3.6;
            WriteFigure(page, box.Left, half, y, figures.Left, figures.LeftValue);
            WriteFigure(page, box.Left + half + 8, half, y, figures.Right, figures.RightValue);
        }
    }

    private static void WriteFigure(BookPage page, double left, double width, double y, string name, string value)
    {
        page.Write(name, left, y, BookStyle.Body with { Colour = SceneColours.Quiet });
        page.Write(value, left + width, y, BookStyle.Strong with { Align = TextAlign.Right });
        page.Rule(left, left + width, y + 1.5, BookStyle.Rule);
    }

    private static ImmutableArray<(string, string, string, string)> FigureRows(BookFacts facts)
    {
        (string Name, string Value)[] left = [.. CoverFigures.Railway(facts)], right = [.. CoverFigures.Wiring(facts)];
        return [.. left.Zip(right, (one, other) => (one.Name, one.Value, other.Name, other.Value))];
    }

    private static void WriteContents(ImmutableArray<(string Section, int Number)> contents, BookPage page, SceneBox box)
    {
        page.Write("In this book", box.Left, box.Top + 3.4, BookStyle.Subheading);
        double half = (box.Width - 8) / 2;
        int rows = (contents.Length + 1) / 2;
        foreach ((int index, (string section, int number)) in contents.Index())
        {
            double left = box.Left + (index / rows * (half + 8));
            double y = box.Top + 9.4 + (index % rows * ContentsRow);
            page.Write(section, left, y, BookStyle.Body);
            page.Write(Figure.Whole(number), left + half, y, BookStyle.Body with { Align = TextAlign.Right });
        }
    }

    private static void WriteMade(BookPage page, string words)
    {
        string line = TextFlow.Lines(words, page.Content.Width, BookStyle.Small)[0];
        page.Write(line, page.Content.Right, page.Sheet.Height - 10, BookStyle.Small with { Align = TextAlign.Right });
    }
}
