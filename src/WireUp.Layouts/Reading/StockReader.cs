using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>stock:</c>; what a locomotive does not say is what is usual in the scale.</summary>
internal sealed class StockReader(ReadContext context, ScaleRow scale, Length shortestPickup)
{
    private const int MostOfAKind = 10_000;

    public Stock Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return Stock.None;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Stock, entry.Key.Start);
        ImmutableArray<TextEntry> locomotives = NamedThings(map, "locomotives", "a mapping of locomotives by name");
        HashSet<string> kinds = [.. locomotives.Select(kind => kind.Key.Value)];
        return new Stock
        {
            Locomotives = [.. locomotives.Select(ReadLocomotive)],
            Trains = [.. NamedThings(map, "trains", "a mapping of trains by name").Select(train => ReadTrain(train, kinds)).OfType<Train>()],
            MovingAtOnce = map.Whole("moving-at-once", 1, MostOfAKind),
        };
    }

    private ImmutableArray<TextEntry> NamedThings(MapReader map, string key, string expected) =>
        [.. map.Named(key, expected).Where(entry => Names.Check(entry.Key, context, loose: true))];

    private Locomotive ReadLocomotive(TextEntry entry)
    {
        MapReader map = new(context, entry.Value, FormatKeys.Locomotive, entry.Key.Start);
        return new Locomotive(
            entry.Key.Value,
            Current(map, "running", scale.Running),
            Current(map, "stopped", scale.Stopped),
            Current(map, "starting", scale.Starting),
            Current(map, "stalled", scale.Stalled),
            map.Quantity("pickup", QuantityKinds.Length, Range.Wheelbase) ?? shortestPickup,
            map.Whole("count", 1, MostOfAKind) ?? 1)
        {
            Draw = map.Word("draws", Words.LoadKind) ?? LoadKind.Current,
            StayAlive = map.Quantity("stay-alive", QuantityKinds.Farads, Range.Farads),
            Charging = map.Quantity("charging", QuantityKinds.Ohms, Range.LoadOhms) ?? DeviceTable.ChargingResistance,
        };
    }

    private static ElectricCurrent Current(MapReader map, string key, ElectricCurrent usual) =>
        map.Quantity(key, QuantityKinds.Amps, Range.Amps) ?? Usual.Of(usual);

    private Train? ReadTrain(TextEntry entry, HashSet<string> kinds)
    {
        MapReader map = new(context, entry.Value, FormatKeys.Train, entry.Key.Start);
        Length? length = map.RequireQuantity("length", QuantityKinds.Length, Range.TrackLength);
        ImmutableArray<string> locomotives = ReadLocomotives(map, kinds);
        int litCars = map.Whole("lit-cars", 0, MostOfAKind) ?? 0;
        ElectricCurrent litCar = Current(map, "lit-car-current", scale.LitCar);
        return length is null ? null : new Train(entry.Key.Value, locomotives, litCars, litCar, length.Value);
    }

    private ImmutableArray<string> ReadLocomotives(MapReader map, HashSet<string> kinds)
    {
        ImmutableArray<string>.Builder names = ImmutableArray.CreateBuilder<string>();
        foreach (TextNode node in map.List("locomotives", "a list of locomotives, for instance [switcher]"))
        {
            if (node is not TextNode.Scalar { IsNull: false } name)
            {
                context.WrongShape(node, "a locomotive of a train", "the name of a locomotive");
            }
            else if (kinds.Contains(name.Value))
            {
                names.Add(name.Value);
            }
            else
            {
                context.Add(LayoutRules.UnknownName, name.At(0), name.Value, $"there is no locomotive \"{ProblemList.Shorten(name.Value)}\"",
                    context.Expect(name.Value, kinds));
            }
        }

        return names.ToImmutable();
    }
}
