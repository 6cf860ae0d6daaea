using WireUp.Layouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class PlanPartTests
{
    private static readonly PlanResult Plan = Planner.Plan(LayoutFile.Read(RepoFiles.ReadText("sample-layouts/balloon-loop.layout.yaml"), "balloon-loop").Layout!);

    [Fact]
    public void All_proposals_together_are_the_plan()
    {
        Layout all = PlanPart.Of(Plan, Plan.Proposals.Select(proposal => proposal.Id));
        Assert.Equal(LayoutFile.Write(Plan.After), LayoutFile.Write(all));
    }

    [Fact]
    public void No_proposal_leaves_the_layout_as_it_was() =>
        Assert.Equal(LayoutFile.Write(Plan.Before), LayoutFile.Write(PlanPart.Of(Plan, ["no such proposal"])));

    [Fact]
    public void A_feeder_brings_its_bus_back_to_the_booster_and_no_other()
    {
        Feeder feeder = Plan.After.Wiring.Feeders.First(each => each.Name == "f3");
        Wiring part = PlanPart.Of(Plan, ["f3"]).Wiring;
        Assert.Equal([feeder], part.Feeders);
        Bus bus = Assert.Single(part.Buses);
        string point = feeder.Tap;
        int steps = 0;
        while (bus.Runs.FirstOrDefault(run => run.To == point) is { } run) (point, steps) = (run.From, steps + 1);
        Assert.Equal(part.Boosters.Single().Name, point);
        Assert.Equal(bus.Runs.Length, steps);
        Assert.Equal(part.Boosters.Single().Supply, part.Supplies.Single().Name);
    }

    [Fact]
    public void A_reversing_section_brings_its_gaps_its_district_and_its_feeders()
    {
        Wiring part = PlanPart.Of(Plan, ["turn-1"]).Wiring;
        Assert.Equal(2, part.Gaps.Length);
        Assert.True(Assert.Single(part.Districts).Reversing);
        Assert.Equal(Plan.After.Wiring.Feeders.Where(feeder => feeder.District == "turn-1"), part.Feeders);
    }

    [Theory]
    [InlineData("sample-layouts/balloon-loop.layout.yaml")]
    [InlineData("sample-layouts/home-yard.layout.yaml")]
    [InlineData("sample-layouts/wye.layout.yaml")]
    public void Every_proposal_by_itself_can_be_written_into_the_file(string sample)
    {
        LayoutDocument document = LayoutDocument.Open(RepoFiles.ReadText(sample), "sample");
        PlanResult plan = Planner.Plan(document.Reading.Layout!, cancel: TestContext.Current.CancellationToken);
        Assert.All(plan.Proposals, proposal =>
        {
            Layout part = PlanPart.Of(plan, [proposal.Id]);
            Layout read = document.WithAdded(part).Reading.Layout!;
            Assert.Equal(LayoutFile.Write(part), LayoutFile.Write(read));
            Assert.Equal(proposal.Kind == ProposalKind.TerminalStrip, LayoutFile.Write(part) == LayoutFile.Write(plan.Before));
        });
    }

    [Fact]
    public void A_selector_and_any_feeder_that_it_switches_bring_each_other_and_the_gaps_between_blocks()
    {
        LayoutDocument document = LayoutDocument.Open(Cabs, "cabs");
        PlanResult plan = Planner.Plan(document.Reading.Layout!, cancel: TestContext.Current.CancellationToken);
        Assert.Contains(plan.Proposals, proposal => proposal.Kind == ProposalKind.Selector);
        Assert.Equal(LayoutFile.Write(plan.After), LayoutFile.Write(PlanPart.Of(plan, plan.Proposals.Select(proposal => proposal.Id))));
        Assert.All(plan.After.Wiring.Switches, selector =>
        {
            Feeder[] switched = [.. plan.After.Wiring.Feeders.Where(feeder => feeder.When?.Owner == selector.Name)];
            Layout part = PlanPart.Of(plan, [selector.Name.Name]);
            Assert.Equal([selector], part.Wiring.Switches);
            Assert.Equal(switched, part.Wiring.Feeders);
            Assert.Equal(plan.After.Wiring.Gaps.Length, part.Wiring.Gaps.Length);
            Assert.Equal(LayoutFile.Write(part), LayoutFile.Write(document.WithAdded(part).Reading.Layout!));
            Assert.All(switched, feeder => Assert.Equal(LayoutFile.Write(part), LayoutFile.Write(PlanPart.Of(plan, [feeder.Name]))));
        });
    }

    [Fact]
    public void Every_kind_of_proposal_has_words_of_its_own()
    {
        string[] words = [.. Enum.GetValues<ProposalKind>().Select(kind => kind.Heading())];
        Assert.Equal(words.Length, words.Distinct().Count());
    }

    private const string Cabs = """
        wireup: 1
        name: Cabs
        scale: OO
        control: direct
        longest-train: 900 mm
        track:
          a: { length: 3 m }
          b: { length: 3 m }
          T1: { turnout: left, number: 6 }
          T2: { turnout: right, number: 6 }
          main: { length: 2.4 m }
          loop: { length: 2.4 m }
        joined:
          - T1.through > main > T2.through
          - T1.diverging > loop > T2.diverging
          - T2.points > a > b > T1.points
        stock: { locomotives: { tank: { running: 0.3 A, stopped: 0 A, count: 2 } } }
        wiring: { boosters: { left: { volts: 12 V, amps: 1.5 A }, right: { volts: 12 V, amps: 1.5 A } } }
        wishes: { blocks: { rails: both } }
        """;
}
