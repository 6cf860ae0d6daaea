using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads the load of a reading: <c>0.5 A</c> or <c>12 ohm</c> at the place that is measured, or a mapping that says where it stands.
/// </summary>
internal sealed class LoadReader(ReadContext context, ReadingPointReader points, Layout layout)
{
    private const string Example = "0.5 A, 12 ohm, or { at: loop@1 m, amps: 0.5 A }";

    /// <param name="map">The reading.</param>
    /// <param name="here">The place it measures, or null where it could not be read.</param>
    /// <param name="isPlaced">Whether the kind of reading has one place, where the load stands unless it says otherwise.</param>
    public ReadingLoad? Read(MapReader map, ReadingPlace? here, bool isPlaced) => map.Find("load") switch
    {
        null => null,
        { Value: TextNode.Mapping } entry => ReadMapping(new MapReader(context, entry.Value, ReadingKeys.Load, entry.Key.Start)),
        { } entry when map.Scalar(entry, Example) is { } text => isPlaced ? Of(text.Value, text.At(0), here) : Nowhere(text),
        _ => null,
    };

    /// <summary>A load of a current or resistance at a place, or null after reporting why it is none.</summary>
    public ReadingLoad? Of(string text, TextPosition at, ReadingPlace? place)
    {
        // What ends in ohms is a resistance; what ends in neither is told with what a current looks like.
        if (QuantityKinds.Ohms.TryRead(text, null, out _) == QuantityFault.None)
        {
            return Of(context.Quantity(text, at, QuantityKinds.Ohms, Range.LoadOhms), place);
        }

        ElectricCurrent? amps = context.Quantity(text, at, QuantityKinds.Amps, Range.Rating);
        return amps is null || place is null ? null : new(place, amps.Value);
    }

    private ReadingLoad? Nowhere(TextNode.Scalar text)
    {
        context.Add(LayoutRules.MissingKey, text.At(0), text.Value, "the load does not say where it stands", "{ at: loop@1 m, amps: 0.5 A }");
        return null;
    }

    private ReadingLoad? ReadMapping(MapReader map)
    {
        ReadingPlace? at = map.Scalar(map.Require("at", ReadingPointReader.PlaceExample), ReadingPointReader.PlaceExample) is { } text ? points.Place(text) : null;
        if (map.Has("ohms") && map.Find("amps") is { } second)
        {
            context.Add(LayoutRules.Contradiction, second.Key.Start, "amps", "a load has either \"amps\" or \"ohms\"", "one of the two");
            return null;
        }

        if (map.Has("ohms"))
        {
            return Of(map.Quantity("ohms", QuantityKinds.Ohms, Range.LoadOhms), at);
        }

        ElectricCurrent? amps = map.RequireQuantity("amps", QuantityKinds.Amps, Range.Rating);
        return at is null || amps is null ? null : new(at, amps.Value);
    }

    /// <summary>A resistor draws at the full volts of the track what the highest booster gives over its ohms.</summary>
    private ReadingLoad? Of(ElectricResistance? ohms, ReadingPlace? place)
    {
        double full = layout.Wiring.Boosters.Select(booster => booster.Volts.Volts).DefaultIfEmpty(0).Max();
        return ohms is { } known && place is not null ? new(place, ElectricCurrent.FromAmperes(full / known.Ohms)) { Resistance = known } : null;
    }
}
