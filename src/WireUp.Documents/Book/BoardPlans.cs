using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents.Book;

/// <summary>The drawings of one board, from above and mirrored from below: true to scale, with its edges, rules along them and a mark for every hole.</summary>
internal sealed class BoardPlans(BookFacts facts, int scale)
{
    private const double Foot = 9, Caption = 7;
    private static readonly ImmutableArray<DrawingView> Views = [DrawingView.Above, DrawingView.Below];
    private readonly DrawingOptions _shown = facts.Drawing with { Layers = DrawingLayers.Bus | DrawingLayers.Gaps | DrawingLayers.Names | DrawingLayers.Benchwork, Findings = [] };

    /// <summary>The drawings of a book: at the scale asked for, or the largest usual one at which all boards fit its paper.</summary>
    public static BoardPlans Of(BookFacts facts) => new(facts, facts.Options.BoardScale ?? BoardScale.Fitting(facts.Layout.Benchwork.Boards, Window(PageOf(facts, "")), facts.Lengths));

    /// <summary>The pages of a board: both views on one where it is narrow enough, else one or more for each.</summary>
    public IEnumerable<BookPage> Pages(PlanOutline board, BoardParts parts, CancellationToken cancellation)
    {
        BoardOnPaper given = new(board, PlanBox.Around(board.Corners), parts);
        SceneBox area = Window(PageOf(facts, ""));
        return BoardScale.Sheets(given.Bounds, area with { Bottom = area.Centre.Y - Caption - BoardRuler.Room }, scale, DrawingView.Above).Length == 1
            ? [BothViews(given, cancellation)]
            : Views.SelectMany(view => View(given, view, cancellation));
    }

    private BookPage BothViews(BoardOnPaper board, CancellationToken cancellation)
    {
        BookPage page = PageOf(facts, $"Board {board.Outline.Name} from above and from below");
        SceneBox area = Window(page);
        foreach ((int index, DrawingView view) in Views.Index())
        {
            SceneBox half = index == 0 ? area with { Bottom = area.Centre.Y - BoardRuler.Room } : area with { Top = area.Centre.Y };
            half = half with { Top = half.Top + Caption };
            PlanBox part = BoardScale.Sheets(board.Bounds, half, scale, view)[0];
            SceneBox window = BoardScale.WindowFor(part, half, scale);
            Paint(page, board, new(facts.Drawn.Geometry, part, window, view, Gauge), null, cancellation);
            page.Write(LayoutDrawing.ViewWords(view), window.Left, window.Top - 1.5, BookStyle.Strong);
        }

        WriteFoot(page, hasBelow: true);
        return page;
    }

    private IEnumerable<BookPage> View(BoardOnPaper board, DrawingView view, CancellationToken cancellation)
    {
        ImmutableArray<PlanBox> sheets = BoardScale.Sheets(board.Bounds, Window(PageOf(facts, "")), scale, view);
        foreach ((int index, PlanBox part) in sheets.Index())
        {
            string which = sheets.Length == 1 ? "" : Figure.Text($", sheet {index + 1} of {sheets.Length}");
            BookPage page = PageOf(facts, $"Board {board.Outline.Name} {LayoutDrawing.ViewWords(view)}{which}");
            BoardMatch match = new(sheets, index);
            Paint(page, board, new(facts.Drawn.Geometry, part, BoardScale.WindowFor(part, Window(page), scale), view, Gauge), match, cancellation);
            WriteFoot(page, hasBelow: view == DrawingView.Below, match.Words(view));
            yield return page;
        }
    }

    private double Gauge => ScaleTable.FindOrUsual(facts.Layout.Scale).Gauge.Meters;

    private void Paint(BookPage page, BoardOnPaper board, PlanSheet sheet, BoardMatch? match, CancellationToken cancellation)
    {
        SheetBuilder canvas = new();
        ImmutableArray<ScenePoint> edge = sheet.Line([.. board.Outline.Corners, board.Outline.Corners[0]]);
        BoardHoles holes = new(facts, board.Parts, sheet) { KeptOff = [edge, .. match?.KeptOff(sheet) ?? []] };
        new PlanPainter(facts.Drawn, _shown) { HidesBoardNames = true }.Paint(canvas, sheet, PlanDetail.Full, cancellation, holes);
        canvas.AddWithin(sheet.Window, new Shape.Line(BenchworkPainter.Layer, edge, false, ShapeStyle.Outline(SceneColours.Ink, 0.5)) { Id = board.Outline.Name });
        match?.Paint(canvas, sheet);
        holes.PaintMarks(canvas);
        new BoardRuler(board.Bounds, sheet, facts.Lengths).Paint(canvas);
        page.Add(canvas.Shapes);
    }

    private void WriteFoot(BookPage page, bool hasBelow, string match = "")
    {
        SceneBox content = page.Content;
        string below = hasBelow ? "; from below, x from the edge that is right from above" : "";
        page.Write(Figure.Text($"1 : {scale}. Rules in {PlaceWords.SmallUnit(facts.Lengths).ToLowerInvariant()} from the edges of the board{below}.{(facts.Drawn.Strips.IsEmpty ? "" : " Boxes with a bar: terminal strips.")}"), content.Left, content.Bottom - 4, BookStyle.Small);
        if (match.Length > 0) page.Write(match, content.Left, content.Bottom - 7.2, BookStyle.Small);
        page.Write($"{char.ToUpperInvariant(BoardHoles.Words[0])}{BoardHoles.Words[1..]}.", content.Left, content.Bottom - 0.5, BookStyle.Small);
    }

    private static BookPage PageOf(BookFacts facts, string title)
    {
        ImmutableArray<PlanOutline> boards = facts.Layout.Benchwork.Boards;
        PlanBox largest = new(0, 0, boards.Max(board => PlanBox.Around(board.Corners).Width), boards.Max(board => PlanBox.Around(board.Corners).Height));
        return new(Sheet.Of(facts.Options.Paper).For(largest), title);
    }

    /// <summary>The part of a page that the board has: above the words, and with room for the rules.</summary>
    private static SceneBox Window(BookPage page)
    {
        SceneBox content = page.Content;
        return new(content.Left + BoardRuler.Room, content.Top - 2, content.Right, content.Bottom - Foot - 6);
    }

    private sealed record BoardOnPaper(PlanOutline Outline, PlanBox Bounds, BoardParts Parts);
}
