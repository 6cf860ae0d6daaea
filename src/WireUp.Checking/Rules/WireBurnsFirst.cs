using System.Collections.Immutable;
using WireUp.Circuits.Devices;

namespace WireUp.Checking.Rules;

/// <summary>A wire that a short brings to its short-time limit before the breaker opens.</summary>
internal sealed class WireBurnsFirst : Rule
{
    internal override FindingDescriptor Descriptor { get; } = new(
        "WU4013", Severity.Warning, "A short overheats a wire before its breaker opens",
        "IEC 60364-4-43 and BS 7671, k = 115 for copper in PVC (figures from memory)");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (DistrictProtection district in context.Protection.Districts)
        {
            foreach (IGrouping<(bool IsFeeder, Layouts.Wire Wire), WireStress> kind in district.Wires
                .Where(wire => !wire.Passes)
                .GroupBy(wire => (wire.IsFeeder, wire.Wire)))
            {
                WireStress worst = kind.MinBy(wire => wire.Allowed / wire.Clears)!;
                ImmutableArray<string> names = [.. kind.Select(wire => wire.Name).Distinct()];
                string head = $"{(kind.Key.IsFeeder ? "Feeder" : "Bus run")}{(names.Length == 1 ? "" : "s")} {Words.List(names)}";
                yield return Say(
                    $"{head} of district {Words.Quote(district.District)}, {kind.Key.Wire}, can be at the limit of short-time heating after {Words.Say(worst.Allowed)}, when a short draws {Words.Say(worst.Current)}, and the breaker opens after {Words.Say(worst.Clears)}.",
                    $"Use thicker wire there, or set the breaker to {Words.Say(worst.Allowed)} or less.",
                    names);
            }
        }
    }
}
