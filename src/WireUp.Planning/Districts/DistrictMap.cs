using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>Which district every place belongs to, once all gaps are in the layout.</summary>
internal sealed class DistrictMap
{
    private readonly TrackMap _map;
    private readonly ILookup<int, Feeder> _feeders;
    private readonly string?[] _ofZone;
    private readonly FrozenSet<string> _new;

    private DistrictMap(Layout layout, TrackMap map, string?[] ofZone, ImmutableArray<PlannedDistrict> districts)
    {
        (_map, _ofZone) = (map, ofZone);
        _new = districts.Where(district => !district.IsBuilt).Select(district => district.Name).ToFrozenSet();
        _feeders = layout.Wiring.Feeders.ToLookup(feeder => map.SpotAt(feeder.At).Index);
    }

    /// <summary>Districts are found again by their landmarks; a zone without one goes to the district that feeds it, or to none.</summary>
    public static DistrictMap Of(Layout layout, ImmutableArray<PlannedDistrict> districts)
    {
        TrackMap map = TrackMap.Of(layout);
        string?[] ofZone = new string?[map.ZoneCount];
        foreach (PlannedDistrict district in districts)
        {
            foreach (TrackLandmark landmark in district.Landmarks)
            {
                ofZone[map.ZoneOf(landmark.SpotIn(map))] ??= district.Name;
            }
        }

        return new(layout, map, ofZone, districts);
    }

    /// <summary>
    /// The district that feeds a place, or null where none does. A new one feeds the whole of its zone. Where several built ones
    /// feed one zone, as on layouts that share a rail between districts, it is that of the nearest feeder along the section, else
    /// of the first in the zone.
    /// </summary>
    public string? At(TrackPlace place)
    {
        int spot = _map.SpotAt(place).Index;
        string? ofZone = _ofZone[_map.ZoneOf(spot)];
        return ofZone is not null && _new.Contains(ofZone) ? ofZone : _feeders[spot]
            .OrderBy(feeder => Math.Abs(feeder.At.MetresFromA - place.MetresFromA))
            .Select(feeder => feeder.District)
            .FirstOrDefault() ?? ofZone;
    }

    /// <summary>The districts that a piece lies in, the whole of it or parts.</summary>
    public IEnumerable<string> NamesOf(PieceId piece) => _map.SpotsOf(piece)
        .Select(spot => spot.IsPlain ? At(new(piece, (spot.FromMetres + spot.ToMetres) / 2)) : _ofZone[_map.ZoneOf(spot.Index)])
        .OfType<string>()
        .Distinct();

    /// <summary>The district of every length of section, with its middle.</summary>
    public IEnumerable<(string? District, TrackPlace Middle, double Metres)> Lengths => _map.Spots
        .Where(spot => spot.IsPlain)
        .Select(spot => (spot, Middle: new TrackPlace(spot.Piece, (spot.FromMetres + spot.ToMetres) / 2)))
        .Select(pair => (At(pair.Middle), pair.Middle, pair.spot.LengthMetres));
}
