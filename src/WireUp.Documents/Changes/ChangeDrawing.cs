using System.Collections.Immutable;
using WireUp.Documents.Changes;
using WireUp.Documents.Drawings;
using WireUp.Layouts;

namespace WireUp.Documents;

/// <summary>
/// Draws what differs between two layouts: the plan as it will be with what is new, moved or made different; and, where anything goes or
/// moves, above it the plan as it was with what is taken away. What stays as it is has no sign but its name.
/// </summary>
public static class ChangeDrawing
{
    private const double Margin = 9, TitleHeight = 9, LegendHeight = 7, PanelTitle = 5;

    /// <summary>The drawing on one sheet.</summary>
    /// <param name="changes">What differs.</param>
    /// <param name="paper">Paper, or null for the smallest of A4 to A0 on which the labels find room.</param>
    /// <param name="cancellation">Stops a long drawing.</param>
    public static Scene Draw(ChangeList changes, PaperSize? paper = null, CancellationToken cancellation = default)
    {
        ImmutableArray<ChangePanel> panels = ChangePanel.Of(changes, cancellation);
        ImmutableArray<Sheet> sheets = paper is { } given ? [Sheet.Of(given)] : Sheet.Growing;
        foreach (Sheet sheet in sheets[..^1])
        {
            (Scene scene, Crowding crowding) = Draw(changes, panels, sheet, isTrial: true, cancellation);
            if (crowding.ReadsFairly) return scene;
        }

        return Draw(changes, panels, sheets[^1], isTrial: false, cancellation).Scene;
    }

    /// <summary>Draws the panels into a box; for a page of a book.</summary>
    internal static Crowding Paint(SheetBuilder canvas, ImmutableArray<ChangePanel> panels, SceneBox box, bool isTrial, CancellationToken cancellation)
    {
        Crowding crowding = default;
        foreach ((ChangePanel panel, SceneBox window) in panels.Zip(Windows(panels, box with { Bottom = box.Bottom - LegendHeight })))
        {
            canvas.Add(new Shape.Text("legend", new(window.Left, window.Top - 1.4), panel.Title, new(2.9, SceneColours.Ink) { Bold = true }));
            crowding += panel.Paint(canvas, window, isTrial, cancellation);
        }

        PaintLegend(canvas, new(box.Left, box.Bottom - 3));
        return crowding;
    }

    /// <summary>The panels one above the other or side by side, whichever draws them larger.</summary>
    private static ImmutableArray<SceneBox> Windows(ImmutableArray<ChangePanel> panels, SceneBox box)
    {
        ImmutableArray<SceneBox> above = [.. Enumerable.Range(0, panels.Length).Select(i => Window(0, i, box.Width, box.Height / panels.Length))];
        ImmutableArray<SceneBox> beside = [.. Enumerable.Range(0, panels.Length).Select(i => Window(i, 0, box.Width / panels.Length, box.Height))];
        return Scale(above) >= Scale(beside) ? above : beside;

        SceneBox Window(int column, int row, double width, double height) => new(
            box.Left + (column * width), box.Top + (row * height) + PanelTitle, box.Left + ((column + 1) * width) - (column < panels.Length - 1 ? 3 : 0), box.Top + ((row + 1) * height) - 2);

        double Scale(ImmutableArray<SceneBox> windows) => panels.Zip(windows).Min(pair => Math.Min(
            pair.Second.Width / Math.Max(pair.First.Facts.Geometry.Bounds.Width, 1e-6), pair.Second.Height / Math.Max(pair.First.Facts.Geometry.Bounds.Height, 1e-6)));
    }

    private static (Scene Scene, Crowding Crowding) Draw(
        ChangeList changes, ImmutableArray<ChangePanel> panels, Sheet sheet, bool isTrial, CancellationToken cancellation)
    {
        Sheet turned = sheet.For(panels[^1].Facts.Geometry.Bounds);
        SheetBuilder canvas = new();
        string title = changes.Comparison.After.Name;
        canvas.Add(new Shape.Text("legend", new(Margin, Margin + 4.5), $"{title}: what changes", new(4.4, SceneColours.Ink) { Bold = true }));
        Crowding crowding = Paint(
            canvas, panels, new(Margin, Margin + TitleHeight, turned.Width - Margin, turned.Height - Margin), isTrial, cancellation);
        return (new(turned.Width, turned.Height, canvas.Shapes) { Title = $"{title}, what changes" }, crowding);
    }

    private static void PaintLegend(SheetBuilder canvas, ScenePoint at)
    {
        double x = at.X;
        foreach (DifferenceKind kind in ChangeLook.Drawn)
        {
            ChangeLook look = ChangeLook.Of(kind);
            foreach (Shape side in look.Sides(string.Empty, [new(x, at.Y), new(x + 11, at.Y)], 1.1)) canvas.Add(side with { Layer = "legend" });
            string words = $"{Change.Signs.Of(kind)}  {look.Words}";
            canvas.Add(new Shape.Text("legend", new(x + 12.5, at.Y + 0.8), words, new(2.1, SceneColours.Ink)));
            x += 12.5 + SceneText.Width(words, 2.1) + 6;
        }

        canvas.Add(new Shape.Text("legend", new(x, at.Y + 0.8), "R  another name only", new(2.1, SceneColours.Ink)));
    }
}

/// <summary>One plan with what differs.</summary>
/// <param name="Title">What it shows.</param>
/// <param name="Facts">The layout.</param>
/// <param name="Changes">What is marked on it.</param>
internal sealed record ChangePanel(string Title, PlanFacts Facts, ImmutableArray<Change> Changes)
{
    private static readonly DrawingOptions Quiet = new() { Layers = DrawingLayers.None };

    /// <summary>Whether names are left out where they have no room.</summary>
    public bool OnlyWhereFree { get; init; }

    /// <summary>The plan as it was, where something of it goes or moves, and the plan as it will be.</summary>
    public static ImmutableArray<ChangePanel> Of(ChangeList changes, CancellationToken cancellation)
    {
        ImmutableArray<Change> leaves = [.. changes.Changes.Where(change => change.Kind is DifferenceKind.Removed or DifferenceKind.Moved)];
        ImmutableArray<Change> stays = [.. changes.Changes.Where(change => change.Kind is not DifferenceKind.Removed)];
        (Layout before, Layout after) = (changes.Comparison.Before, changes.Comparison.After);
        ChangePanel now = new("As it is to be", PlanFacts.Of(after, Quiet with { Before = before }, cancellation), stays);
        return leaves.Any(change => change.Difference is not null)
            ? [new("As it was: what goes, and what moves from where", PlanFacts.Of(before, Quiet, cancellation), leaves), now]
            : [now];
    }

    /// <summary>Draws it into a window.</summary>
    public Crowding Paint(SheetBuilder canvas, SceneBox window, bool isTrial, CancellationToken cancellation)
    {
        PlanSheet plan = new(Facts.Geometry, LayoutDrawing.Around(Facts.Geometry, window), window, DrawingView.Above);
        return new PlanPainter(Facts, Quiet) { IsTrial = isTrial, QuietRails = true }
            .Paint(canvas, plan, PlanDetail.Full, cancellation, new ChangeMarks(Facts, plan, Changes) { OnlyWhereFree = OnlyWhereFree });
    }
}
