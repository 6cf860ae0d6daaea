using WireUp.Layouts;

namespace WireUp.Circuits.Devices;

/// <summary>Which part of all fed track each district has.</summary>
internal sealed class TrackShares
{
    private readonly Layout _layout;
    private readonly Dictionary<string, double> _metres = new(StringComparer.Ordinal);
    private readonly double _all;

    internal TrackShares(Layout layout, PowerReport power)
    {
        _layout = layout;
        Dictionary<PieceId, double> lengths = layout.Track.ToDictionary(piece => piece.Id, piece => piece.PlacesMetres ?? 0);
        foreach (SectionPower section in power.Sections)
        {
            _metres[section.District] = _metres.GetValueOrDefault(section.District) + lengths[section.Section];
        }

        _all = _metres.Values.Sum();
    }

    /// <summary>The district's part, 0 to 1.</summary>
    internal double Of(District district) => _all > 0 ? _metres.GetValueOrDefault(district.Name) / _all : 0;

    /// <summary>What a booster carries for its other districts, ampere: their part of the design load; null where it has no others.</summary>
    internal double? OthersAmps(PowerReport power, District district)
    {
        District[] others = [.. _layout.Wiring.Districts.Where(other => other.Booster == district.Booster && other.Name != district.Name)];
        if (others.Length == 0)
        {
            return null;
        }

        double share = others.Where(other => other.Use != DistrictUse.Programming).Sum(Of);
        return share > 0 && power.DesignLoad is { } load ? load.ForDistrict(share).Amperes : 0;
    }
}
