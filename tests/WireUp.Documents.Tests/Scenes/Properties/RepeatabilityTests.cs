namespace WireUp.Documents.Tests.Scenes.Properties;

public sealed class RepeatabilityTests
{
    [Fact]
    public void The_same_scene_gives_the_same_bytes()
    {
        Scene scene = SceneSamples.Named("Ω <loop> é");
        Assert.Equal(SvgScene.Write(scene), SvgScene.Write(scene));
        Assert.Equal(PngScene.Write(scene), PngScene.Write(scene));
        Assert.Equal(PdfScene.Write(scene), PdfScene.Write(scene));
    }

    [Fact]
    public void Width_grows_in_proportion_to_size() =>
        Assert.Equal(2 * SceneText.Width("T1.diverging", 3), SceneText.Width("T1.diverging", 6), 1e-6);
}
