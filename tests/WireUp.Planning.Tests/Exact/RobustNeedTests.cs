using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Planning.Tests.TestLayouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Exact;

/// <summary>Which feeders it takes that one failed joiner or feeder leaves no rail dead.</summary>
public sealed class RobustNeedTests
{
    [Fact]
    public void Rails_soldered_together_need_two_feeders_wherever_they_are()
    {
        RobustNeeds needs = new(Track(JointKind.Soldered));
        Assert.Equal([2, 2], needs.Needs.Select(need => need.Feeders));
        Assert.All(needs.Needs, need => Assert.Null(need.Joiner));
        Assert.All(needs.Needs, need => Assert.True(needs.Feeds(new(new("s1"), 0.5), need)));
    }

    [Fact]
    public void A_line_of_rails_on_joiners_needs_one_feeder_in_each_rail_at_either_end()
    {
        RobustNeeds needs = new(Track(JointKind.Joiner));
        Assert.Equal([1, 1, 1, 1], needs.Needs.Select(need => need.Feeders));
        Assert.All(needs.Needs, need => Assert.NotNull(need.Joiner));
        Assert.Equal(2, needs.Needs.Count(need => needs.Feeds(new(new("s0"), 0.5), need)));
        Assert.Equal(2, needs.Needs.Count(need => needs.Feeds(new(new("s2"), 0.5), need)));
        Assert.DoesNotContain(needs.Needs, need => needs.Feeds(new(new("s1"), 0.5), need));
    }

    private static FeedableTrack Track(JointKind kind)
    {
        Layout line = TrackBuilder.Line(3, 1).Build();
        return new(RailGraph.Build(line with { Joints = [.. line.Joints.Select(joint => joint with { Kind = kind })] }), 0.03);
    }
}
