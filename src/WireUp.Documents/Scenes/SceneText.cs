using System.Globalization;
using System.Text;
using SkiaSharp;

namespace WireUp.Documents;

/// <summary>Measures text in the font that is built into the program, so that no sheet depends on the fonts of a machine.</summary>
public static class SceneText
{
    /// <summary>Height of a line of text over the baseline, as a part of its size.</summary>
    internal const double Ascent = 0.76;

    /// <summary>Depth of a line of text under the baseline, as a part of its size.</summary>
    internal const double Descent = 0.24;

    /// <summary>The font's family name.</summary>
    internal const string Family = "DejaVu Sans";

    private const double MeasuredSize = 100;

    private static readonly SKTypeface RegularFace = Load("DejaVuSans.ttf");
    private static readonly SKTypeface BoldFace = Load("DejaVuSans-Bold.ttf");

    /// <summary>Width of a line of text in millimetres.</summary>
    /// <param name="text">The text, cleaned as <see cref="Clean"/> does.</param>
    /// <param name="sizeMillimetres">Size of the font.</param>
    /// <param name="bold">Whether it is bold.</param>
    public static double Width(string text, double sizeMillimetres, bool bold = false)
    {
        using SKFont font = Font(bold, MeasuredSize);
        return font.MeasureText(Clean(text)) / MeasuredSize * sizeMillimetres;
    }

    /// <summary>The text without what could break a sheet: control characters and marks that turn the reading direction become �.</summary>
    public static string Clean(string text)
    {
        if (!text.EnumerateRunes().Any(IsUnsafe)) return text;
        StringBuilder clean = new(text.Length);
        foreach (Rune rune in text.EnumerateRunes()) clean.Append(IsUnsafe(rune) ? Rune.ReplacementChar : rune);
        return clean.ToString();
    }

    /// <summary>The box that a text fills.</summary>
    internal static SceneBox Box(Shape.Text text)
    {
        double width = Width(text.Content, text.Style.SizeMillimetres, text.Style.Bold);
        double left = text.At.X - text.Style.Align switch { TextAlign.Left => 0, TextAlign.Middle => width / 2, _ => width };
        double size = text.Style.SizeMillimetres;
        return new(left, text.At.Y - (Ascent * size), left + width, text.At.Y + (Descent * size));
    }

    /// <summary>The font at a size. Without hinting, so that it measures the same at every size.</summary>
    internal static SKFont Font(bool bold, double size) => new(bold ? BoldFace : RegularFace, (float)size)
    {
        Hinting = SKFontHinting.None,
        LinearMetrics = true,
        Subpixel = true,
        Edging = SKFontEdging.Antialias,
    };

    private static bool IsUnsafe(Rune rune) => Rune.GetUnicodeCategory(rune) is
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator
        || rune.Value is 0xFFFE or 0xFFFF
        || rune == Rune.ReplacementChar; // also stands for half a surrogate pair

    private static SKTypeface Load(string file)
    {
        using Stream stream = typeof(SceneText).Assembly.GetManifestResourceStream($"fonts/{file}")
            ?? throw new InvalidOperationException($"font {file} is not built in");
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException($"font {file} cannot be read");
    }
}
