using SkiaSharp;
using WireUp.Web.Drafting;

namespace WireUp.Web.Tests.Exact;

public sealed class PictureHeadTests
{
    [Theory]
    [InlineData(SKEncodedImageFormat.Png, "image/png")]
    [InlineData(SKEncodedImageFormat.Jpeg, "image/jpeg")]
    public void The_kind_and_the_size_are_read_from_the_first_bytes(SKEncodedImageFormat format, string type)
    {
        byte[] bytes = Encoded(format);
        PictureHead head = PictureHead.Of(bytes)!;
        Assert.Equal((type, 37, 21), (head.MediaType, head.Width, head.Height));
        Assert.Null(head.Refusal);
        Assert.All(Enumerable.Range(0, bytes.Length), length => Assert.True(PictureHead.Of(bytes.AsSpan(0, length)) is null or { Width: 37, Height: 21 }));
    }

    [Theory]
    [InlineData("GIF89a and more")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'/>")]
    [InlineData("<svg width='20' height='10'/>")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='20' height='10'>")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' width='20' height='-10'/>")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 1e999 10'/>")]
    [InlineData("<!DOCTYPE svg [<!ENTITY a 'b'>]><svg xmlns='http://www.w3.org/2000/svg' width='20' height='10'>&a;</svg>")]
    [InlineData("<html><script>1</script></html>")]
    [InlineData("")]
    public void Anything_else_is_no_picture_whatever_its_name(string text) => Assert.Null(PictureHead.Of(System.Text.Encoding.ASCII.GetBytes(text)));

    [Theory]
    [InlineData("width='200mm' height='10cm'", 0.5)]
    [InlineData("width='2in' height='72pt'", 0.5)]
    [InlineData("width='300' height='100px' viewBox='0 0 7 9'", 1 / 3.0)]
    [InlineData("width='100%' height='100%' viewBox='0,0, 40 10'", 0.25)]
    [InlineData("viewBox='-5 -5 10 20'", 2)]
    public void A_drawing_in_svg_has_the_shape_that_its_lengths_or_its_view_box_say(string size, double ratio)
    {
        PictureHead head = PictureHead.Of(System.Text.Encoding.UTF8.GetBytes($"\uFEFF<?xml version='1.0'?>\n<!-- a plan -->\n<svg xmlns='http://www.w3.org/2000/svg' {size}><g/></svg>"))!;
        Assert.Equal(("svg", "image/svg+xml"), (head.Ending, head.MediaType));
        Assert.Equal(ratio, head.Ratio, 0.001);
        Assert.Null(head.Refusal);
    }

    [Fact]
    public void A_small_file_that_unpacks_to_a_huge_picture_is_refused()
    {
        byte[] bytes = Encoded(SKEncodedImageFormat.Png);
        (bytes[16], bytes[17], bytes[18], bytes[19]) = (0, 1, 0, 0);
        Assert.Contains("65536 by 21", PictureHead.Of(bytes)!.Refusal, StringComparison.Ordinal);
    }

    private static byte[] Encoded(SKEncodedImageFormat format)
    {
        using SKBitmap bitmap = new(37, 21);
        using SKData data = bitmap.Encode(format, 90);
        return data.ToArray();
    }
}
