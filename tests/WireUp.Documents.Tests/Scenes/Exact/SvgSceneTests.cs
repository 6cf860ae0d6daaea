using System.Xml.Linq;

namespace WireUp.Documents.Tests.Scenes.Exact;

public sealed class SvgSceneTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> HostileNames => SceneSamples.HostileNames;

    [Theory]
    [MemberData(nameof(HostileNames))]
    public void A_hostile_name_stays_text(string name)
    {
        XElement root = XElement.Parse(SvgScene.Write(SceneSamples.Named(name)));

        string shown = SceneText.Clean(name);
        Assert.Equal(shown, root.Descendants(Svg + "text").Single().Value);
        Assert.Equal(3, root.Descendants().Count(element => (string?)element.Attribute("data-of") == shown));
        string[] known = ["svg", "title", "rect", "g", "path", "circle", "text"];
        Assert.All(root.DescendantsAndSelf(), element => Assert.Contains(element.Name.LocalName, known));
    }

    [Fact]
    public void Sizes_are_millimetres()
    {
        XElement root = XElement.Parse(SvgScene.Write(SceneSamples.Named("x")));

        Assert.Equal("60mm", (string?)root.Attribute("width"));
        Assert.Equal("0 0 60 40", (string?)root.Attribute("viewBox"));
        Assert.Equal("M5 5L55 5L50 20Z", (string?)root.Descendants(Svg + "path").Single().Attribute("d"));
    }

    [Fact]
    public void A_name_with_a_mark_that_turns_the_reading_direction_loses_the_mark() =>
        Assert.Equal("\uFFFDgnp.exe", SceneText.Clean("\u202Egnp.exe"));
}
