using WireUp.Layouts;
using WireUp.Planning;

namespace WireUp.Documents.Book;

/// <summary>Why: every gap with its reason, and the other decisions of the plan.</summary>
internal static class ReasonChapter
{
    public const string GapTitle = "Gaps";
    public const string Title = "Why it is planned so";

    public static void Write(BookFacts facts, BookFlow flow)
    {
        WriteGaps(facts, flow);
        WriteDecisions(facts, flow);
    }

    private static void WriteGaps(BookFacts facts, BookFlow flow)
    {
        flow.SectionHere(GapTitle, 60);
        if (facts.Wiring.Gaps.IsEmpty)
        {
            flow.Paragraph("This railway has no gaps.");
            return;
        }

        flow.Intro(
            $"In a joint: use insulated rail joiners. Within a section: cut {PlaceWords.SawCut(facts.Lengths)} wide and fill the cut, so that the rails cannot close it in "
            + "warm or damp weather. Test that each gap is open before you power it.");
        HashSet<Gap> built = [.. facts.Plan.Before.Wiring.Gaps];
        flow.Table(Table.Of(
            [
                Column.Names("Gap"), new("Where"), new("How"), new("Rails"), Column.Wide("Why"), Column.TickBoxes("made"), Column.TickBoxes("open"),
            ],
            facts.Gaps.Select(gap => GapRow(facts, (gap.Label, gap.Proposal, gap.Gap), built.Contains(gap.Gap)))));
    }

    private static Row GapRow(BookFacts facts, (string Label, Proposal? Proposal, Gap Gap) known, bool built) => new(
        known.Label,
        PlaceWords.Place(known.Gap.At, facts.Lengths),
        known.Gap.At is GapPlace.InSection ? "cut" : "joiner",
        PlaceWords.Rails(known.Gap, facts.Layout.Control),
        GapReason(known.Label, known.Proposal, built) + (known.Gap.BridgedWhen is { } when ? $" A contact bridges it in {when}." : string.Empty),
        built ? Row.NoBox : string.Empty,
        string.Empty);

    /// <summary>The reason, and the plan's own name of the gap where the label is another.</summary>
    private static string GapReason(string label, Proposal? proposal, bool built) => proposal is null
        ? built ? "There already." : "Given with the wiring, no reason on record."
        : proposal.Id == label ? proposal.Reason : $"{proposal.Reason} ({proposal.Id})";

    /// <summary>Decisions of one kind by one rule stand together under it.</summary>
    private static void WriteDecisions(BookFacts facts, BookFlow flow)
    {
        IGrouping<(ProposalKind Kind, string Rule), Proposal>[] decisions = [.. facts.Plan.Proposals
            .Where(proposal => proposal.Kind is not (ProposalKind.Gap or ProposalKind.Feeder or ProposalKind.BusRun))
            .GroupBy(proposal => (proposal.Kind, proposal.Rule))];
        if (decisions.Length == 0 && facts.Plan.Objectives.IsEmpty) return;
        flow.SectionHere(Title, 78);
        foreach (IGrouping<(ProposalKind Kind, string Rule), Proposal> alike in decisions)
        {
            flow.Subheading(alike.Key.Kind.Heading());
            flow.Intro(alike.Key.Rule);
            flow.Table(Table.Of(
                [Column.Names("Name"), Column.Wide("Why")],
                alike.Select(proposal => new Row(proposal.Id, proposal.Reason))));
        }

        WriteObjectives(facts, flow);
    }

    private static void WriteObjectives(BookFacts facts, BookFlow flow)
    {
        if (facts.Plan.Objectives.IsEmpty) return;
        flow.Subheading("How good the plan is");
        if (facts.Plan.Proposals.IsEmpty)
        {
            flow.Paragraph(PlanResult.NothingToCompare);
            return;
        }

        flow.Table(Table.Of(
            [Column.Wide("What was kept small"), Column.Figures("Plan"), Column.Figures("No plan needs less than"), new("So")],
            facts.Plan.Objectives.Select(objective => new Row(
                objective.Name.Replace('-', ' '),
                Figure.Text($"{objective.Value:0.##}"),
                Figure.Text($"{objective.Bound:0.##}"),
                objective.IsOptimal ? "proved the best" : "may not be the best"))));
    }
}
