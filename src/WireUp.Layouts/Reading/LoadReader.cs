using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads the load of a reading: <c>0.5 A</c> or <c>12 ohm</c> at the place that is measured, or a mapping that says where it stands. A
/// resistor across the very place whose volts are read draws those volts over its ohms.
/// </summary>
internal sealed class LoadReader(ReadContext context, ReadingPointReader points)
{
    private const string Example = "0.5 A, 12 ohm, or { at: loop@1 m, amps: 0.5 A }";

    /// <param name="map">The reading.</param>
    /// <param name="here">The place it measures, or null where it measures none.</param>
    /// <param name="shown">The volts it found there.</param>
    public ReadingLoad? Read(MapReader map, ReadingPlace? here, ElectricPotential? shown) => map.Find("load") switch
    {
        null => null,
        { Value: TextNode.Mapping } entry => ReadMapping(new MapReader(context, entry.Value, ReadingKeys.Load, entry.Key.Start), here, shown),
        { } entry when map.Scalar(entry, Example) is { } text => ReadWord(text, here, shown),
        _ => null,
    };

    private ReadingLoad? ReadWord(TextNode.Scalar text, ReadingPlace? here, ElectricPotential? shown)
    {
        if (here is null && shown is null)
        {
            context.Add(LayoutRules.MissingKey, text.At(0), text.Value, "the load does not say where it stands", "{ at: loop@1 m, amps: 0.5 A }");
            return null;
        }

        // What ends in ohms is a resistance; what ends in neither is told with what a current looks like.
        ElectricCurrent? amps = QuantityKinds.Ohms.TryRead(text.Value, null, out _) == QuantityFault.None
            ? Drawn(context.Quantity(text.Value, text.At(0), QuantityKinds.Ohms, Range.LoadOhms), shown)
            : context.Quantity(text.Value, text.At(0), QuantityKinds.Amps, Range.Amps);
        return amps is null || here is null ? null : new(here, amps.Value);
    }

    private ReadingLoad? ReadMapping(MapReader map, ReadingPlace? here, ElectricPotential? shown)
    {
        ReadingPlace? at = map.Scalar(map.Require("at", ReadingPointReader.PlaceExample), ReadingPointReader.PlaceExample) is { } text ? points.Place(text) : null;
        if (!map.Has("ohms"))
        {
            ElectricCurrent? amps = map.RequireQuantity("amps", QuantityKinds.Amps, Range.Amps);
            return at is null || amps is null ? null : new(at, amps.Value);
        }

        ElectricResistance? ohms = map.Quantity("ohms", QuantityKinds.Ohms, Range.LoadOhms);
        if (at is null || ohms is null)
        {
            return null;
        }

        if (at != here || map.Has("amps"))
        {
            TextNode.Scalar value = (TextNode.Scalar)map.Find("ohms")!.Value;
            context.Add(LayoutRules.Contradiction, value.At(0), value.Value,
                "what a resistor draws is known only where the volts across it are read", "amps in its place: the volts across it over its ohms");
            return null;
        }

        return Drawn(ohms, shown) is { } drawn ? new(at, drawn) : null;
    }

    private static ElectricCurrent? Drawn(ElectricResistance? ohms, ElectricPotential? volts) =>
        ohms is null || volts is null ? null : ElectricCurrent.FromAmperes(volts.Value.Volts / ohms.Value.Ohms);
}
