using System.Collections.Immutable;
using WireUp.Layouts.Reference;
using WireUp.Layouts.Text;

namespace WireUp.Layouts.Reading;

/// <summary>Reads <c>wiring:</c>, the devices first, then what hangs on them.</summary>
internal sealed class WiringReader(ReadContext context, ScaleRow scale, PieceTable pieces, JoinedTrack joined)
{
    public Wiring Read(TextEntry? entry)
    {
        if (entry is null)
        {
            return Wiring.None;
        }

        MapReader map = new(context, entry.Value, FormatKeys.Wiring, entry.Key.Start);
        DeviceReader devices = new(context, scale, pieces);
        ImmutableArray<Supply> supplies = devices.ReadSupplies(map);
        ImmutableArray<Booster> boosters = devices.ReadBoosters(map);
        ImmutableArray<District> districts = devices.ReadDistricts(map);
        BusReader buses = new(context, devices.Names);
        SwitchReader switchReader = new(context, pieces);
        ImmutableArray<Switch> switches = switchReader.Read(map);
        SettingReader settings = new(context, pieces, switchReader.Positions);
        return new Wiring
        {
            Supplies = supplies,
            Boosters = boosters,
            Districts = districts,
            Buses = buses.Read(map),
            Feeders = new FeederReader(context, pieces, devices.Names, buses.Points).Read(map, settings),
            Gaps = new GapReader(context, pieces, joined, settings).Read(map),
            Switches = switches,
        };
    }
}
