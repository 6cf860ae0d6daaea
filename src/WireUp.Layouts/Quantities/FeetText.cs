using static System.FormattableString;

namespace WireUp.Layouts.Quantities;

/// <summary>Writes lengths in feet and inches: <c>7 ft 6 in</c>, <c>1 ft 3 5/8 in</c>, <c>1/2 in</c>.</summary>
internal static class FeetText
{
    /// <summary>Metres in an inch. Source: the international inch of 1959, 25.4 mm by definition.</summary>
    private const double MetresPerInch = 0.0254;

    private const int PartsPerInch = 16, InchesPerFoot = 12;

    /// <summary>To a sixteenth of an inch.</summary>
    public static string Finest(double metres) => Write(metres, 1);

    /// <summary>To an eighth of an inch.</summary>
    public static string Fine(double metres) => Write(metres, PartsPerInch / 8);

    /// <summary>To an eighth of an inch below two feet, else to the inch.</summary>
    public static string Rough(double metres) => IsLong(metres) ? Write(metres, PartsPerInch) : Fine(metres);

    /// <summary>To half an inch below two feet, else to the inch.</summary>
    public static string Coarse(double metres) => Write(metres, IsLong(metres) ? PartsPerInch : PartsPerInch / 2);

    private static bool IsLong(double metres) => Math.Abs(metres) >= 2 * InchesPerFoot * MetresPerInch;

    private static string Write(double metres, int step)
    {
        long parts = step * (long)Math.Round(Math.Abs(metres) / MetresPerInch * PartsPerInch / step, MidpointRounding.AwayFromZero);
        (long feet, long rest) = Math.DivRem(parts, InchesPerFoot * PartsPerInch);
        string text = feet == 0 ? Inches(rest) : rest == 0 ? Invariant($"{feet} ft") : Invariant($"{feet} ft {Inches(rest)}");
        return metres < 0 && parts > 0 ? $"-{text}" : text;
    }

    private static string Inches(long parts)
    {
        (long whole, long part) = Math.DivRem(parts, PartsPerInch);
        long divisor = long.Max(1, part & -part);
        string fraction = Invariant($"{part / divisor}/{PartsPerInch / divisor}");
        return part == 0 ? Invariant($"{whole} in") : whole == 0 ? $"{fraction} in" : Invariant($"{whole} {fraction} in");
    }
}
