using System.Globalization;

namespace WireUp.Layouts.Tracing.Svg;

/// <summary>Lengths of SVG in its own units of 1/96 inch. Source: CSS Values and Units Module Level 3, W3C, section 6.2.</summary>
internal static class SvgLength
{
    /// <summary>A px in metres: 96 of them are an inch.</summary>
    public const double PixelMetres = 0.0254 / 96;

    /// <summary>A length in units and whether it has a unit of paper; null where it cannot be read, as of a percentage.</summary>
    public static (double Units, bool OnPaper)? Parse(string? text)
    {
        string trimmed = (text ?? "").Trim();
        string number = trimmed.TrimEnd([.. "abcdefghijklmnopqrstuvwxyz%"]);
        // An exponent ends in a digit, so that nothing of it is taken for a unit.
        if (!double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) || !double.IsFinite(value))
        {
            return null;
        }

        return trimmed[number.Length..] switch
        {
            "" or "px" => (value, false),
            "mm" => (value * 96 / 25.4, true),
            "cm" => (value * 96 / 2.54, true),
            "in" => (value * 96, true),
            "pt" => (value * 96 / 72, true),
            "pc" => (value * 16, true),
            _ => null,
        };
    }
}
