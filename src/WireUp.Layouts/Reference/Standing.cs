namespace WireUp.Layouts.Reference;

/// <summary>How well a reference value is founded. Every row of the reference tables carries one of these.</summary>
public enum Standing
{
    /// <summary>Printed in a standard, a handbook or a page that the source names.</summary>
    Published,

    /// <summary>Used throughout the trade; no published authority was found.</summary>
    CommonPractice,

    /// <summary>Worked out from other rows or from an assumption that the source states.</summary>
    Derived,

    /// <summary>Remembered from a standard that could not be read again: to be checked before anything hangs on it.</summary>
    FromMemory,
}

/// <summary>Words of <see cref="Standing"/>.</summary>
public static class Standings
{
    /// <summary>The word of the reference tables: <c>published</c>, <c>common-practice</c>, <c>derived</c>, <c>from-memory</c>.</summary>
    public static string Word(this Standing standing) => standing switch
    {
        Standing.Published => "published",
        Standing.CommonPractice => "common-practice",
        Standing.Derived => "derived",
        Standing.FromMemory => "from-memory",
        _ => throw new ArgumentOutOfRangeException(nameof(standing), standing, "not a standing"),
    };

    internal static Standing Parse(string word) => word switch
    {
        "published" => Standing.Published,
        "common-practice" => Standing.CommonPractice,
        "derived" => Standing.Derived,
        "from-memory" => Standing.FromMemory,
        _ => throw new FormatException($"'{word}' is no standing"),
    };
}

/// <summary>One number of the reference tables with what is known of it.</summary>
/// <param name="Name">Its name in the table.</param>
/// <param name="Value">The number, in <paramref name="Unit"/>.</param>
/// <param name="Unit">The unit as the table writes it; <c>1</c> for a plain ratio.</param>
/// <param name="Standing">How well it is founded.</param>
/// <param name="Source">Where it comes from.</param>
public sealed record ReferenceValue(string Name, double Value, string Unit, Standing Standing, string Source);
