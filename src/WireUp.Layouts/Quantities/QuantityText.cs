using System.Globalization;

namespace WireUp.Layouts.Quantities;

/// <summary>Why a text is no quantity.</summary>
internal enum QuantityFault
{
    /// <summary>It is one.</summary>
    None,

    /// <summary>It does not begin with a number, or goes on after the unit.</summary>
    NotNumber,

    /// <summary>The unit is missing.</summary>
    NoUnit,

    /// <summary>The unit is none of this kind.</summary>
    WrongUnit,
}

/// <summary>A number with the unit behind it; the unit is empty when none was written.</summary>
internal readonly record struct NumberWithUnit(double Number, string Unit);

/// <summary>Cuts text into numbers and units: <c>7 ft 6 in</c>, <c>3/8 in</c>, <c>1 1/2 in</c>, <c>2.5e-3 ohm</c>.</summary>
internal static class QuantityText
{
    /// <summary>The numbers with their units, or null when the text is not made of such.</summary>
    public static List<NumberWithUnit>? Split(string text)
    {
        List<NumberWithUnit> parts = [];
        ReadOnlySpan<char> rest = text.AsSpan().Trim();
        while (!rest.IsEmpty)
        {
            if (TakeNumber(ref rest) is not { } number)
            {
                return null;
            }

            rest = rest.TrimStart();
            parts.Add(new(number, TakeUnit(ref rest)));
            rest = rest.TrimStart();
        }

        return parts.Count == 0 ? null : parts;
    }

    /// <summary>A plain number without a unit, or null.</summary>
    public static double? Number(string text) => Split(text) is [{ Unit: "" } only] ? only.Number : null;

    private static double? TakeNumber(ref ReadOnlySpan<char> rest)
    {
        if (TakeDecimal(ref rest) is not { } whole)
        {
            return null;
        }

        if (!rest.IsEmpty && rest[0] == '/')
        {
            rest = rest[1..];
            return TakeDigits(ref rest) is { } below and > 0 ? whole / below : null;
        }

        // "1 1/2": a whole number, a space, a fraction.
        ReadOnlySpan<char> ahead = rest.TrimStart();
        if (ahead.Length < rest.Length && double.IsInteger(whole) && TakeDigits(ref ahead) is { } above && !ahead.IsEmpty && ahead[0] == '/')
        {
            ahead = ahead[1..];
            if (TakeDigits(ref ahead) is { } below and > 0)
            {
                rest = ahead;
                return double.IsNegative(whole) ? whole - (above / below) : whole + (above / below);
            }

            return null;
        }

        return whole;
    }

    private static double? TakeDigits(ref ReadOnlySpan<char> rest)
    {
        int length = CountDigits(rest, 0);
        double? value = length == 0 ? null : double.Parse(rest[..length], NumberStyles.None, CultureInfo.InvariantCulture);
        rest = rest[length..];
        return value;
    }

    private static double? TakeDecimal(ref ReadOnlySpan<char> rest)
    {
        int i = rest is ['+' or '-', ..] ? 1 : 0;
        int digits = CountDigits(rest, i);
        i += digits;
        if (i < rest.Length && rest[i] == '.')
        {
            int decimals = CountDigits(rest, i + 1);
            digits += decimals;
            i += 1 + decimals;
        }

        if (digits == 0)
        {
            return null;
        }

        i += ExponentLength(rest, i);
        double value = double.Parse(rest[..i], NumberStyles.Float, CultureInfo.InvariantCulture);
        rest = rest[i..];
        return value;
    }

    private static int ExponentLength(ReadOnlySpan<char> rest, int i)
    {
        if (i >= rest.Length || rest[i] is not ('e' or 'E'))
        {
            return 0;
        }

        int sign = i + 1 < rest.Length && rest[i + 1] is '+' or '-' ? 1 : 0;
        int digits = CountDigits(rest, i + 1 + sign);
        return digits == 0 ? 0 : 1 + sign + digits;
    }

    private static int CountDigits(ReadOnlySpan<char> text, int from)
    {
        int i = from;
        while (i < text.Length && char.IsAsciiDigit(text[i]))
        {
            i++;
        }

        return i - from;
    }

    private static string TakeUnit(ref ReadOnlySpan<char> rest)
    {
        int i = 0;
        while (i < rest.Length && !char.IsWhiteSpace(rest[i]) && rest[i] is not (('+' or '-' or '.' or ',') or (>= '0' and <= '9')))
        {
            if (IsMark(rest[i]))
            {
                i++;
                break;
            }

            i++;
        }

        string unit = rest[..i].ToString();
        rest = rest[i..];
        return unit;
    }

    /// <summary>Foot and inch marks end a unit, so that <c>7'6"</c> is two quantities.</summary>
    private static bool IsMark(char c) => c is '\'' or '"' or '′' or '″';
}
