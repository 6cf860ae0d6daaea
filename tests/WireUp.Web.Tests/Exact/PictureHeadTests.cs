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
    [InlineData("<html><script>1</script></html>")]
    [InlineData("")]
    public void Anything_else_is_no_picture_whatever_its_name(string text) => Assert.Null(PictureHead.Of(System.Text.Encoding.ASCII.GetBytes(text)));

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
