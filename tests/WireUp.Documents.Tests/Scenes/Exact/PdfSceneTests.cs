using UglyToad.PdfPig;

namespace WireUp.Documents.Tests.Scenes.Exact;

public sealed class PdfSceneTests
{
    public static TheoryData<string> HostileNames => SceneSamples.HostileNames;

    [Theory]
    [InlineData("Feeder f12 to T1.diverging")]
    [InlineData("naïve Ω °C ≤ ½ × → mm²")]
    public void Text_can_be_found_again(string name)
    {
        using PdfDocument pdf = PdfDocument.Open(PdfScene.Write(SceneSamples.Named(name)));

        Assert.Contains(name, pdf.GetPage(1).Text, StringComparison.Ordinal);
        Assert.Equal(60 * 72 / 25.4, pdf.GetPage(1).Width, 0.5); // Skia rounds a page to whole points
        Assert.Equal(name, pdf.Information.Title);
    }

    [Theory]
    [MemberData(nameof(HostileNames))]
    public void A_hostile_name_leaves_the_file_readable(string name)
    {
        using PdfDocument pdf = PdfDocument.Open(PdfScene.Write(SceneSamples.Named(name)));
        Assert.Equal(1, pdf.NumberOfPages);
    }

    [Fact]
    public void Each_page_has_the_size_of_its_scene()
    {
        Scene[] pages = [SceneSamples.Named("a"), SceneSamples.Named("b") with { WidthMillimetres = 100 }];

        using PdfDocument pdf = PdfDocument.Open(PdfScene.Write(pages, new()));

        Assert.Equal([60, 100], pdf.GetPages().Select(page => (int)Math.Round(page.Width / 72 * 25.4)));
    }

    [Fact]
    public void The_moment_is_the_given_one()
    {
        DateTime made = new(2031, 5, 6, 7, 8, 9, DateTimeKind.Utc);

        using PdfDocument pdf = PdfDocument.Open(PdfScene.Write([SceneSamples.Named("a")], new() { Made = made }));

        Assert.Contains("20310506070809", pdf.Information.CreationDate, StringComparison.Ordinal);
    }
}
