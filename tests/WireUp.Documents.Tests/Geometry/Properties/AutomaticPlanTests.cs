using WireUp.Documents.Geometry;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Geometry.Properties;

/// <summary>What makes the automatic plan of every sample readable.</summary>
public class AutomaticPlanTests
{
    public static TheoryData<string> Samples => [.. RepoFiles.SampleLayouts.Select(file => Path.GetFileName(file))];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Tracks_cross_nowhere_but_at_crossings(string sample)
    {
        PlanMeasures measures = Measure(sample);
        Assert.Equal(0, measures.Crossings);
        Assert.Equal(0, measures.SelfCrossings);
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Tracks_keep_apart_and_joined_ends_meet(string sample)
    {
        PlanMeasures measures = Measure(sample);
        Assert.True(measures.NearestTracks >= 0.95, $"nearest tracks {measures.NearestTracks} spacings");
        Assert.True(measures.WidestHole < 0.01, $"widest hole {measures.WidestHole} spacings");
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void Curves_are_smooth_and_lengths_roughly_kept(string sample)
    {
        PlanMeasures measures = Measure(sample);
        Assert.True(measures.SharpestKink < 20, $"sharpest kink {measures.SharpestKink} degrees");
        Assert.True(measures.SharpestJoint < 15, $"sharpest joint {measures.SharpestJoint} degrees");
        Assert.True(measures.LengthRatios.Spread < 4.5, $"length spread {measures.LengthRatios.Spread}");
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_diverging_leg_leaves_to_the_side_of_its_hand(string sample)
    {
        Layout layout = Read(sample);
        PlanGeometry plan = PlanGeometry.Of(layout, TestContext.Current.CancellationToken);
        foreach (Piece.Turnout turnout in layout.Track.OfType<Piece.Turnout>())
        {
            PlanPose left = plan.EndAt(turnout.End(turnout.LeftLeg)), right = plan.EndAt(turnout.End(turnout.RightLeg));
            PlanPose points = plan.EndAt(turnout.End("points")).Reversed;
            double Side(PlanPose leg) =>
                (points.DirectionX * (leg.At.Y - points.At.Y)) - (points.DirectionY * (leg.At.X - points.At.X));
            Assert.True(Side(left) > Side(right), $"{turnout.Id}: left leg {Side(left)}, right leg {Side(right)}");
        }
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void The_same_layout_is_drawn_the_same_to_the_last_digit(string sample)
    {
        PlanGeometry first = PlanGeometry.Of(Read(sample), TestContext.Current.CancellationToken);
        PlanGeometry second = PlanGeometry.Of(Read(sample), TestContext.Current.CancellationToken);
        Assert.Equal(first.Lines.SelectMany(line => line.Points), second.Lines.SelectMany(line => line.Points));
    }

    private static PlanMeasures Measure(string sample)
    {
        Layout layout = Read(sample);
        return new(layout, PlanGeometry.Of(layout, TestContext.Current.CancellationToken));
    }

    private static Layout Read(string sample) =>
        LayoutFile.Read(RepoFiles.ReadText($"sample-layouts/{sample}"), sample).Layout!;
}
