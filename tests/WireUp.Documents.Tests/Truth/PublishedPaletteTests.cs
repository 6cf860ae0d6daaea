using WireUp.Layouts;

namespace WireUp.Documents.Tests.Truth;

/// <summary>Colours, letters and paper that others have published; sources in tests/Truth.md.</summary>
public sealed class PublishedPaletteTests
{
    public static TheoryData<string, SceneColour> OkabeIto => new()
    {
        { "#e69f00", SceneColours.Orange }, { "#56b4e9", SceneColours.SkyBlue }, { "#009e73", SceneColours.Green },
        { "#f0e442", SceneColours.Yellow }, { "#0072b2", SceneColours.Blue }, { "#d55e00", SceneColours.Vermilion },
        { "#cc79a7", SceneColours.Purple },
    };

    [Theory]
    [MemberData(nameof(OkabeIto))]
    public void Hues_are_those_of_Okabe_and_Ito(string published, SceneColour ours) => Assert.Equal(published, ours.ToString());

    [Theory]
    [InlineData("BK", "black")]
    [InlineData("BN", "brown")]
    [InlineData("RD", "red")]
    [InlineData("OG", "orange")]
    [InlineData("YE", "yellow")]
    [InlineData("GN", "green")]
    [InlineData("BU", "blue")]
    [InlineData("VT", "violet")]
    [InlineData("GY", "grey")]
    [InlineData("WH", "white")]
    [InlineData("PK", "pink")]
    [InlineData("GD", "gold")]
    [InlineData("TQ", "turquoise")]
    [InlineData("SR", "silver")]
    public void Colour_letters_are_those_of_IEC_60757(string letters, string colour) => Assert.Equal(colour, ColourLetters.Names[letters]);

    [Fact]
    public void Green_yellow_is_not_offered_for_a_layout_wire() => Assert.DoesNotContain("GNYE", ColourLetters.Names.Keys);

    [Theory]
    [InlineData(ControlSystem.Command, "RD", "BN", "VT")] // digital: plus pulse red, minus pulse brown; everything else violet
    [InlineData(ControlSystem.Direct, "WH", "YE", "VT")] // traction: plus white, minus yellow
    [InlineData(ControlSystem.ThreeRail, "GY", "BK", "VT")] // AC grey, common return black
    public void Colours_follow_NEM_605_until_somebody_chooses(ControlSystem control, string legA, string legB, string frog) =>
        Assert.Equal(new WirePalette(legA, legB, frog), WirePalette.For(control));

    [Fact]
    public void Each_A_size_is_half_the_one_before_cut_across_rounded_down_to_whole_millimetres()
    {
        // ISO 216: A0 is 841 × 1189 mm; the long side is halved, the halves rounded down.
        Sheet expected = new(1189, 841);
        foreach (Sheet sheet in Sheet.Growing.Reverse())
        {
            Assert.Equal(expected, sheet);
            expected = new(sheet.Height, Math.Floor(sheet.Width / 2));
        }

        Assert.Equal(new Sheet(210, 297), Sheet.Of(PaperSize.A4));
        Assert.Equal(8.5 * 25.4, Sheet.Of(PaperSize.Letter).Width, 1e-9);
        Assert.Equal(11 * 25.4, Sheet.Of(PaperSize.Letter).Height, 1e-9);
    }
}
