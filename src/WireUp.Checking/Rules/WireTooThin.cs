using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Checking.Rules;

/// <summary>
/// A wire that its breaker lets carry more than it can for good: 6 A/mm² for wires that lie together, 10 A/mm² for a feeder of at most
/// 300 mm. Whatever the wire is, what stands before it must trip first.
/// </summary>
internal sealed class WireTooThin : Rule
{
    internal override FindingDescriptor Descriptor { get; } =
        Describe.Practice("WU4004", Severity.Warning, "A wire is thinner than its breaker allows");

    internal override IEnumerable<Finding> Check(CheckContext context)
    {
        foreach (District district in context.Wiring.Districts)
        {
            ImmutableArray<Strand> strands = [.. Strands(context.Wiring, district.Name)];
            foreach (IGrouping<Strand, Strand> kind in strands
                .Where(strand => Limit.IsBelow(strand.MostAmps, district.Trip.Amperes))
                .GroupBy(strand => strand with { Name = "" }))
            {
                ImmutableArray<string> names = [.. kind.Select(strand => strand.Name).Distinct()];
                yield return Say(
                    $"{Head(kind.Key.IsFeeder, names)} of district {Words.Quote(district.Name)}, {kind.Key.Wire}, can carry {Words.Say(ElectricCurrent.FromAmperes(kind.Key.MostAmps))}, and the breaker before it trips at {Words.Say(district.Trip)} only.",
                    $"Use thicker wire there, or set the breaker to {Words.Say(ElectricCurrent.FromAmperes(kind.Key.MostAmps))} or less.",
                    names);
            }
        }
    }

    private static string Head(bool isFeeder, ImmutableArray<string> names) =>
        isFeeder ? $"Feeder{(names.Length == 1 ? "" : "s")} {Words.List(names)}" : $"Bus run{(names.Length == 1 ? "" : "s")} {Words.List(names)}";

    private static IEnumerable<Strand> Strands(Wiring wiring, string district)
    {
        foreach (BusRun run in wiring.Buses.Where(bus => bus.District == district).SelectMany(bus => bus.Runs))
        {
            yield return new(false, $"{run.From} > {run.To}", run.Wire, Conductors.AmpacityAmps(run.Wire));
        }

        foreach (Feeder feeder in wiring.Feeders.Where(feeder => feeder.District == district))
        {
            yield return new(true, feeder.Name, feeder.Wire, FeederAmps(feeder));
        }
    }

    private static double FeederAmps(Feeder feeder) => Limit.IsBelow(Constants.Get("feeder-length-most").Value, feeder.Length.Meters)
        ? Conductors.AmpacityAmps(feeder.Wire)
        : Conductors.AreaSquareMillimetres(feeder.Wire) * Constants.SingleRunCurrentDensity.Value;

    private sealed record Strand(bool IsFeeder, string Name, Wire Wire, double MostAmps);
}
