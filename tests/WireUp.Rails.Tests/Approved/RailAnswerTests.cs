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

    [Fact]
    public void Rails_of_plans_as_they_are_wired_wrongly_are_as_approved() => ApprovedText.Matches(Told(WrongWiring()), "wrong-wiring.txt", Folder);

    /// <summary>Small plans, each with one thing about its wiring that is wrong, or that takes a second look to be right.</summary>
    private static IEnumerable<Layout> WrongWiring()
    {
        yield return Named("balloon, one rail of the loop not cut", Plans.Balloon().Gap("loop@0.2").Gap("loop@1.8", RailSet.Left).District("turn", reversing: true).Feed("d", "spur@1").Feed("turn", "loop@1"));
        yield return Named("balloon, its two devices swap against each other", Plans.Balloon().Gap("loop@0.2").Gap("loop@1").Gap("loop@1.8").District("one", reversing: true).District("two", reversing: true)
            .Feed("d", "spur@1").Feed("one", "loop@0.5").Feed("two", "loop@1.5"));
        yield return Named("wye with live frogs, fed at its tail", Plans.Wye(FrogKind.Live).Feed("d", "tail@1"));
        yield return Named("wye cut at one leg, its base turned", Plans.Wye().Gap("left@0.5").Gap("right@0.5").Feed("d", "tail@1", "base@1", "left@0.2", "right@1.5!"));
        yield return Named("passing loop with live frogs, one gap too few", Plans.OvalWithSiding(FrogKind.Live).Gap("T1.through", RailSet.Right).Gap("T2.diverging", RailSet.Right).Feed("d", "ring@1", "main@1", "siding@1"));
        yield return Named("folded oval, crossovers cut in one rail", Plans.FoldedOvalWithTwoCrossovers().Gap("cross-1@1", RailSet.Left).Gap("cross-2@1", RailSet.Right).Feed("d", "north@1", "south@1!", "cross-1@0.5", "cross-2@1.5"));
        yield return Named("rings joined by crossovers, two districts", Plans.ConcentricOvals().Gap("in@1").Gap("out@1", RailSet.Left).Feed("inner", "inner-1@1", "inner-2@1").Feed("outer", "outer-1@1", "outer-2@1"));
        yield return Named("ladder of live turnouts, two of its roads fed", Ladder(4).Feed("d", "lead@1!", "road-2@1", "road-4@1"));
        yield return Named("ladder of live turnouts, cut before each road", Ladder(3).Gap("road-1.a", RailSet.Left).Gap("road-2.a", RailSet.Left).Gap("road-3.a", RailSet.Left).Feed("d", "lead@1!", "road-1@1", "road-2@1", "road-3@1"));
        yield return Named("turning track, its contact the wrong way round", new PlanBuilder().Sections("toe loop").Turnouts("T1", TurnoutHand.Left).Chain("toe > T1.points").Chain("T1.through > loop > T1.diverging")
            .Gap("loop@0.2").Gap("loop@1.8").Feed("d", "toe@1", "loop@1?T1.diverging", "loop@1!?T1.through"));
        yield return Named("dead length behind a turnout, one way out exchanged", new PlanBuilder().Sections("west east siding").Turnouts("T1").Chain("west > T1.points").Chain("T1.through > east").Chain("T1.diverging > siding")
            .Gap("west@1.9").Gap("east@0.1").Gap("siding@0.1").Feed("d", "west@1", "east@1!", "siding@1"));
        yield return Named("dead rails of unequal length", new PlanBuilder().Sections("a b c").Chain("a > b > c").Gap("a@1.7", RailSet.Left).Gap("a.b", RailSet.Left).Gap("b@0.5", RailSet.Right).Gap("b@0.8", RailSet.Right)
            .Gap("b@1.2", RailSet.Both).Gap("c@0.4", RailSet.Both).Feed("d", "a@1", "b@1", "c@1!"));
        yield return Named("two turnouts toe to toe, live, fed at their legs", new PlanBuilder().Turnouts("T1 T2", frog: FrogKind.Live).Sections("a b c e between").Chain("a > T1.through").Chain("b > T1.diverging").Chain("T1.points > between > T2.points")
            .Chain("T2.through > c").Chain("T2.diverging > e").Feed("d", "a@1", "c@1!"));
        yield return Named("figure of eight over a live crossing", new PlanBuilder().Piece(new Piece.Crossing(new("X"), UnitsNet.Angle.FromDegrees(30), FrogKind.Live) { Feed = FrogFeed.Contact })
            .Sections("lobe-1 lobe-2").Chain("X.a2 > lobe-1 > X.b1").Chain("X.b2 > lobe-2 > X.a1").Feed("d", "lobe-1@1", "lobe-2@1"));
        yield return Named("slip that leads from one district to another", new PlanBuilder().Piece(new Piece.Slip(new("S"), Double: true, FrogKind.Live) { Feed = FrogFeed.Contact }).Sections("nw sw ne se").Chain("nw > S.a1").Chain("sw > S.b1")
            .Chain("S.a2 > ne").Chain("S.b2 > se").Gap("S.a1", RailSet.Left).Gap("S.b1", RailSet.Right).Feed("north", "nw@1", "ne@1").Feed("south", "sw@1", "se@1"));
        yield return Named("turntable on fixed wires", new PlanBuilder().Piece(new Piece.Turntable(new("TT"), 4, UnitsNet.Length.FromMeters(0.3))).Sections("lead stall").Chain("lead > TT.t1").Chain("TT.t2 > stall").Feed("d", "lead@1", "stall@1", "TT@0.15"));
        yield return Named("three rails, one feeder exchanged, one centre rail cut twice", new PlanBuilder { Control = ControlSystem.ThreeRail }.Sections("a b c").Chain("a > b > c").Gap("a.b", RailSet.Left).Gap("b.b", RailSet.Left).Feed("d", "a@0.5", "a@1.5!", "c@1"));
        yield return Named("blocks of two cabs on a common rail, one gap forgotten", Blocks("b2.b", RailSet.Left));
        yield return Named("blocks of two cabs, cut in both rails", Blocks("", RailSet.Both));
        yield return Named("siding behind a contact, and a second way into it", new PlanBuilder().Sections("main siding").Chain("main > siding").Gap("main.b", RailSet.Left, "S.on").Switch("S", "on off").Switch("R", "in out").Feed("d", "main@1", "siding@1?R.in"));
        yield return Named("lift-out that feeds its approach", new PlanBuilder().Sections("west").LiftOut("bridge").Sections("east").Chain("west > bridge > east").Gap("west@1").Feed("d", "west@0.5", "west@1.5?bridge.in", "bridge@0.5", "east@1"));
    }

    private static Layout Named(string name, PlanBuilder plan) => plan.Build() with { Name = name };

    /// <summary>Turnouts one behind the other, each with a road at its straight leg.</summary>
    private static PlanBuilder Ladder(int roads)
    {
        PlanBuilder plan = new PlanBuilder().Sections("lead").Chain("T1.points > lead");
        for (int i = 1; i <= roads; i++)
        {
            plan.Turnouts($"T{i}", frog: FrogKind.Live).Sections($"road-{i}").Chain($"T{i}.through > road-{i}");
            _ = i > 1 ? plan.Chain($"T{i - 1}.diverging > T{i}.points") : plan;
        }

        return plan;
    }

    /// <summary>A ring of three blocks with a selector for two cabs each.</summary>
    private static PlanBuilder Blocks(string missing, RailSet cut)
    {
        PlanBuilder plan = new PlanBuilder { Control = ControlSystem.Direct }.Booster("cab-a").Booster("cab-b").District("cab-a", booster: "cab-a").District("cab-b", booster: "cab-b")
            .Sections("b1 b2 b3").Chain("b1 > b2 > b3 > b1.a");
        foreach (string block in new[] { "1", "2", "3" })
        {
            plan.Switch($"B{block}", "cab-a cab-b off").Feed("cab-a", $"b{block}@1?B{block}.cab-a").Feed("cab-b", $"b{block}@1?B{block}.cab-b");
            _ = missing == $"b{block}.b" ? plan : plan.Gap($"b{block}.b", cut);
        }

        return plan;
    }

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
