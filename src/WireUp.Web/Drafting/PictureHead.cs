using System.Buffers.Binary;
using System.Globalization;
using WireUp.Web.Hosting;

namespace WireUp.Web.Drafting;

/// <summary>
/// What the first bytes of a picture say of it: whether it is a PNG, a JPEG or an SVG drawing, whatever its name says, and how large it is when it is
/// unpacked. Sources: W3C, Portable Network Graphics, third edition 2025, section 11.2.1; ITU-T T.81 (1992), annex B; for SVG see <see cref="SvgHead"/>.
/// </summary>
/// <param name="Ending">The ending of its name.</param>
/// <param name="MediaType">Its type, for the browser.</param>
/// <param name="Width">Points across.</param>
/// <param name="Height">Points down.</param>
public sealed record PictureHead(string Ending, string MediaType, int Width, int Height)
{
    /// <summary>What may be handed in.</summary>
    internal const string Expected = "a PNG, JPEG or SVG picture";

    private static ReadOnlySpan<byte> PngBegin => [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Height over width.</summary>
    public double Ratio => (double)Height / Width;

    /// <summary>Why the page does not take it, one sentence; null where it does.</summary>
    public string? Refusal => Width <= PageLimits.PictureSide && Height <= PageLimits.PictureSide && (long)Width * Height <= PageLimits.PicturePoints
        ? null
        : string.Create(CultureInfo.InvariantCulture, $"The picture has {Width} by {Height} points; at most {PageLimits.PictureSide} a side and {PageLimits.PicturePoints / 1_000_000} million in all are taken: make it smaller.");

    /// <summary>Looks at a file; null where it is neither, or broken.</summary>
    internal static PictureHead? Of(ReadOnlySpan<byte> bytes)
    {
        PictureHead? head = bytes.StartsWith(PngBegin) ? OfPng(bytes) : bytes.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]) ? OfJpeg(bytes) : SvgHead.Of(bytes);
        return head is { Width: > 0, Height: > 0 } ? head : null;
    }

    // Behind the signature comes the header chunk: length, name, width, height.
    private static PictureHead? OfPng(ReadOnlySpan<byte> bytes) => bytes.Length >= 33 && bytes.Slice(12, 4).SequenceEqual("IHDR"u8)
        ? new("png", "image/png", BinaryPrimitives.ReadInt32BigEndian(bytes[16..]), BinaryPrimitives.ReadInt32BigEndian(bytes[20..]))
        : null;

    // Segments follow each other until the one that begins the frame: marker, length, precision, height, width.
    private static PictureHead? OfJpeg(ReadOnlySpan<byte> bytes)
    {
        int at = 2;
        while (at + 9 < bytes.Length && bytes[at] == 0xFF)
        {
            byte marker = bytes[at + 1];
            if (marker == 0xFF)
            {
                at++;
                continue;
            }

            if (IsFrame(marker))
            {
                return new("jpg", "image/jpeg", BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 7)..]), BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 5)..]));
            }

            bool isAlone = marker is 0x01 or (>= 0xD0 and <= 0xD9);
            at += 2 + (isAlone ? 0 : Math.Max(2, (int)BinaryPrimitives.ReadUInt16BigEndian(bytes[(at + 2)..])));
        }

        return null;
    }

    // C4, C8 and CC among them mean something else.
    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);
}
