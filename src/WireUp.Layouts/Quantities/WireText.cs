using System.Globalization;

namespace WireUp.Layouts.Quantities;

/// <summary>Wires as text: <c>12 AWG</c>, <c>2/0 AWG</c>, <c>2.5 mm2</c>, <c>14 AWG stranded</c>, <c>1.5 mm2 solid</c>.</summary>
internal static class WireText
{
    public const string Example = "12 AWG or 2.5 mm2";

    /// <summary>How a wire is made, said behind its size.</summary>
    public const string Stranded = "stranded", Solid = "solid";

    private static readonly string[] Makes = [Stranded, Solid];

    /// <summary>Smallest and largest gauge number; -3 is written 4/0.</summary>
    public const int ThickestGauge = -3, ThinnestGauge = 40;

    /// <summary>Range of metric cross-sections in mm².</summary>
    public const double ThinnestArea = 0.05, ThickestArea = 120;

    /// <summary>The wire, or null with the reason.</summary>
    public static Wire? TryRead(string text, out QuantityFault fault, out bool outOfRange)
    {
        (fault, outOfRange) = (QuantityFault.None, false);
        string trimmed = text.Trim();
        string make = Makes.FirstOrDefault(word => trimmed.EndsWith($" {word}", StringComparison.Ordinal), "");
        (string number, string unit) = SplitUnit(trimmed[..^make.Length].TrimEnd());
        switch (unit)
        {
            case "AWG" or "awg":
                int? gauge = Gauge(number);
                fault = gauge is null ? QuantityFault.NotNumber : QuantityFault.None;
                outOfRange = gauge is < ThickestGauge or > ThinnestGauge;
                return gauge is null || outOfRange ? null : new Wire.Awg(gauge.Value) { Stranded = make == Stranded };
            case "mm2" or "mm²":
                double? area = QuantityText.Number(number);
                fault = area is null ? QuantityFault.NotNumber : QuantityFault.None;
                outOfRange = area is not null and not (>= ThinnestArea and <= ThickestArea);
                return area is null || outOfRange ? null : new Wire.Metric(area.Value) { Solid = make == Solid };
            default:
                fault = QuantityText.Split(text) is null ? QuantityFault.NotNumber : unit.Length == 0 ? QuantityFault.NoUnit : QuantityFault.WrongUnit;
                return null;
        }
    }

    private static (string Number, string Unit) SplitUnit(string text)
    {
        int i = text.Length;
        if (text.EndsWith("mm2", StringComparison.Ordinal))
        {
            i -= 3;
        }
        else
        {
            while (i > 0 && (char.IsLetter(text[i - 1]) || text[i - 1] == '²'))
            {
                i--;
            }
        }

        return (text[..i].TrimEnd(), text[i..]);
    }

    private static int? Gauge(string text)
    {
        if (text is [>= '1' and <= '4', '/', '0'])
        {
            return 1 - (text[0] - '0');
        }

        return int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int gauge) ? gauge : null;
    }
}
