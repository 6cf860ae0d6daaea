using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>
/// Reads feeders. The point a feeder taps tells the district, because no two buses share a point; only a feeder straight on a
/// booster's own terminals has to name it, because several districts may begin there.
/// </summary>
internal sealed class FeederReader(ReadContext context, PieceTable pieces, DeviceNames devices, BusPoints points)
{
    public ImmutableArray<Feeder> Read(MapReader wiring, SettingReader settings) =>
        [.. wiring.Named("feeders", "a mapping of feeders by name").Where(entry => Names.Check(entry.Key, context))
            .Select(entry => ReadFeeder(entry, settings)).OfType<Feeder>()];

    private Feeder? ReadFeeder(TextEntry entry, SettingReader settings)
    {
        MapReader map = new(context, entry.Value, FormatKeys.Feeder, entry.Key.Start);
        TrackPlace? place = map.Scalar(map.Require("at", PlaceReader.Example), PlaceReader.Example) is { } at
            ? new PlaceReader(context, pieces).Read(at.Value, at.At(0))
            : null;
        Wire? wire = map.Scalar(map.Require("wire", WireText.Example), WireText.Example) is { } text ? context.Wire(text.Value, text.At(0)) : null;
        Length? length = map.RequireQuantity("length", QuantityKinds.Length, Range.WireLength);
        bool swap = map.Flag("swap") ?? false;
        Setting? when = settings.Read(map, "when");
        TextNode.Scalar? tap = map.Scalar(map.Require("bus", "the name of a bus point"), "the name of a bus point");
        string? district = tap is null ? null : ReadDistrict(map, tap);
        return place is null || wire is null || length is null || district is null
            ? null
            : new Feeder(entry.Key.Value, place.Value, district, tap!.Value, wire, length.Value) { Swap = swap, When = when };
    }

    private string? ReadDistrict(MapReader map, TextNode.Scalar tap)
    {
        TextNode.Scalar? named = map.Scalar(map.Find("district"), "the name of a district");
        if (named is not null && !devices.Districts.ContainsKey(named.Value))
        {
            context.Add(LayoutRules.UnknownName, named.At(0), named.Value, $"there is no district \"{ProblemList.Shorten(named.Value)}\"",
                context.Expect(named.Value, devices.Districts.Keys));
            return null;
        }

        return devices.Boosters.Contains(tap.Value) ? AtBooster(tap, named) : AtPoint(tap, named);
    }

    private string? AtBooster(TextNode.Scalar tap, TextNode.Scalar? named)
    {
        if (named is null)
        {
            context.Add(LayoutRules.MissingKey, tap.At(0), tap.Value, $"a feeder at the booster \"{tap.Value}\" itself must name its district",
                "district: the name of a district of that booster");
        }
        else if (devices.Districts[named.Value] is { } booster && booster != tap.Value)
        {
            context.Add(LayoutRules.Contradiction, named.At(0), named.Value,
                $"district \"{named.Value}\" is fed by the booster \"{booster}\", not by \"{tap.Value}\"",
                Spelling.List([.. devices.Districts.Where(pair => pair.Value == tap.Value).Select(pair => pair.Key)]));
        }

        return named?.Value;
    }

    private string? AtPoint(TextNode.Scalar tap, TextNode.Scalar? named)
    {
        if (points.DistrictOf(tap.Value) is not { } district)
        {
            if (!points.IsPartial)
            {
                context.Add(LayoutRules.UnknownName, tap.At(0), tap.Value, $"no bus has a point \"{ProblemList.Shorten(tap.Value)}\"",
                    context.Expect(tap.Value, points.Names.Concat(devices.Boosters)));
            }

            return null;
        }

        if (named is not null && named.Value != district)
        {
            context.Add(LayoutRules.Contradiction, named.At(0), named.Value,
                $"the point \"{tap.Value}\" is in the bus of district \"{district}\"", $"\"{district}\", or a point of district \"{named.Value}\"");
        }

        return district;
    }
}
