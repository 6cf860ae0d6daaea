using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Properties;

/// <summary>How near the plan of the club sample is to what no plan can do without.</summary>
public sealed class ClubBoundTests
{
    private const double MostGap = 0.02;

    private static readonly string[] Proved = ["reversing-sections", "reversing-gaps", "districts", "boosters", "bus-copper"];

    [Fact]
    public void All_that_the_plan_of_the_club_counts_is_within_two_parts_in_a_hundred_of_its_bound()
    {
        Objective[] objectives = [.. Plans.Of("tarrow-valley").Objectives];
        Assert.Contains(objectives, objective => objective.Name == "feeders");
        Assert.All(objectives, objective => Assert.InRange(objective.Bound, (1 - MostGap) * objective.Value, objective.Value));
        Assert.All(Proved, name => Assert.Single(objectives, objective => objective.Name == name && objective.IsOptimal));
    }
}
