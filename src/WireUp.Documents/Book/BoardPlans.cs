using System.Collections.Immutable;
using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Documents.Book;

/// <summary>The drawings of one board, from above and mirrored from below: true to scale, with its edges, rules along them and a mark for every hole.</summary>
internal sealed class BoardPlans(BookFacts facts, int scale)
{
    private const double Foot = 9;
    private readonly DrawingOptions _shown = facts.Drawing with { Layers = DrawingLayers.Bus | DrawingLayers.Gaps | DrawingLayers.Names | DrawingLayers.Benchwork, Findings = [] };

    /// <summary>The drawings of a book: at the scale asked for, or the largest usual one at which all boards fit its paper.</summary>
    public static BoardPlans Of(BookFacts facts) => new(facts, facts.Options.BoardScale ?? BoardScale.Fitting(facts.Layout.Benchwork.Boards, Window(PageOf(facts, "")), facts.Lengths));

    /// <summary>The pages of a board.</summary>
    public IEnumerable<BookPage> Pages(PlanOutline board, BoardParts parts, CancellationToken cancellation)
    {
        PlanBox bounds = PlanBox.Around(board.Corners);
        foreach (DrawingView view in (DrawingView[])[DrawingView.Above, DrawingView.Below])
        {
            ImmutableArray<PlanBox> sheets = BoardScale.Sheets(bounds, Window(PageOf(facts, "")), scale, view);
            foreach ((int index, PlanBox part) in sheets.Index())
            {
                string which = sheets.Length == 1 ? "" : Figure.Text($", sheet {index + 1} of {sheets.Length}");
                BookPage page = PageOf(facts, $"Board {board.Name} {LayoutDrawing.ViewWords(view)}{which}");
                Paint(page, (board, bounds, parts), part, view, cancellation);
                yield return page;
            }
        }
    }

    private void Paint(BookPage page, (PlanOutline Outline, PlanBox Bounds, BoardParts Parts) board, PlanBox part, DrawingView view, CancellationToken cancellation)
    {
        double gauge = ScaleTable.FindOrUsual(facts.Layout.Scale).Gauge.Meters;
        PlanSheet sheet = new(facts.Drawn.Geometry, part, BoardScale.WindowFor(part, Window(page), scale), view, gauge);
        SheetBuilder canvas = new();
        ImmutableArray<ScenePoint> edge = sheet.Line([.. board.Outline.Corners, board.Outline.Corners[0]]);
        BoardRuler ruler = new(board.Bounds, sheet, facts.Lengths);
        BoardHoles holes = new(facts, board.Parts, sheet) { KeptOff = edge };
        new PlanPainter(facts.Drawn, _shown) { HidesBoardNames = true }.Paint(canvas, sheet, PlanDetail.Full, cancellation, holes);
        canvas.AddWithin(sheet.Window, new Shape.Line(BenchworkPainter.Layer, edge, false, ShapeStyle.Outline(SceneColours.Ink, 0.5)) { Id = board.Outline.Name });
        holes.PaintMarks(canvas);
        ruler.Paint(canvas);
        page.Add(canvas.Shapes);
        SceneBox content = page.Content;
        page.Write(Figure.Text($"1 : {scale}. Rules in {PlaceWords.SmallUnit(facts.Lengths).ToLowerInvariant()} from the edges of the board{(view == DrawingView.Below ? ", x from the edge that is right from above" : "")}."), content.Left, content.Bottom - 4, BookStyle.Small);
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
}
