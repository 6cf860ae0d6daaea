using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads supplies, boosters and districts.</summary>
internal sealed class DeviceReader(ReadContext context, ScaleRow scale, PieceTable pieces)
{
    private const string OutputExpected = "a voltage with its kind, for instance 15 V dc or 16 V ac";

    public DeviceNames Names { get; } = new();

    public ImmutableArray<Supply> ReadSupplies(MapReader wiring) =>
        [.. Things(wiring, "supplies", "a mapping of supplies by name").Select(ReadSupply).OfType<Supply>()];

    public ImmutableArray<Booster> ReadBoosters(MapReader wiring) =>
        [.. Things(wiring, "boosters", "a mapping of boosters by name").Select(ReadBooster).OfType<Booster>()];

    public ImmutableArray<District> ReadDistricts(MapReader wiring) =>
        [.. Things(wiring, "districts", "a mapping of districts by name").Select(ReadDistrict).OfType<District>()];

    private IEnumerable<TextEntry> Things(MapReader wiring, string key, string expected) =>
        wiring.Named(key, expected).Where(entry => Reading.Names.Check(entry.Key, context));

    private Supply? ReadSupply(TextEntry entry)
    {
        string name = entry.Key.Value;
        Names.Supplies.Add(name);
        MapReader map = new(context, entry.Value, FormatKeys.Supply, entry.Key.Start);
        (ElectricPotential? output, bool alternating) = ReadOutput(map);
        Power? rating = map.RequireQuantity("rating", QuantityKinds.Watts, Range.Watts);
        SupplyClass kind = map.Word("class", Words.SupplyClass) ?? SupplyClass.Other;
        return output is null || rating is null ? null : new Supply(name, output.Value, alternating, rating.Value, kind);
    }

    private (ElectricPotential? Output, bool Alternating) ReadOutput(MapReader map)
    {
        if (map.Scalar(map.Require("output", OutputExpected), OutputExpected) is not { } value)
        {
            return (null, false);
        }

        string text = value.Value.TrimEnd();
        bool alternating = text.EndsWith("ac", StringComparison.OrdinalIgnoreCase);
        if (!alternating && !text.EndsWith("dc", StringComparison.OrdinalIgnoreCase))
        {
            context.Add(LayoutRules.WrongUnit, value.At(0), value.Value, $"\"{ProblemList.Shorten(text)}\" does not say whether it is dc or ac",
                OutputExpected);
            return (null, false);
        }

        return (context.Quantity(text[..^2].TrimEnd(), value.At(0), QuantityKinds.Volts, Range.Volts), alternating);
    }

    private Booster? ReadBooster(TextEntry entry)
    {
        string name = entry.Key.Value;
        Names.Boosters.Add(name);
        MapReader map = new(context, entry.Value, FormatKeys.Booster, entry.Key.Start);
        if (map.Has("at") && map.Has("beside"))
        {
            context.Add(LayoutRules.Contradiction, map.Find("beside")!.Key.Start, "beside",
                "\"at\" and \"beside\" both say where the booster stands", "one of the two");
        }

        ElectricPotential usual = ElectricPotential.FromVolts(scale.TrackVolts(context.Control).Volts);
        ElectricPotential volts = map.Quantity("volts", QuantityKinds.Volts, Range.Volts) ?? usual;
        ElectricCurrent? amps = map.RequireQuantity("amps", QuantityKinds.Amps, Range.Rating);
        ElectricResistance ohms = map.Quantity("resistance", QuantityKinds.Ohms, Range.Ohms) ?? Usual.Of(DeviceTable.BoosterResistance);
        Booster booster = new(name, volts, amps ?? ElectricCurrent.Zero, ohms)
        {
            Delay = map.Quantity("delay", QuantityKinds.Seconds, Range.Seconds) ?? DeviceTable.BoosterDelay,
            Supply = ReadName(map, "supply", Names.Supplies, "a supply"),
            Isolated = map.Flag("isolated") ?? true,
            PhaseTurned = ReadPhase(map),
            At = map.Find("at") is { } at ? new PlanReader(context).Point(at.Value) : null,
            Beside = map.Scalar(map.Find("beside"), PlaceReader.Example) is { } place ? new PlaceReader(context, pieces).Read(place.Value, place.At(0)) : null,
        };
        return amps is null ? null : booster;
    }

    private bool ReadPhase(MapReader map)
    {
        if (context.Control == ControlSystem.Direct && map.Find("phase") is { } phase)
        {
            context.Add(LayoutRules.Contradiction, phase.Key.Start, "phase", "direct current has no phase, and the control is direct",
                "no \"phase\", or \"control: three-rail\"");
        }

        return map.Word("phase", Words.BoosterPhase) ?? false;
    }

    private District? ReadDistrict(TextEntry entry)
    {
        string name = entry.Key.Value;
        MapReader map = new(context, entry.Value, FormatKeys.District, entry.Key.Start);
        map.Require("booster", "the name of a booster");
        string? booster = ReadName(map, "booster", Names.Boosters, "a booster");
        Names.Districts[name] = booster;
        ElectricCurrent? trip = map.RequireQuantity("trip", QuantityKinds.Amps, Range.Rating);
        ElectricResistance ohms = map.Quantity("resistance", QuantityKinds.Ohms, Range.Ohms) ?? Usual.Of(DeviceTable.BreakerResistance);
        bool reversing = map.Flag("reversing") ?? false;
        DistrictUse use = map.Word("use", Words.DistrictUse) ?? DistrictUse.Running;
        if (reversing && use != DistrictUse.Running)
        {
            context.Add(LayoutRules.Contradiction, map.Find("reversing")!.Key.Start, "reversing",
                $"a district for {(use == DistrictUse.Programming ? "programming" : "accessories")} has no train that runs through it and swaps its polarity",
                "\"reversing: false\", or \"use: running\"");
        }

        Duration delay = map.Quantity("delay", QuantityKinds.Seconds, Range.Seconds) ?? DeviceTable.BreakerDelay;
        Duration reclose = map.Quantity("reclose", QuantityKinds.Seconds, Range.Seconds) ?? DeviceTable.BreakerReclose;
        ImmutableArray<TripPoint> curve = new TripCurveReader(context).Read(map);
        return booster is null || trip is null ? null : new District(name, booster, trip.Value, ohms)
        {
            Reversing = reversing,
            Use = use,
            Delay = delay,
            Reclose = reclose,
            Curve = curve,
        };
    }

    private string? ReadName(MapReader map, string key, HashSet<string> known, string what)
    {
        if (map.Scalar(map.Find(key), $"the name of {what}") is not { } name)
        {
            return null;
        }

        if (known.Contains(name.Value))
        {
            return name.Value;
        }

        string bare = what[(what.IndexOf(' ', StringComparison.Ordinal) + 1)..];
        context.Add(LayoutRules.UnknownName, name.At(0), name.Value, $"there is no {bare} \"{ProblemList.Shorten(name.Value)}\"",
            context.Expect(name.Value, known));
        return null;
    }
}
