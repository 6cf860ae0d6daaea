using System.Collections.Immutable;
using WireUp.Documents.Book;
using WireUp.Planning;

namespace WireUp.Documents;

/// <summary>
/// The printed outcome of a plan: cover, cautions, drawings from above and below, power, findings, reasons, schedule, lists,
/// commissioning tests. Somebody who did not make the plan should be able to build from it without asking.
/// </summary>
public static class WiringBook
{
    /// <summary>The book as a PDF file. The same plan and options give the same bytes.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="options">How.</param>
    /// <param name="cancellation">Stops between pages.</param>
    public static byte[] Compose(PlanResult plan, BookOptions options, CancellationToken cancellation = default) =>
        Make(plan, options, cancellation).ToPdf();

    /// <summary>The pages of the book as scenes.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="options">How.</param>
    /// <param name="cancellation">Stops between pages.</param>
    public static ImmutableArray<Scene> Pages(PlanResult plan, BookOptions options, CancellationToken cancellation = default) => Make(plan, options, cancellation).Pages;

    /// <summary>The book worked out once, to be written in several ways.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="options">How.</param>
    /// <param name="cancellation">Stops between pages.</param>
    public static ComposedBook Make(PlanResult plan, BookOptions options, CancellationToken cancellation = default)
    {
        BookFacts facts = new(plan, options, cancellation);
        BookFlow flow = new(Sheet.Of(options.Paper));
        CautionChapter.Write(facts, flow);
        PlanChapter.Write(facts, flow, cancellation);
        cancellation.ThrowIfCancellationRequested();
        FigureChapter.Write(facts, flow, cancellation);
        RouteChapter.Write(facts, flow, cancellation);
        PowerChapter.Write(facts, flow);
        FindingChapter.Write(facts, flow);
        ReasonChapter.Write(facts, flow);
        cancellation.ThrowIfCancellationRequested();
        ScheduleChapter.Write(facts, flow);
        StripChapter.Write(facts, flow);
        DrillingChapter.Write(facts, flow);
        ListChapter.Write(facts, flow);
        bool hasSpares = ShowChapter.WriteSpares(facts, flow, onlyHere: true);
        DistrictChapter.Write(facts, flow, cancellation);
        BoardChapter.Write(facts, flow, cancellation);
        ShowChapter.WriteSettings(facts, flow);
        TestChapter.Write(facts, flow);
        if (!hasSpares) ShowChapter.WriteSpares(facts, flow, onlyHere: false);
        ShowChapter.WriteHandover(facts, flow);
        BookPage cover = CoverChapter.Write(facts, [.. flow.Contents.Select(entry => (entry.Section, entry.Page + 2))], cancellation);
        ImmutableArray<Scene> pages = [.. new[] { cover }.Concat(flow.Pages).Select((page, i) => RunningHead.Finish(facts, page, i + 1, flow.Pages.Count + 1))];
        return new($"{facts.Title}: wiring book", pages, flow.Blocks);
    }
}
