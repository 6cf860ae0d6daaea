namespace WireUp.Checking.Tests.Exact;

public sealed class CheckerTests
{
    private static IEnumerable<string> Codes(PlanBuilder plan) => Checks.Of(plan).Select(finding => finding.Code);

    [Fact]
    public void Balloon_loop_without_gaps_is_reported_once()
    {
        Finding finding = Assert.Single(Checks.Of(Plans.Balloon().Feed("d", "spur@1"), "WU3003"));
        Assert.Equal(
            "Walking 2 m along the track from \"T1.through\" to \"T1.diverging\" brings the left rail back as the right one, a standing short as soon as it is fed.",
            finding.Message);
        Assert.Equal(["T1", "loop"], finding.Places.Order());
    }

    [Fact]
    public void Findings_stand_in_order_of_code()
    {
        List<string> codes = [.. Codes(Plans.Balloon())];
        Assert.Equal(codes.Order(StringComparer.Ordinal), codes);
        Assert.Contains("WU3010", codes);
    }

    [Fact]
    public void Limits_of_shorted_track_are_not_judged_and_that_is_said()
    {
        List<string> codes = [.. Codes(Plans.Balloon().Feed("d", "spur@1"))];
        Assert.Contains("WU4010", codes);
        Assert.DoesNotContain("WU4001", codes);
    }
}
