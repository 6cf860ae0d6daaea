using System.Globalization;
using System.Text;
using WireUp.Layouts;

namespace WireUp.Rails.Tests.Approved;

/// <summary>
/// What the rails of small layouts say: faults of polarity with their paths and positions, what each gap is good for, where cabs meet; as it is
/// known to be.
/// </summary>
public sealed class RailAnswerTests
{
    private const string Folder = "tests/WireUp.Rails.Tests/Approved";

    [Fact]
    public void Rails_of_the_examples_of_the_finding_pages_are_as_approved() => ApprovedText.Matches(
        Told(ExampleLayouts.OfPages.Where(page => page.Name.StartsWith("WU3", StringComparison.Ordinal) || page.Name.StartsWith("WU2", StringComparison.Ordinal)).Select(Read)),
        "pages.txt",
        Folder);

    [Fact]
    public void Rails_of_the_samples_are_as_approved() => ApprovedText.Matches(Told(ExampleLayouts.Samples.Select(Read)), "samples.txt", Folder);

    [Fact]
    public void Rails_of_the_classical_plans_are_as_approved() => ApprovedText.Matches(
        Told(
        [
            Fed(Plans.Balloon(), "balloon"), Fed(Plans.Balloon(FrogKind.Live), "balloon, live frog"), Fed(Plans.LoopToLoop(), "loop to loop"),
            Fed(Plans.Wye(), "wye"), Fed(Plans.Wye(FrogKind.Live), "wye, live frogs"), Fed(Plans.OvalWithSiding(), "oval with siding"),
            Fed(Plans.OvalWithSiding(FrogKind.Live), "oval with siding, live frogs"), Fed(Plans.OvalWithCutOff(), "oval with cut-off"),
            Fed(Plans.FoldedOvalWithTwoCrossovers(), "folded oval with two crossovers"), Fed(Plans.ConcentricOvals(), "concentric ovals"),
            Fed(Plans.FigureEight(), "figure of eight"), Fed(Plans.LoopWithFan(), "loop with fan"), Fed(Plans.WyeWithBalloon(), "wye with balloon"),
            Plans.Balloon(FrogKind.Live).Feed("d", "spur@1").Build() with { Name = "balloon, live frog, spur fed" },
            Plans.OvalWithSiding(FrogKind.Live).Feed("d", "ring@1").Build() with { Name = "oval with siding, live frogs, ring fed" },
        ]),
        "plans.txt",
        Folder);

    private static Layout Read((string Name, string Text) file) => ExampleLayouts.Read(file.Text, file.Name) with { Name = file.Name };

    /// <summary>A plan with a feeder in every section, its wires the same way round in each.</summary>
    private static Layout Fed(PlanBuilder plan, string name) =>
        plan.Feed("d", [.. plan.Build().Track.OfType<Piece.Section>().Select(section => $"{section.Id}@1")]).Build() with { Name = name };

    private static string Told(IEnumerable<Layout> layouts)
    {
        StringBuilder text = new();
        foreach (Layout layout in layouts)
        {
            RailGraph graph = RailGraph.Build(layout);
            PolarityReport polarity = Polarity.Analyse(graph, cancellationToken: TestContext.Current.CancellationToken);
            text.Append(CultureInfo.InvariantCulture, $"# {layout.Name}\n");
            text.Append(Spelled.Under("Parts", polarity.Parity.Parts.Select((part, i) => string.Create(
                CultureInfo.InvariantCulture,
                $"{part.Piece}#{part.Number} {part.FromMetres:0.###}-{part.ToMetres:0.###} {(polarity.Parity.Signs[i] > 0 ? '+' : '-')}{polarity.Parity.Components[i]}"))));
            text.Append(Spelled.Under("Polarity", polarity, "Graph", "Parity", "SearchSteps", "Joints", "Joint"));
            text.Append(Spelled.Under("Gaps", GapPurposes.Find(graph, TestContext.Current.CancellationToken), "Meeting", "IsNeeded"));
            FeedWays ways = FeedWays.Of(graph);
            text.Append(Spelled.Under("Cabs", WireUp.Rails.Cabs.Analyse(graph, polarity, ways)));
            text.Append(Spelled.Under("Ways", Switched(graph, ways)));
            text.Append('\n');
        }

        return text.ToString();
    }

    /// <summary>The beginnings of sections that something feeds in some positions only, and in which.</summary>
    private static IEnumerable<string> Switched(RailGraph graph, FeedWays ways) =>
        from section in graph.Layout.Track.OfType<Piece.Section>()
        let start = graph.Stations(section.Id)[0]
        from node in new[] { start.FirstTowardsB, start.SecondTowardsB }
        from way in ways.At(node)
        where !way.When.IsEmpty
        select $"{graph.Nodes[node]} from {way.Wire} when {string.Join(" and ", way.When.Select(pair => $"{pair.Key}.{pair.Value}"))}";
}
