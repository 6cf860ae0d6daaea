using WireUp.Documents;
using WireUp.Documents.Geometry;
using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Files;

/// <summary>The papers of a plan in a folder.</summary>
internal static class PlanFolder
{
    /// <summary>How many files are written, without labels.</summary>
    public const int Count = 9;

    /// <summary>Writes sheets of labels for the wires that the plan adds.</summary>
    public static void WriteLabels(DirectoryInfo folder, FileInfo source, PlanResult plan, LabelOptions labels)
    {
        string name = LayoutFiles.BaseName(source);
        LayoutFiles.Write(new(Path.Combine(folder.FullName, $"{name}-labels.pdf")), LabelSheets.Compose(plan.After, Schedule.Of(plan.After, before: plan.Before), labels));
    }

    /// <summary>The file with its comments and what is added; where something built is changed, the whole layout written anew.</summary>
    private static string Wired(LayoutDocument document, PlanResult plan) => plan.Proposals.Any(proposal => proposal.Kind == ProposalKind.Rework)
        ? LayoutFile.Write(plan.After)
        : document.WithAdded(plan.After).Text;

    /// <summary>Writes the wiring book, the drawings, the schedule and the layout with its wiring.</summary>
    public static void Write(
        DirectoryInfo folder, FileInfo source, LayoutDocument document, PlanResult plan, BookOptions book, CancellationToken cancel)
    {
        string name = LayoutFiles.BaseName(source);
        FileInfo In(string file) => new(Path.Combine(folder.FullName, file));
        PlanGeometry geometry = PlanGeometry.Of(plan.After, cancel);
        ComposedBook composed = WiringBook.Make(plan, book with { Geometry = geometry }, cancel);
        LayoutFiles.Write(In($"{name}-wiring-book.pdf"), composed.ToPdf());
        LayoutFiles.Write(In($"{name}-wiring-book.html"), composed.ToHtml());
        LayoutFiles.Write(In($"{name}-lists.xlsx"), composed.ToXlsx());
        DrawingOptions options = new() { Geometry = geometry, Proposals = plan.Proposals, Findings = plan.Findings, Before = plan.Before };
        foreach ((DrawingView view, string word) in new[] { (DrawingView.Above, "above"), (DrawingView.Below, "below") })
        {
            Scene scene = LayoutDrawing.Draw(plan.After, options with { View = view }, cancel);
            LayoutFiles.Write(In($"{name}-{word}.svg"), SvgScene.Write(scene));
            LayoutFiles.Write(In($"{name}-{word}.png"), PngScene.Write(scene));
        }

        LayoutFiles.Write(In($"{name}-schedule.csv"), Schedule.Of(plan.After, before: plan.Before).ToCsv());
        LayoutFiles.Write(In($"{name}-wired.layout.yaml"), Wired(document, plan));
    }
}
