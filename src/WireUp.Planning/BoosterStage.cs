using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Devices;
using WireUp.Planning.Districts;

namespace WireUp.Planning;

/// <summary>Gives new districts their breakers, boosters and supplies.</summary>
internal sealed class BoosterStage(PlanDraft draft, DistrictMap map)
{
    private readonly double _fedMetres = map.Lengths.Sum(length => length.Metres);

    /// <summary>New districts with what they draw, in the order of the plan.</summary>
    public ImmutableArray<DistrictDemand> Demands() => [.. draft.Districts!.Districts
        .Where(district => !district.IsBuilt && district.LengthMetres > 0)
        .Select(district => new DistrictDemand(
            district.Name,
            Share(district),
            draft.Sizing!,
            TrackOf(district.Name)))];

    /// <summary>The boosters that are there, with the room they have left.</summary>
    public ImmutableArray<BuiltBooster> Built()
    {
        double ceiling = ScaleTable.FindOrUsual(draft.Layout.Scale).TripCeiling.Amperes;
        return [.. draft.Before.Wiring.Boosters.Select(booster => new BuiltBooster(
            booster.Name,
            booster.Beside ?? PlaceOf(booster.Name),
            PowerSizing.BoosterShare(draft.Sizing!.Load, booster.Amps.Amperes) - BuiltShare(booster.Name),
            draft.Sizing!.Breakers.MostBehind(booster.Amps.Amperes, ceiling),
            booster.Resistance.Ohms))];
    }

    /// <summary>Where a booster that does not say so is taken to stand: amid what it feeds.</summary>
    public TrackPlace PlaceOf(string booster)
    {
        ImmutableArray<(TrackPlace, double)> own = [.. draft.Layout.Wiring.Districts
            .Where(district => district.Booster == booster)
            .SelectMany(district => TrackOf(district.Name))];
        return CentralPlace.Of(draft.Layout, own.IsEmpty ? [.. map.Lengths.Select(length => (length.Middle, length.Metres))] : own);
    }

    /// <summary>What the current of new boosters goes through with the thickest wire.</summary>
    public DropModel Drops(PlanOptions options, WireStock stock)
    {
        Layout layout = draft.Layout;
        Wire feeder = GaugeChooser.FeederWire(stock.System, 0);
        return new(
            layout.MaxDrop.DecimalFractions * Volts,
            Conductors.OhmsPerMetre(stock.Thickest, layout.Defaults.Temperature),
            options.BusSlack.DecimalFractions,
            options.BoosterLead.Meters,
            2 * options.FeederLength.Meters * Conductors.OhmsPerMetre(feeder, layout.Defaults.Temperature),
            RailTable.OhmsPerMetre(layout.Defaults.Rail, layout.Defaults.Temperature));
    }

    /// <summary>Volts of new boosters: those of the boosters that are there, else what the scale asks for.</summary>
    private double Volts => draft.Before.Wiring.Boosters is [{ } built, ..]
        ? built.Volts.Volts
        : ScaleTable.FindOrUsual(draft.Layout.Scale).TrackVolts(draft.Layout.Control).Volts;

    private ImmutableArray<(TrackPlace Middle, double Metres)> TrackOf(string district) =>
        [.. map.Lengths.Where(length => length.District == district).Select(length => (length.Middle, length.Metres))];

    /// <summary>The part of all fed track that the built districts of a booster have.</summary>
    private double BuiltShare(string booster) => draft.Before.Wiring.Districts
        .Where(district => district.Booster == booster)
        .SelectMany(district => TrackOf(district.Name))
        .Sum(length => length.Metres) / _fedMetres;

    /// <summary>Adds the districts, and the boosters and supplies that they need.</summary>
    /// <param name="plan">Which booster feeds which district.</param>
    /// <param name="demands">The new districts.</param>
    /// <param name="fewest">The load alone asks for no fewer new boosters.</param>
    public PlanDraft Equip(BoosterPlan plan, ImmutableArray<DistrictDemand> demands, int fewest)
    {
        Wiring wiring = draft.Layout.Wiring;
        ImmutableArray<District> districts = [.. demands.Select(demand => new District(
            demand.Name, plan.BoosterOf[demand.Name], ElectricCurrent.FromAmperes(demand.TripAmps), DeviceTable.BreakerResistance)
        {
            Reversing = draft.Districts!.Districts.First(each => each.Name == demand.Name).IsReversing,
        })];
        Layout layout = draft.Layout with { Wiring = wiring with { Districts = [.. wiring.Districts, .. districts] } };
        (Booster Booster, SupplyChoice Supply)[] added = [.. plan.NewBoosters.Select((booster, i) => Make(layout, booster.Name, booster.At, i))];
        layout = layout with
        {
            Wiring = layout.Wiring with
            {
                Boosters = [.. wiring.Boosters, .. added.Select(pair => pair.Booster)],
                Supplies = [.. wiring.Supplies, .. added.Select(pair => pair.Supply.Supply)],
            },
        };
        return (draft with { Layout = layout })
            .Add(added.SelectMany(pair => PlanWords.OfBooster(pair.Booster, pair.Supply, draft.Sizing!, added.Length > fewest)))
            .Add(districts.Select(district => PlanWords.OfDistrict(draft, district, demands.First(demand => demand.Name == district.Name))))
            .Measure([new("boosters", plan.NewBoosters.Length, Math.Min(fewest, plan.NewBoosters.Length))]);
    }

    private (Booster Booster, SupplyChoice Supply) Make(Layout layout, string name, TrackPlace beside, int number)
    {
        Wiring built = draft.Before.Wiring;
        HashSet<string> taken = [.. built.Supplies.Select(supply => supply.Name), .. built.Boosters.Select(booster => booster.Name)];
        string supplyName = SupplyNames(taken).ElementAt(number);
        SupplyChoice supply = SupplyChoice.For(supplyName, Volts, draft.Sizing!.BoosterAmps, layout.Control == ControlSystem.ThreeRail);
        Booster booster = new(name, ElectricPotential.FromVolts(Volts), ElectricCurrent.FromAmperes(draft.Sizing.BoosterAmps), DeviceTable.BoosterResistance)
        {
            Supply = supplyName,
            Beside = beside,
        };
        return (booster, supply);
    }

    private static IEnumerable<string> SupplyNames(HashSet<string> taken) => Enumerable.Range(1, int.MaxValue - 1)
        .Select(number => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"supply-{number}"))
        .Where(name => !taken.Contains(name));

    private double Share(PlannedDistrict district) => district.LengthMetres / _fedMetres;
}
