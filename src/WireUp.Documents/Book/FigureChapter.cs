using WireUp.Documents.Drawings;

namespace WireUp.Documents.Book;

/// <summary>Volts and fault current along the track, each on a plan of its own.</summary>
internal static class FigureChapter
{
    public const string VoltsTitle = "Volts on the plan";
    public const string FaultTitle = "Fault current on the plan";

    public static void Write(BookFacts facts, BookFlow flow, CancellationToken cancellation)
    {
        if (facts.Plan.Power.Districts.IsEmpty) return;
        foreach ((DrawnFigure figure, string title) in new[] { (DrawnFigure.Volts, VoltsTitle), (DrawnFigure.Fault, FaultTitle) })
        {
            DrawingOptions options = facts.Drawing with { Figure = figure, Geometry = facts.Drawn.Geometry, Findings = [] };
            PlanFacts drawn = PlanFacts.Of(facts.Layout, options, cancellation);
            BookPage page = new(Sheet.Of(facts.Options.Paper).For(drawn.Geometry.Bounds), title);
            flow.AddDrawn(Paint(drawn, options, page, cancellation), inContents: true);
        }
    }

    private static BookPage Paint(PlanFacts drawn, DrawingOptions options, BookPage page, CancellationToken cancellation)
    {
        const double Gap = 3, PageNumberWidth = 30;
        DrawingOptions named = options with { Layers = DrawingLayers.Names };
        LegendPainter legend = new(drawn, named);
        SceneBox content = page.Content, window = content with { Top = content.Top - 4, Bottom = content.Bottom - legend.Height(content.Width) - Gap };
        PlanSheet plan = new(drawn.Geometry, LayoutDrawing.Around(drawn.Geometry, window), window, DrawingView.Above);
        SheetBuilder canvas = new();
        new PlanPainter(drawn, named).Paint(canvas, plan, PlanDetail.Overview, cancellation);
        legend.Paint(canvas, content with { Top = window.Bottom + Gap });
        legend.PaintScale(canvas, plan, new(content.Right - PageNumberWidth, page.Sheet.Height - 10));
        page.Add(canvas.Shapes);
        return page;
    }
}
