using System.Collections.Immutable;
using WireUp.Checking;
using WireUp.Documents.Book;
using WireUp.Documents.Drawings;
using WireUp.Planning;

namespace WireUp.Documents;

/// <summary>
/// The papers of a change: what to do, where on the plan, the schedule of only the new wires, what to buy and to cut for them.
/// </summary>
public static class ChangeBook
{
    /// <summary>The papers as a PDF file. The same layouts and options give the same bytes.</summary>
    /// <param name="changes">What differs.</param>
    /// <param name="check">What the check says of the later layout.</param>
    /// <param name="options">How; the schedule's options should be those with which <paramref name="changes"/> were listed.</param>
    /// <param name="cancellation">Stops between pages.</param>
    public static byte[] Compose(ChangeList changes, CheckReport check, BookOptions options, CancellationToken cancellation = default) =>
        PdfScene.Write(Pages(changes, check, options, cancellation), new() { Title = $"{options.Title ?? changes.Comparison.After.Name}: what changes" });

    /// <summary>The pages as scenes.</summary>
    /// <param name="changes">What differs.</param>
    /// <param name="check">What the check says of the later layout.</param>
    /// <param name="options">How.</param>
    /// <param name="cancellation">Stops between pages.</param>
    public static ImmutableArray<Scene> Pages(ChangeList changes, CheckReport check, BookOptions options, CancellationToken cancellation = default)
    {
        PlanResult plan = new(changes.Comparison.Before, changes.Comparison.After) { Findings = check.Findings, Power = check.Power };
        BookFacts facts = new(plan, options, cancellation) { OnlyNew = true };
        BookFlow flow = new(Sheet.Of(options.Paper));
        ChangeChapter.Write(facts, changes, flow);
        if (!changes.Changes.IsEmpty)
        {
            flow.AddDrawn(Drawn(facts, changes, cancellation), inContents: true);
            ScheduleChapter.Write(facts, flow);
            StripChapter.Write(facts, flow);
            ListChapter.Write(facts, flow);
        }

        return [.. flow.Pages.Select((page, i) => RunningHead.Finish(facts, page, i + 1, flow.Pages.Count))];
    }

    private static BookPage Drawn(BookFacts facts, ChangeList changes, CancellationToken cancellation)
    {
        BookPage page = new(Sheet.Of(facts.Options.Paper).For(facts.Drawn.Geometry.Bounds), ChangeChapter.DrawingTitle);
        ImmutableArray<ChangePanel> panels = ChangePanel.Of(changes, cancellation);
        SceneBox box = page.Content with { Top = page.Content.Top - 4 };
        SheetBuilder canvas = new();
        if (ChangeDrawing.Paint(canvas, panels, box, isTrial: false, cancellation).Covering > 0)
        {
            canvas = new();
            ChangeDrawing.Paint(canvas, [.. panels.Select(panel => panel with { OnlyWhereFree = true })], box, isTrial: false, cancellation);
            page.Write("Names without room are left out here: see the picture and the schedule.", box.Right, box.Bottom - 2, BookStyle.Small with { Align = TextAlign.Right });
        }

        page.Add(canvas.Shapes);
        return page;
    }
}
