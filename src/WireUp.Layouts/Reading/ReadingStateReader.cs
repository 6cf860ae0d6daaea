using System.Collections.Immutable;
using WireUp.Layouts.Quantities;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads how turnouts and switches stood and what fed the track: for the whole file, and for a reading that says otherwise.</summary>
internal sealed class ReadingStateReader
{
    private readonly ReadContext _context;
    private readonly Layout _layout;
    private readonly SettingReader _settings;
    private readonly ImmutableArray<Setting> _always;
    private readonly LimitedSupply? _supply;

    public ReadingStateReader(ReadContext context, Layout layout, PieceTable pieces, MapReader root)
    {
        (_context, _layout) = (context, layout);
        _settings = new(context, pieces, layout.Wiring.Switches.ToDictionary(one => one.Name.Name, one => one.Positions));
        _always = ReadSettings(root);
        _supply = ReadSupply(root);
    }

    public (ImmutableArray<Setting> Settings, LimitedSupply? Supply) Read(MapReader map)
    {
        ImmutableArray<Setting> own = ReadSettings(map);
        ImmutableArray<Setting> all = [.. _always.Where(setting => own.All(one => one.Owner != setting.Owner)), .. own];
        return ([.. all.OrderBy(setting => setting.Owner)], map.Has("supply") ? ReadSupply(map) : _supply);
    }

    private ImmutableArray<Setting> ReadSettings(MapReader map) => [.. ReadSettings(map, "turnouts"), .. ReadSettings(map, "switches")];

    private IEnumerable<Setting> ReadSettings(MapReader map, string key)
    {
        foreach (TextEntry entry in map.Named(key, "a mapping of positions by name, for instance { T1: diverging }"))
        {
            if (entry.Value is not TextNode.Scalar { IsNull: false } position)
            {
                _context.WrongShape(entry.Value, $"the position of \"{ProblemList.Shorten(entry.Key.Value)}\"", "a position such as diverging");
            }
            else if (_settings.Read(entry.Key, position) is { } setting)
            {
                yield return setting;
            }
        }
    }

    private LimitedSupply? ReadSupply(MapReader parent)
    {
        if (parent.Find("supply") is not { } entry)
        {
            return null;
        }

        if (entry.Value is TextNode.Scalar { Value: "none" })
        {
            return null;
        }

        MapReader map = new(_context, entry.Value, ReadingKeys.Supply, entry.Key.Start);
        UnitsNet.ElectricPotential? volts = map.RequireQuantity("volts", QuantityKinds.Volts, Range.Volts);
        UnitsNet.ElectricCurrent? amps = map.RequireQuantity("amps", QuantityKinds.Amps, Range.Rating);
        string? booster = Booster(map);
        return volts is null || amps is null || booster is null ? null : new(booster, volts.Value, amps.Value);
    }

    private string? Booster(MapReader map)
    {
        ImmutableArray<string> known = [.. _layout.Wiring.Boosters.Select(one => one.Name)];
        if (known.Length == 1 && !map.Has("booster"))
        {
            return known[0];
        }

        if (map.Scalar(map.Require("booster", "the booster it stands in for"), "the booster it stands in for") is not { } name)
        {
            return null;
        }

        if (known.Contains(name.Value))
        {
            return name.Value;
        }

        _context.Add(LayoutRules.UnknownName, name.At(0), name.Value, $"there is no booster \"{ProblemList.Shorten(name.Value)}\"", _context.Expect(name.Value, known));
        return null;
    }
}
