using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads one reading: which kind it is by the key that only that kind has, then what belongs to it.</summary>
internal sealed class ReadingReader
{
    private const string NoContact = "open";

    private readonly ReadContext _context;
    private readonly Layout _layout;
    private readonly ReadingPointReader _points;
    private readonly ReadingStateReader _states;
    private readonly LoadReader _loads;

    public ReadingReader(ReadContext context, Layout layout, MapReader root)
    {
        (_context, _layout) = (context, layout);
        _points = new(context, layout);
        _loads = new(context, _points, layout);
        _states = new(context, layout, _points.Pieces, root);
    }

    public MeterReading? Read(TextNode node)
    {
        if (node is not TextNode.Mapping mapping)
        {
            _context.WrongShape(node, "a reading", "a mapping such as { volts: 6.3 V, at: loop@1 m, load: 0.5 A }");
            return null;
        }

        if (KindOf(mapping) is not { } kind)
        {
            return null;
        }

        MapReader map = new(_context, node, kind, node.Start);
        MeterReading? reading = Read(kind, map);
        (ImmutableArray<Setting> settings, LimitedSupply? supply) = _states.Read(map);
        return reading is null ? null : reading with { Settings = settings, Supply = supply, Line = node.Start.Line };
    }

    private KeySet? KindOf(TextNode.Mapping mapping)
    {
        ImmutableArray<KeySet> kinds = [.. ReadingKeys.Kinds.Where(kind => mapping.Entries.Any(entry => entry.Key.Value == kind.Keys[0]))];
        if (kinds.Length == 1)
        {
            return kinds[0];
        }

        // The keys of any kind: what is not one of them is reported with what was probably meant.
        _ = new MapReader(_context, mapping, ReadingKeys.Any, mapping.Start);
        string all = Spelling.List([.. ReadingKeys.Kinds.Select(kind => kind.Keys[0])]);
        if (kinds.IsEmpty)
        {
            _context.Add(LayoutRules.MissingKey, mapping.Start, "", "the reading does not say what was read", all);
        }
        else
        {
            _context.Add(LayoutRules.Contradiction, mapping.Start, "",
                $"one reading cannot say both {string.Join(" and ", kinds.Select(kind => $"\"{kind.Keys[0]}\""))}", "a line of its own for each reading");
        }

        return null;
    }

    private MeterReading? Read(KeySet kind, MapReader map) => kind.Keys[0] switch
    {
        "volts" => ReadVolts(map),
        "volts-along" => ReadVoltsAlong(map),
        "ohms" => ReadOhms(map),
        "continuity" => ReadContinuity(map),
        "amps" => ReadAmps(map),
        "runs" => ReadRuns(map),
        "breaker" => ReadBreaker(map),
        "pressed" => ReadPressed(map),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of reading"),
    };

    private MeterReading.Volts? ReadVolts(MapReader map)
    {
        ElectricPotential? volts = map.RequireQuantity("volts", QuantityKinds.Volts, Range.ReadVolts);
        ReadingPlace? at = Place(map, "at");
        ReadingLoad? load = _loads.Read(map, at, isPlaced: true);
        return volts is null || at is null ? null : new(at, volts.Value) { Load = load };
    }

    private MeterReading.VoltsAlong? ReadVoltsAlong(MapReader map)
    {
        ElectricPotential? volts = map.RequireQuantity("volts-along", QuantityKinds.Volts, Range.ReadVolts);
        (ReadingPoint? from, ReadingPoint? to) = Points(map);
        ReadingLoad? load = _loads.Read(map, null, isPlaced: false);
        return volts is null || from is null || to is null ? null : new(from, to, volts.Value) { Load = load };
    }

    private MeterReading? ReadOhms(MapReader map)
    {
        (ReadingPoint? from, ReadingPoint? to) = PowerOff(map);
        if (map.Scalar(map.Find("ohms"), QuantityKinds.Ohms.Example) is { Value: NoContact })
        {
            return from is null || to is null ? null : new MeterReading.Continuity(from, to, false);
        }

        ElectricResistance? ohms = map.RequireQuantity("ohms", QuantityKinds.Ohms, Range.Ohms);
        return ohms is null || from is null || to is null ? null : new MeterReading.Ohms(from, to, ohms.Value);
    }

    private MeterReading.Continuity? ReadContinuity(MapReader map)
    {
        bool? conducts = YesNo(map, "continuity");
        (ReadingPoint? from, ReadingPoint? to) = PowerOff(map);
        return conducts is null || from is null || to is null ? null : new(from, to, conducts.Value);
    }

    private MeterReading.Amps? ReadAmps(MapReader map)
    {
        ElectricCurrent? amps = map.RequireQuantity("amps", QuantityKinds.Amps, Range.Amps);
        ReadingPoint? wire = Point(map, "in");
        if (wire is not null and not (ReadingPoint.OfFeeder or ReadingPoint.OfBreaker or ReadingPoint.OfBooster))
        {
            TextNode.Scalar text = (TextNode.Scalar)map.Find("in")!.Value;
            _context.Add(LayoutRules.UnknownName, text.At(0), text.Value, $"\"{ProblemList.Shorten(text.Value)}\" is not a single wire", "f1/A, breaker east/A or booster main/A");
            return null;
        }

        ReadingLoad? load = _loads.Read(map, null, isPlaced: false);
        return amps is null || wire is null ? null : new(wire, amps.Value) { Load = load };
    }

    private MeterReading.Running? ReadRuns(MapReader map)
    {
        RunningState? state = map.Word("runs", Words.Running);
        ReadingPlace? at = Place(map, "at");
        string? locomotive = map.Scalar(map.Find("locomotive"), "the name of a locomotive of the stock list") is { } name && IsLocomotive(name) ? name.Value : null;
        return state is null || at is null ? null : new(at, state.Value) { Locomotive = locomotive };
    }

    private MeterReading.Breaker? ReadBreaker(MapReader map)
    {
        bool? trips = map.Word<bool>("breaker", [("trips", true), ("holds", false)]);
        if (map.Scalar(map.Require("district", "the name of its district"), "the name of its district") is not { } district)
        {
            return null;
        }

        ImmutableArray<string> known = [.. _layout.Wiring.Districts.Select(one => one.Name)];
        if (known.Contains(district.Value))
        {
            return trips is null ? null : new(district.Value, trips.Value);
        }

        _context.Add(LayoutRules.UnknownName, district.At(0), district.Value, $"there is no district \"{ProblemList.Shorten(district.Value)}\"",
            _context.Expect(district.Value, known));
        return null;
    }

    private MeterReading.Pressed? ReadPressed(MapReader map)
    {
        ReadingPlace? at = Place(map, "pressed");
        bool worked = YesNo(map, "worked") ?? true;
        return at is null ? null : new(at, worked);
    }

    /// <summary>Two points, and the word that the power was off: ohms measured with power on are wrong and can ruin the meter.</summary>
    private (ReadingPoint? From, ReadingPoint? To) PowerOff(MapReader map)
    {
        map.Require("power", "off: ohms and continuity are measured with the power off, and only then");
        _ = map.Word<bool>("power", [("off", true)]);
        return Points(map);
    }

    private (ReadingPoint? From, ReadingPoint? To) Points(MapReader map) => (Point(map, "from"), Point(map, "to"));

    private ReadingPlace? Place(MapReader map, string key) =>
        map.Scalar(map.Require(key, ReadingPointReader.PlaceExample), ReadingPointReader.PlaceExample) is { } text ? _points.Place(text) : null;

    private ReadingPoint? Point(MapReader map, string key) =>
        map.Scalar(map.Require(key, ReadingPointReader.PointExample), ReadingPointReader.PointExample) is { } text ? _points.Point(text) : null;

    private static bool? YesNo(MapReader map, string key) => map.Word<bool>(key, [("yes", true), ("no", false)]);

    private bool IsLocomotive(TextNode.Scalar name)
    {
        ImmutableArray<string> known = [.. _layout.Stock.Locomotives.Select(one => one.Name)];
        if (known.Contains(name.Value))
        {
            return true;
        }

        _context.Add(LayoutRules.UnknownName, name.At(0), name.Value, $"there is no locomotive \"{ProblemList.Shorten(name.Value)}\"", _context.Expect(name.Value, known));
        return false;
    }
}
