using System.Collections.Immutable;
using WireUp.Faults.Network;
using WireUp.Faults.Parts;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Faults.Search;

/// <summary>Every part of a railway in every state it can fail in, with its odds.</summary>
internal static class HypothesisList
{
    internal static ImmutableArray<Hypothesis> Of(CaseCircuit circuit, CircuitNodes nodes, FaultPriors priors)
    {
        IEnumerable<Part> parts = new TrackParts(circuit.Circuit.Graph).All().Concat(new WiringParts(circuit, nodes).All());
        return [.. parts.SelectMany(part => FaultTable.Of(part.Element.Kind)
            .Where(rate => Fits(part.Spot, rate.State))
            .Select(rate => Of(part, rate, priors)))];
    }

    private static Hypothesis Of(Part part, FaultRate rate, FaultPriors priors)
    {
        double chance = Chance(rate, priors) * Factor(part, priors);
        double odds = Math.Min(chance, 0.99) / (1 - Math.Min(chance, 0.99)) * priors.PlaceFactors.GetValueOrDefault(part.Element.Place, 1);
        return new(part, rate.State, Math.Log(odds), rate.LeastOhms, rate.MostOhms);
    }

    private static double Chance(FaultRate rate, FaultPriors priors) => priors.Chances.TryGetValue(rate.Kind, out double chance)
        ? rate.Chance * chance / FaultTable.Of(rate.Kind).Sum(row => row.Chance)
        : rate.Chance;

    private static double Factor(Part part, FaultPriors priors)
    {
        bool ages = part.Element.Kind is FaultElementKind.Joiner or FaultElementKind.Blade;
        double age = ages && priors.AgeYears is { } years ? Math.Pow(2, years / Constants.Get("fault-age-doubling").Value) : 1;
        return part.Count * age * (part.IsPoor ? Constants.Get("joiner-fault-poor-alloy").Value : 1);
    }

    /// <summary>A state that needs several branches belongs to the part as a whole, every other to the single conductor.</summary>
    private static bool Fits(Spot spot, FaultState state) => spot switch
    {
        Spot.OfFeeder => state == FaultState.Swapped,
        Spot.OfContact => state == FaultState.Reversed,
        Spot.Between => state is FaultState.Bridged or FaultState.Leaking or FaultState.Short,
        _ => state is FaultState.Open or FaultState.HighResistance or FaultState.NotTouching or FaultState.Weak,
    };
}
