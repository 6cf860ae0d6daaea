using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using static System.FormattableString;

namespace WireUp.Planning.Devices;

/// <summary>
/// Gives turnout motors, signals and lights a supply, booster and breaker of their own where somebody asks for it, so that a short of a train
/// leaves the turnouts that would clear it alive. Their wires are not planned: the layout does not say where they stand.
/// </summary>
internal static class AccessoryPlanner
{
    private const string Name = "accessories";

    private const string Rule = "Accessories have power of their own, with no rail on it; a booster works at 0.8 of its rating or less, a breaker trips at 1.5 times the load. Common practice, no published source.";

    /// <summary>The draft with the devices; unchanged where nobody asks or a district for accessories is there.</summary>
    public static PlanDraft Plan(PlanDraft draft)
    {
        Wiring wiring = draft.Layout.Wiring;
        if (draft.Layout.Wishes.Accessories is not { Amperes: var amps } || wiring.Districts.Any(district => district.Use == DistrictUse.Accessories))
        {
            return draft;
        }

        BreakerSizes breakers = draft.Sizing!.Breakers;
        double[] fit = [.. DeviceTable.BoosterRatings.Select(rating => rating.Amperes)
            .Where(rating => rating * Constants.BoosterLoading.Value >= amps - 1e-9
                && breakers.For(amps, 0) <= breakers.MostBehind(rating, double.PositiveInfinity) + 1e-9)];
        bool isTaken = wiring.Districts.Any(district => district.Name == Name) || wiring.Boosters.Any(booster => booster.Name == Name)
            || wiring.Supplies.Any(supply => supply.Name == $"{Name}-supply");
        return fit.Length == 0 || isTaken
            ? draft.Remain([Invariant($"No district for accessories is planned: {(isTaken ? $"the name '{Name}' is taken" : $"no usual booster carries {amps:0.##} A")}.")])
            : Add(draft, amps, fit.Min());
    }

    private static PlanDraft Add(PlanDraft draft, double amps, double rating)
    {
        Wiring wiring = draft.Layout.Wiring;
        ElectricPotential volts = wiring.Boosters.Select(booster => booster.Volts)
            .Append(ScaleTable.FindOrUsual(draft.Layout.Scale).TrackVolts(draft.Layout.Control)).First();
        SupplyChoice supply = SupplyChoice.For($"{Name}-supply", volts.Volts, rating, draft.Layout.Control == ControlSystem.ThreeRail);
        Booster booster = new(Name, volts, ElectricCurrent.FromAmperes(rating), DeviceTable.BoosterResistance) { Supply = supply.Supply.Name };
        District district = new(Name, Name, ElectricCurrent.FromAmperes(draft.Sizing!.Breakers.For(amps, 0)), DeviceTable.BreakerResistance)
        {
            Use = DistrictUse.Accessories,
        };
        Proposal proposal = new(
            Name,
            ProposalKind.District,
            Name,
            Invariant($"Asked for: {amps:0.##} A for accessories, on a booster of {rating:0.#} A and a supply of {supply.Supply.Rating.Watts:0} VA of their own, so that a short under a train leaves the turnouts that clear it alive. Its breaker trips at {district.Trip.Amperes:0.#} A. Lay its wires to the accessories yourself; none of them goes to a rail."),
            Rule,
            Cost: 140)
        {
            Working = supply.Working,
        };
        return (draft with
        {
            Layout = draft.Layout with
            {
                Wiring = wiring with
                {
                    Supplies = [.. wiring.Supplies, supply.Supply],
                    Boosters = [.. wiring.Boosters, booster],
                    Districts = [.. wiring.Districts, district],
                },
            },
        }).Add([proposal]);
    }
}
