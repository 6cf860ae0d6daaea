using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits;

/// <summary>What to ask of the solved circuit.</summary>
public sealed record PowerOptions
{
    /// <summary>Nothing special: the design load, no placed loads, turnouts in their first position.</summary>
    public static readonly PowerOptions Default = new();

    /// <summary>Loads that somebody puts on the rails; they draw from whichever rail is the higher one.</summary>
    public ImmutableArray<PlacedLoad> Loads { get; init; } = [];

    /// <summary>Places whose volts are wanted under <see cref="Loads"/>, besides those of the loads themselves.</summary>
    public ImmutableArray<TrackPlace> Probes { get; init; } = [];

    /// <summary>How turnouts, other pieces that move and hand switches stand; one that is not named stands in its first position.</summary>
    public ImmutableSortedDictionary<PieceId, string> Turnouts { get; init; } = ImmutableSortedDictionary<PieceId, string>.Empty;

    /// <summary>Design load of districts by name; one that is not named gets its share of the railway's by length of track.</summary>
    public ImmutableSortedDictionary<string, ElectricCurrent> DistrictLoads { get; init; } =
        ImmutableSortedDictionary.Create<string, ElectricCurrent>(StringComparer.Ordinal);

    /// <summary>The places that the rail graph must have as stations for these options: those of loads and probes.</summary>
    public IEnumerable<TrackPlace> Places => [.. Loads.Select(load => load.At), .. Probes];
}
