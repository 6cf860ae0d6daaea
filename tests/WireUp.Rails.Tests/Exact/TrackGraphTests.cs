using WireUp.Layouts;

namespace WireUp.Rails.Tests.Exact;

public sealed class TrackGraphTests
{
    private static TrackEnd End(string name) => new(new(name.Split('.')[0]), name.Split('.')[1]);

    private static TrackGraph Of(PlanBuilder plan) => TrackGraph.Of(plan.Index());

    [Fact]
    public void Train_drives_round_a_balloon_loop_and_comes_back_through_the_points()
    {
        DrivePath drive = Of(Plans.Balloon()).ShortestDrive(End("T1.points"), End("T1.points"))!;
        Assert.Equal(2, drive.LengthMetres, 1e-12);
        Assert.Equal(0, drive.Reversals);
        Assert.Equal("T1.points", drive.Ends[0].ToString());
        Assert.Equal("T1.points", drive.Ends[^1].ToString());
    }

    [Fact]
    public void Train_does_not_pass_from_leg_to_leg_without_a_change_of_direction()
    {
        TrackGraph graph = Of(Plans.Wye());
        Assert.Null(graph.ShortestDrive(End("T3.right"), End("T3.left"), new() { Within = PlanBuilder.Set("T3 tail") }));
        DrivePath drive = graph.ShortestDrive(
            End("T3.right"), End("T3.left"), new() { Within = PlanBuilder.Set("T3 tail"), ReversalMetres = 0.5 })!;
        Assert.Equal(1, drive.Reversals);
        Assert.Equal(0.5, drive.LengthMetres, 1e-12);
    }

    [Fact]
    public void Drive_stays_within_the_pieces_it_is_given() =>
        Assert.Null(Of(Plans.OvalWithSiding()).ShortestDrive(End("main.a"), End("ring.b"), new() { Within = PlanBuilder.Set("main ring") }));

    [Fact]
    public void Drive_names_the_positions_it_needs()
    {
        DrivePath drive = Of(Plans.OvalWithSiding()).ShortestDrive(End("T1.points"), End("T2.points"), new() { LengthOf = id => id.Name == "main" ? 9 : null })!;
        Assert.Equal("T1=diverging T2=diverging", string.Join(' ', drive.Turnouts.Select(pair => $"{pair.Key}={pair.Value}")));
    }

    [Fact]
    public void Parts_of_the_railway_that_are_not_joined_up_are_told_apart()
    {
        var parts = Of(Plans.Balloon().Sections("shelf lone").Chain("shelf > lone")).Components();
        Assert.Equal(2, parts.Length);
        Assert.Equal(["T1", "spur", "loop"], parts[0].Select(piece => piece.Name));
    }

    [Fact]
    public void Spanning_tree_reaches_every_end_and_leaves_out_the_longest_way_round()
    {
        TrackGraph graph = Of(new PlanBuilder().Turnouts("T1").Turnouts("T2", TurnoutHand.Left).Sections("short", 1).Sections("long", 3)
            .Chain("T1.through > short > T2.through").Chain("T1.diverging > long > T2.diverging"));
        var tree = graph.SpanningTree();
        Assert.Equal(9, tree.Length); // ten ends
        Assert.Equal(1, tree.Sum(line => line.LengthMetres), 1e-12);
    }
}
