namespace WireUp.Documents.Tests.Drawings.Exact;

public sealed class MirrorTests
{
    private static readonly Scene Above = TestDrawing.Draw(TestLayouts.Balloon, new());
    private static readonly Scene Below = TestDrawing.Draw(TestLayouts.Balloon, new() { View = DrawingView.Below });

    [Fact]
    public void From_below_every_rail_is_turned_about_an_upright_axis_and_nothing_else()
    {
        (string Id, ScenePoint At)[] above = [.. Rails(Above)], below = [.. Rails(Below)];

        Assert.Equal(above.Select(rail => rail.Id), below.Select(rail => rail.Id));
        double axis = above[0].At.X + below[0].At.X;
        Assert.All(above.Zip(below), pair =>
        {
            Assert.Equal(axis, pair.First.At.X + pair.Second.At.X, 1e-6);
            Assert.Equal(pair.First.At.Y, pair.Second.At.Y, 1e-6);
        });
    }

    [Fact]
    public void The_left_rail_lies_to_the_left_from_above_and_to_the_right_from_below()
    {
        // The spur runs from a to b from left to right on the plan, so from right to left when seen from below.
        Assert.True(Heading(Above) > 0);
        Assert.True(Heading(Below) < 0);
        Assert.True(LeftOf(Above) > 0);
        Assert.True(LeftOf(Below) < 0);

        static double Heading(Scene scene) => Rail(scene, "spur/left")[^1].X - Rail(scene, "spur/left")[0].X;

        // Positive when the left rail is to the left of somebody who walks from a to b on the paper.
        static double LeftOf(Scene scene) => Math.Sign(Heading(scene)) * (Rail(scene, "spur/right")[0].Y - Rail(scene, "spur/left")[0].Y);
    }

    [Fact]
    public void Rail_A_is_the_left_rail_of_the_spur_in_both_views()
    {
        foreach (Scene scene in new[] { Above, Below })
        {
            Assert.Equal((SceneColours.Blue, DashKind.Solid), Look("spur/left"));
            Assert.Equal((SceneColours.Vermilion, DashKind.Long), Look("spur/right"));

            (SceneColour?, DashKind) Look(string id)
            {
                Shape.Line rail = scene.Shapes.OfType<Shape.Line>().First(line => line.Id == id);
                return (rail.Style.Stroke, rail.Style.Dash);
            }
        }
    }

    [Fact]
    public void Words_are_never_mirrored_and_all_are_there_in_both_views() => Assert.Equal(Words(Above), Words(Below));

    [Fact]
    public void The_frog_lies_between_the_legs_and_the_heel_gap_beyond_it()
    {
        ScenePoint frog = Above.Shapes.OfType<Shape.Circle>().Single(circle => circle.Id == "T1/frog").Centre;
        ScenePoint points = Rail(Above, "spur/left")[^1];
        ScenePoint gap = Above.Shapes.OfType<Shape.Strokes>().First(strokes => strokes.Id == "G1").Points[0];
        Assert.True(points.X < frog.X && frog.X < gap.X);
    }

    private static IEnumerable<string> Words(Scene scene) =>
        scene.Texts.Where(text => text.Layer != "legend").Select(text => text.Content).Order(StringComparer.Ordinal);

    private static IEnumerable<(string Id, ScenePoint At)> Rails(Scene scene) => scene.Shapes.OfType<Shape.Line>()
        .Where(line => line.Layer == "rails").SelectMany(line => line.Points, (line, at) => (line.Id, at));

    private static IReadOnlyList<ScenePoint> Rail(Scene scene, string id) => scene.Shapes.OfType<Shape.Line>().First(line => line.Id == id).Points;
}
