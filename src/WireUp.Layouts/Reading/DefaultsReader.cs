using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>defaults:</c>, and the rail of a section in the same way.</summary>
internal sealed class DefaultsReader(ReadContext context)
{
    private static readonly LayoutDefaults None = new();

    public LayoutDefaults Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return None;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Defaults, entry.Key.Start);
        LayoutDefaults read = new()
        {
            Rail = ReadRail(map, None.Rail) ?? None.Rail,
            Joint = map.Word("joint", Words.Joint) ?? None.Joint,
            Frog = map.Word("frog", Words.Frog) ?? None.Frog,
            Temperature = map.Quantity("temperature", QuantityKinds.Temperature, Range.Celsius) ?? None.Temperature,
            FrogWire = ReadFrogWire(map),
        };
        return map.Find("resistance") is { } resistance ? WithResistances(read, resistance) : read;
    }

    /// <summary>A length and a wire, as those of a run of bus.</summary>
    private WireLength? ReadFrogWire(MapReader owner)
    {
        const string Example = "a length and a wire, for instance 400 mm 22 AWG";
        if (owner.Scalar(owner.Find("frog-wire"), Example) is not { } scalar)
        {
            return null;
        }

        if (RunText.WireBegin(scalar.Value, 0) is var begin && (begin == 0 || begin == scalar.Value.Length))
        {
            context.WrongShape(scalar, $"\"{ProblemList.Shorten(scalar.Value)}\"", Example);
            return null;
        }

        UnitsNet.Length? length = context.Quantity(scalar.Value[..begin].TrimEnd(), scalar.At(0), QuantityKinds.Length, Range.WireLength);
        Wire? wire = context.Wire(scalar.Value[begin..].TrimEnd(), scalar.At(begin));
        return length is null || wire is null ? null : new WireLength(length.Value, wire);
    }

    /// <summary>The rail named under the key <c>rail</c>; what it leaves out comes from <paramref name="otherwise"/>. Null where the key is missing.</summary>
    public RailMaterial? ReadRail(MapReader owner, RailMaterial otherwise)
    {
        if (owner.Find("rail") is not { } entry)
        {
            return null;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Rail, entry.Key.Start);
        return new RailMaterial(
            map.Whole("code", 1, 1000) ?? otherwise.Code,
            map.Word<int>("alloy", Alloys) is { } alloy ? Alloys[alloy].Word : otherwise.Alloy,
            map.Number("ohms-per-metre", Range.OhmsPerMetre) ?? (map.Has("code") || map.Has("alloy") ? null : otherwise.OhmsPerMetre));
    }

    private static System.Collections.Immutable.ImmutableArray<(string Word, int Value)> Alloys { get; } =
        [.. Reference.RailTable.Alloys.Select((alloy, i) => (alloy, i))];

    private LayoutDefaults WithResistances(LayoutDefaults read, TextEntry entry)
    {
        MapReader map = new(context, entry.Value, FormatKeys.DefaultResistance, entry.Key.Start);
        return read with
        {
            Joiner = map.Quantity("joiner", QuantityKinds.Ohms, Range.Ohms) ?? read.Joiner,
            Soldered = map.Quantity("soldered", QuantityKinds.Ohms, Range.Ohms) ?? read.Soldered,
            Tap = map.Quantity("tap", QuantityKinds.Ohms, Range.Ohms) ?? read.Tap,
            Contact = map.Quantity("contact", QuantityKinds.Ohms, Range.Ohms) ?? read.Contact,
            Connector = map.Quantity("connector", QuantityKinds.Ohms, Range.Ohms) ?? read.Connector,
            Coin = map.Quantity("coin", QuantityKinds.Ohms, Range.Ohms) ?? read.Coin,
        };
    }
}
