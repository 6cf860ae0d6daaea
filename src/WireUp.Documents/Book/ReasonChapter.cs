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
            flow.Paragraph("This railway needs no gaps.");
            return;
        }

        flow.Intro(
            "In a joint: use insulated rail joiners. Within a section: cut 0.5 to 1 mm wide and fill the cut, so that the rails cannot close it in "
            + "warm or damp weather. Test that each gap is open before you power it.");
        HashSet<Gap> built = [.. facts.Plan.Before.Wiring.Gaps];
        ILookup<string, Proposal> reasons = facts.Plan.Proposals.ToLookup(proposal => proposal.Id);
        flow.Table(Table.Of(
            [Column.Names("Gap"), new("Where"), new("How"), new("Rails"), Column.Wide("Why"), Column.TickBoxes("made"), Column.TickBoxes("open")],
            facts.Gaps.Select(gap => GapRow(gap.Name, gap.Gap, built.Contains(gap.Gap), reasons[gap.Name].FirstOrDefault()))));
    }

    private static Row GapRow(string name, Gap gap, bool built, Proposal? proposal) => new(
        name,
        gap.At is GapPlace.InSection within ? PlaceWords.Place(within.Place) : gap.At.ToString()!,
        gap.At is GapPlace.InSection ? "cut" : "joiner",
        gap.Rails switch { RailSet.Both => "both", RailSet.Left => "left", RailSet.Right => "right", _ => "none" },
        proposal?.Reason ?? (built ? "there already" : "planned with its district"),
        built ? Row.NoBox : string.Empty,
        string.Empty);

    private static void WriteDecisions(BookFacts facts, BookFlow flow)
    {
        Proposal[] decisions = [.. facts.Plan.Proposals
            .Where(proposal => proposal.Kind is not (ProposalKind.Gap or ProposalKind.Feeder or ProposalKind.BusRun))];
        if (decisions.Length == 0 && facts.Plan.Objectives.IsEmpty) return;
        flow.SectionHere(Title, 60);
        if (decisions.Length > 0)
        {
            flow.Table(Table.Of(
                [Column.Names("Name"), new("What"), Column.Wide("Why", 3), Column.Wide("Rule", 2)],
                decisions.Select(proposal => new Row(proposal.Id, Word(proposal.Kind), proposal.Reason, proposal.Rule))));
        }

        WriteObjectives(facts, flow);
    }

    private static void WriteObjectives(BookFacts facts, BookFlow flow)
    {
        if (facts.Plan.Objectives.IsEmpty) return;
        flow.Subheading("How good the plan is");
        flow.Table(Table.Of(
            [Column.Wide("What was kept small"), Column.Figures("Plan"), Column.Figures("No plan needs less than"), new("So")],
            facts.Plan.Objectives.Select(objective => new Row(
                objective.Name,
                Figure.Text($"{objective.Value:0.##}"),
                Figure.Text($"{objective.Bound:0.##}"),
                objective.IsOptimal ? "proved the best" : "may not be the best"))));
    }

    private static string Word(ProposalKind kind) => kind switch
    {
        ProposalKind.Gap => "gap",
        ProposalKind.ReversingSection => "reversing section",
        ProposalKind.District => "district",
        ProposalKind.Booster => "booster",
        ProposalKind.Supply => "supply",
        ProposalKind.Feeder => "feeder",
        ProposalKind.BusRun => "run of bus",
        ProposalKind.FrogContact => "frog contact",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such kind"),
    };
}
