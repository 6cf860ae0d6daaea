using System.Globalization;
using System.Xml;

namespace WireUp.Web.Drafting;

/// <summary>
/// What an SVG drawing says of its size: its width and height where both are lengths, else its view box. Source: W3C, Scalable Vector Graphics (SVG) 2,
/// 2018, sections 5.2 and 8.2; lengths by CSS Values and Units level 3, section 6.2. A document type is passed over, so that no entity of it can multiply.
/// </summary>
internal static class SvgHead
{
    /// <summary>A drawing has no points: its longer side counts as so many, which keeps the shape to a seven thousandth.</summary>
    private const int LongerSide = 7000;

    private static readonly (string Unit, double Points)[] Units = [("px", 1), ("mm", 96 / 25.4), ("cm", 96 / 2.54), ("in", 96), ("pt", 96 / 72.0), ("pc", 16), ("", 1)];

    /// <summary>Looks at a file; null where it is no SVG drawing, broken, or says nothing of its size.</summary>
    public static PictureHead? Of(ReadOnlySpan<byte> bytes)
    {
        if (!bytes[..Math.Min(bytes.Length, 1024)].Contains((byte)'<')) return null;
        XmlReaderSettings careful = new() { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null };
        try
        {
            using MemoryStream stream = new(bytes.ToArray());
            using XmlReader xml = XmlReader.Create(stream, careful);
            if (xml.MoveToContent() != XmlNodeType.Element || xml.LocalName != "svg" || xml.NamespaceURI != "http://www.w3.org/2000/svg") return null;
            (double Width, double Height)? size = Lengths(xml) ?? ViewBox(xml);
            while (xml.Read())
            {
                // To the end: what is not well formed would be shown as nothing.
            }

            return size is ( > 0, > 0) and var (width, height) ? Head(width, height) : null;
        }
        catch (XmlException)
        {
            return null;
        }
    }

    private static PictureHead Head(double width, double height)
    {
        double scale = LongerSide / Math.Max(width, height);
        return new("svg", "image/svg+xml", (int)Math.Round(width * scale), (int)Math.Round(height * scale));
    }

    private static (double Width, double Height)? Lengths(XmlReader xml) =>
        Length(xml.GetAttribute("width")) is { } width && Length(xml.GetAttribute("height")) is { } height ? (width, height) : null;

    private static (double Width, double Height)? ViewBox(XmlReader xml) =>
        xml.GetAttribute("viewBox")?.Split([' ', ',', '\t', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries) is [_, _, var width, var height]
        && Number(width) is { } across && Number(height) is { } down
            ? (across, down)
            : null;

    private static double? Length(string? text)
    {
        if (text?.Trim() is not { Length: > 0 } words) return null;
        (string unit, double points) = Units.FirstOrDefault(row => words.EndsWith(row.Unit, StringComparison.Ordinal));
        return Number(words[..^unit.Length]) * points;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) && number is > 0 and < 1e7 ? number : null;
}
