using System.Collections.Immutable;
using UnitsNet;
using WireUp.Files;
using WireUp.Layouts;

namespace WireUp.Commands;

/// <summary>Breakers on hand as typed: the currents at which they trip, separated by commas.</summary>
internal static class BreakerArguments
{
    /// <summary>Reads them.</summary>
    /// <param name="option">The option they stand behind.</param>
    /// <param name="typed">What was typed, or null.</param>
    /// <exception cref="InputRefused">A current cannot be read or is 0.</exception>
    public static ImmutableArray<ElectricCurrent> Read(string option, string? typed) => typed is null ? [] : [.. typed.Split(',').Select(one =>
    {
        WordsRead<ElectricCurrent> read = LayoutWords.Current(one.Trim());
        return read.Value is { Amperes: > 0 } trip
            ? trip
            : throw new InputRefused($"{option}: breaker '{one.Trim()}': {(read.Value is null ? read.Trouble : "expected a current above 0")}");
    })];
}
