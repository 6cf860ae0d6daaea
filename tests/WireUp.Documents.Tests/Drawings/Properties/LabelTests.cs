using WireUp.Layouts;

namespace WireUp.Documents.Tests.Drawings.Properties;

public sealed class LabelTests
{
    public static TheoryData<string> Drawings =>
    [
        "balloon", "crossover", "tarrow-valley", "balloon-loop", "home-yard", "oval-with-cut-off", "programming-spur", "tarrow-valley-as-built",
        "three-rail", "three-rail-two-controllers", "two-cabs", "wye",
    ];

    [Theory]
    [MemberData(nameof(Drawings))]
    public void Words_cover_neither_words_nor_rails_nor_leave_the_paper(string name)
    {
        foreach (DrawingView view in new[] { DrawingView.Above, DrawingView.Below })
        {
            Scene scene = TestDrawing.Draw(Layout(name), new() { View = view });
            Assert.Empty(SceneMeasures.TextsOnTexts(scene));
            Assert.Empty(SceneMeasures.TextsOnRails(scene));
            Assert.Empty(SceneMeasures.TextsOutside(scene, scene.Bounds));
        }
    }

    [Fact]
    public void The_measure_sees_covered_words_and_rails()
    {
        Shape.Text text = new("names", new(10, 10), "loop", new(3, SceneColours.Ink));
        Shape.Line rail = new("rails", [new(5, 9), new(30, 9)], false, new()) { Id = "loop/left" };
        Scene scene = new(50, 20, [text, text with { At = new(11, 10.5) }, rail]);
        Assert.Single(SceneMeasures.TextsOnTexts(scene));
        Assert.Equal(2, SceneMeasures.TextsOnRails(scene).Count());
        Assert.Equal(2, SceneMeasures.TextsOutside(scene, new(0, 0, 12, 20)).Count());
    }

    [Fact]
    public void Drawing_the_same_layout_twice_gives_the_same_scene() => Assert.Equal(
        SvgScene.Write(TestDrawing.Draw(TestLayouts.Sample("tarrow-valley"), new())),
        SvgScene.Write(TestDrawing.Draw(TestLayouts.Sample("tarrow-valley"), new())));

    private static Layout Layout(string name) => name switch
    {
        "balloon" => TestLayouts.Balloon,
        "crossover" => TestLayouts.Crossover,
        _ => TestLayouts.Sample(name),
    };
}
