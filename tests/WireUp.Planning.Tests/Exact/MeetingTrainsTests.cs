using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

public sealed class MeetingTrainsTests
{
    /// <summary>What the planner sizes for trains that meet the check does not find too small, though it knows nothing of the plan.</summary>
    [Theory]
    [MemberData(nameof(Plans.SoundSamples), MemberType = typeof(Plans))]
    public void Breakers_and_boosters_of_a_plan_bear_the_trains_that_meet(string sample)
    {
        PlanResult plan = Plans.Of(sample);
        if (MeetingLoads.Of(plan.After, plan.Power) is not { } meeting)
        {
            Assert.Equal(ControlSystem.Direct, plan.After.Control);
            return;
        }

        Assert.DoesNotContain(plan.Findings, finding => finding.Code == "WU4005" && finding.Message.StartsWith("Trains that meet", StringComparison.Ordinal));
        Assert.All(plan.Power.Districts, district => Assert.True(
            meeting.OfDistrict(district.District) is not { } met || met <= district.Trip + MeetingLoads.Step, district.District));
    }
}
