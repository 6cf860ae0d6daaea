using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

public sealed class LiftOutTests
{
    [Theory]
    [InlineData("in", "in", true)]
    [InlineData("in", "out", false)]
    [InlineData("out", "in", false)]
    [InlineData("out", "out", false)]
    public void Two_lift_out_sections_in_a_row_conduct_only_when_both_are_in(string one, string other, bool conducts)
    {
        RailGraph graph = new PlanBuilder().Sections("west east").LiftOut("L1").LiftOut("L2")
            .Chain("west > L1 > L2 > east").Feed("d", "west@1").Graph();
        var legs = Polarity.LegsIn(graph, new Dictionary<PieceId, string> { [new("L1")] = one, [new("L2")] = other });
        Station east = graph.Stations(new("east"))[0];
        Assert.Equal((conducts, conducts), (legs[east.FirstTowardsA].Contains("d/A"), legs[east.SecondTowardsA].Contains("d/B")));
    }
}
