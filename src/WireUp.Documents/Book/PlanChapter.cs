using WireUp.Documents.Drawings;

namespace WireUp.Documents.Book;

/// <summary>
/// The plan from above and mirrored from below. Where one page would be too crowded it shows only letters and turnouts, over a
/// map of tiles, and the tiles follow at a scale that can be read.
/// </summary>
internal static class PlanChapter
{
    public const string AboveTitle = "Plan from above";
    public const string BelowTitle = "Plan from below, mirrored";

    private const double LegendGap = 3;
    private const double PageNumberWidth = 30;

    public static void Write(BookFacts facts, BookFlow flow, CancellationToken cancellation)
    {
        PlanPainter painter = new(facts.Drawn, facts.Drawing);
        Sheet paper = Sheet.Of(facts.Options.Paper).For(facts.Drawn.Geometry.Bounds);
        PlanPainter trial = new(facts.Drawn, facts.Drawing) { IsTrial = true };
        TileSet? tiles = OnePage(facts, trial, paper, DrawingView.Above, cancellation).Crowding.ReadsWell
            ? null
            : Tiles(facts, trial, paper, cancellation);
        foreach (DrawingView view in new[] { DrawingView.Above, DrawingView.Below })
        {
            BookPage overview = tiles is null
                ? OnePage(facts, painter, paper, view, cancellation).Page
                : Overview(facts, painter, paper, view, tiles, cancellation);
            flow.AddDrawn(overview, inContents: true);
            foreach (Tile tile in tiles?.Tiles ?? []) flow.AddDrawn(TilePage(facts, painter, paper, view, tiles!, tile, cancellation).Page, inContents: false);
        }
    }

    private static string Title(DrawingView view) => view == DrawingView.Above ? AboveTitle : BelowTitle;

    /// <summary>The coarsest tiles that read well; the finest tried when none does.</summary>
    private static TileSet Tiles(BookFacts facts, PlanPainter trial, Sheet paper, CancellationToken cancellation)
    {
        SceneBox window = Window(facts, new(paper, AboveTitle));
        TileSet? set = null;
        foreach (double magnification in TileSet.Magnifications)
        {
            set = TileSet.Of(facts.Drawn.Geometry, window, magnification);
            if (ReadsFairly(set)) break;
        }

        return set!;

        bool ReadsFairly(TileSet tiles)
        {
            Crowding all = default;
            foreach (Tile tile in tiles.Tiles)
            {
                all += TilePage(facts, trial, paper, DrawingView.Above, tiles, tile, cancellation).Crowding;
                if (all.Covering > 0) return false;
            }

            return all.ReadsFairly;
        }
    }

    private static (BookPage Page, Crowding Crowding) OnePage(
        BookFacts facts, PlanPainter painter, Sheet paper, DrawingView view, CancellationToken cancellation)
    {
        BookPage page = new(paper, Title(view));
        SceneBox window = Window(facts, page);
        PlanSheet plan = new(facts.Drawn.Geometry, LayoutDrawing.Around(facts.Drawn.Geometry, window), window, view);
        SheetBuilder canvas = new();
        Crowding crowding = painter.Paint(canvas, plan, PlanDetail.Full, cancellation);
        Finish(facts, page, canvas, plan);
        return (page, crowding);
    }

    private static BookPage Overview(
        BookFacts facts, PlanPainter painter, Sheet paper, DrawingView view, TileSet tiles, CancellationToken cancellation)
    {
        BookPage page = new(paper, Title(view));
        SceneBox window = Window(facts, page);
        PlanSheet plan = new(facts.Drawn.Geometry, LayoutDrawing.Around(facts.Drawn.Geometry, window), window, view);
        SheetBuilder canvas = new();
        painter.Paint(canvas, plan, PlanDetail.Overview, cancellation, new TileMap(tiles, plan));
        Finish(facts, page, canvas, plan);
        return page;
    }

    private static (BookPage Page, Crowding Crowding) TilePage(
        BookFacts facts, PlanPainter painter, Sheet paper, DrawingView view, TileSet tiles, Tile tile, CancellationToken cancellation)
    {
        BookPage page = new(paper, $"{Title(view)}, sheet {tile.Name}");
        SceneBox window = Window(facts, page);
        PlanSheet plan = new(facts.Drawn.Geometry, tile.Part, window, view);
        SheetBuilder canvas = new();
        page.Box(window, BookStyle.Rule);
        Crowding crowding = painter.Paint(
            canvas, plan, PlanDetail.Full, cancellation, new TileExits(facts.Drawn.Geometry, tiles, tile, plan));
        Finish(facts, page, canvas, plan);
        return (page, crowding);
    }

    private static void Finish(BookFacts facts, BookPage page, SheetBuilder canvas, PlanSheet plan)
    {
        LegendPainter legend = new(facts.Drawn, facts.Drawing);
        legend.Paint(canvas, page.Content with { Top = plan.Window.Bottom + LegendGap });
        legend.PaintScale(canvas, plan, new(page.Content.Right - PageNumberWidth, page.Sheet.Height - 10));
        page.Add(canvas.Shapes);
    }

    /// <summary>The part of a page that the plan has: above the legend.</summary>
    private static SceneBox Window(BookFacts facts, BookPage page)
    {
        SceneBox content = page.Content;
        double legend = new LegendPainter(facts.Drawn, facts.Drawing).Height(content.Width);
        return content with { Top = content.Top - 4, Bottom = content.Bottom - legend - LegendGap };
    }
}
