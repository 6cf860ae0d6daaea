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
        string typed = $"{option}: breaker '{one.Trim()}'";
        ElectricCurrent trip = Common.Value(LayoutWords.Current(one.Trim()), typed);
        return trip.Amperes > 0 ? trip : throw new InputRefused($"{typed}: expected a current above 0");
    })];
}
