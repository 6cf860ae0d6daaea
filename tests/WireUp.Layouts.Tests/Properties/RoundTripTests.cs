using CsCheck;
using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Properties;

public sealed class RoundTripTests
{
    private static readonly Gen<Layout> Layouts = Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Int[1, 14], RandomLayout.Make);

    public static TheoryData<string> Samples => [.. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path))];

    [Fact]
    public void A_written_layout_is_read_back_equal() =>
        Layouts.Sample(layout => Assert.Equal(Dump.Of(layout), Dump.Of(Read(LayoutFile.Write(layout)))), iter: 200, threads: 1);

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_written_anew_is_read_back_equal(string sample)
    {
        Layout layout = Read(RepoFiles.ReadText($"sample-layouts/{sample}"));
        Assert.Equal(Dump.Of(layout), Dump.Of(Read(LayoutFile.Write(layout))));
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_document_keeps_the_text_it_was_opened_with(string sample)
    {
        string text = RepoFiles.ReadText($"sample-layouts/{sample}");
        LayoutDocument document = LayoutDocument.Open(text, sample);
        Assert.Same(text, document.Text);
        Assert.Equal(text, document.WithAdded(document.Reading.Layout!).Text);
    }

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.True(reading.Layout is not null, string.Join('\n', reading.Problems) + "\n" + text);
        return reading.Layout;
    }
}
