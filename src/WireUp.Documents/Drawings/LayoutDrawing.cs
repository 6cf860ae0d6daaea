using WireUp.Documents.Drawings;
using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>A drawing and how its plan lies on it.</summary>
internal sealed record DrawnSheet(Scene Scene, PlanSheet Plan, Crowding Crowding);

/// <summary>Draws a layout on one sheet: both rails, turnouts, gaps, feeders, bus, districts, names, legend.</summary>
public static class LayoutDrawing
{
    private const double Margin = 9;
    private const double TitleHeight = 9;

    /// <summary>The drawing as a scene.</summary>
    /// <param name="layout">The layout; its joints name ends that exist, as a layout read without problems does.</param>
    /// <param name="options">How it is drawn.</param>
    /// <param name="cancellation">Stops a long drawing.</param>
    public static Scene Draw(Layout layout, DrawingOptions options, CancellationToken cancellation = default)
    {
        return Draw(PlanFacts.Of(layout, options, cancellation), options, cancellation).Scene;
    }

    /// <summary>The drawing, and where on it the plan lies.</summary>
    internal static DrawnSheet Draw(PlanFacts facts, DrawingOptions options, CancellationToken cancellation)
    {
        if (options.Paper is { } paper) return Draw(facts, options, Sheet.Of(paper).For(facts.Geometry.Bounds), cancellation);
        foreach (Sheet sheet in Sheet.Growing[..^1])
        {
            DrawnSheet drawn = Draw(facts, options, sheet.For(facts.Geometry.Bounds), cancellation, isTrial: true);
            if (drawn.Crowding.ReadsFairly) return drawn;
        }

        return Draw(facts, options, Sheet.Growing[^1].For(facts.Geometry.Bounds), cancellation);
    }

    private static DrawnSheet Draw(
        PlanFacts facts, DrawingOptions options, Sheet sheet, CancellationToken cancellation, bool isTrial = false)
    {
        bool framed = options.Layers.HasFlag(DrawingLayers.Legend);
        LegendPainter legend = new(facts, options);
        double width = sheet.Width - (2 * Margin);
        double legendHeight = framed ? legend.Height(width) + 2 : 0;
        SceneBox window = new(
            Margin, Margin + (framed ? TitleHeight : 0), sheet.Width - Margin, sheet.Height - Margin - legendHeight);
        SheetBuilder canvas = new();
        PlanSheet plan = new(facts.Geometry, Around(facts.Geometry, window), window, options.View);
        Crowding crowding = new PlanPainter(facts, options) { IsTrial = isTrial }.Paint(canvas, plan, PlanDetail.Full, cancellation);
        string title = options.Title ?? facts.Layout.Name;
        if (framed)
        {
            legend.Paint(canvas, new(Margin, window.Bottom + 2, sheet.Width - Margin, sheet.Height - Margin));
            legend.PaintScale(canvas, plan, new(sheet.Width - Margin, Margin + 4.5));
            PaintTitle(canvas, title, options.View);
        }

        return new(new Scene(sheet.Width, sheet.Height, canvas.Shapes) { Title = $"{title}, {ViewWords(options.View)}" }, plan, crowding);
    }

    /// <summary>What a title says of the view.</summary>
    internal static string ViewWords(DrawingView view) => view == DrawingView.Above ? "from above" : "from below, mirrored";

    /// <summary>The plan with room for labels around it: a few millimetres on paper at the scale that results.</summary>
    internal static PlanBox Around(PlanGeometry geometry, SceneBox window, double room = 11) => Around(geometry.Bounds, window, room);

    /// <summary>A part of the plan with room for labels around it.</summary>
    internal static PlanBox Around(PlanBox all, SceneBox window, double room = 11)
    {
        double scale = Math.Min(
            (window.Width - (2 * room)) / Math.Max(all.Width, 1e-3), (window.Height - (2 * room)) / Math.Max(all.Height, 1e-3));
        double metres = room / Math.Max(scale, 1e-6);
        return new(all.MinX - metres, all.MinY - metres, all.MaxX + metres, all.MaxY + metres);
    }

    private static void PaintTitle(SheetBuilder canvas, string title, DrawingView view)
    {
        ScenePoint at = new(Margin, Margin + 4.5);
        TextStyle bold = new(4.4, SceneColours.Ink) { Bold = true };
        canvas.Add(new Shape.Text("legend", at, title, bold));
        double width = SceneText.Width(title, bold.SizeMillimetres, bold.Bold);
        canvas.Add(new Shape.Text("legend", new(at.X + width + 3, at.Y), ViewWords(view), new(3, SceneColours.Quiet)));
    }
}
