using System.Collections.Immutable;
using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Circuits.Places;

/// <summary>Everything about one place.</summary>
/// <param name="At">The place.</param>
/// <param name="Track">The fed length of track it lies on; null where it has no power.</param>
/// <param name="Neighbours">What comes next on its piece: at the place itself, then towards end a, then towards end b.</param>
public sealed record PlaceReport(TrackPlace At, FedStretch? Track, ImmutableArray<PlaceNeighbour> Neighbours)
{
    /// <summary>Volts, fault current and loop; null where there is no power.</summary>
    public PlacePower? Power => Track?.At(Math.Clamp(At.MetresFromA, Track.FromMetres, Track.ToMetres));

    /// <summary>Volts without any load; null where there is no power.</summary>
    public ElectricPotential? OpenVolts => Track?.OpenVolts(Math.Clamp(At.MetresFromA, Track.FromMetres, Track.ToMetres));

    /// <summary>Fault current over trip current of the district; null where there is no power.</summary>
    public double? FaultOverTrip => Power is { } power ? power.FaultCurrent / Track!.Trip : null;

    /// <summary>Looks at a place.</summary>
    /// <param name="map">The solved layout.</param>
    /// <param name="index">The same layout.</param>
    /// <param name="place">A place of it.</param>
    public static PlaceReport Of(PowerMap map, LayoutIndex index, TrackPlace place)
    {
        PlaceNeighbour[] around = [.. Around(index, place)];
        return new(place, map.Find(place),
        [
            .. around.Where(item => item.Metres == 0),
            .. Nearest(around.Where(item => item.Metres < 0).OrderByDescending(item => item.Metres)),
            .. Nearest(around.Where(item => item.Metres > 0).OrderBy(item => item.Metres)),
        ]);
    }

    /// <summary>To one side: the nearest thing, and the nearest feeder if that is something else.</summary>
    private static IEnumerable<PlaceNeighbour> Nearest(IEnumerable<PlaceNeighbour> inOrder)
    {
        bool first = true;
        foreach (PlaceNeighbour item in inOrder)
        {
            if (first || item.Kind == NeighbourKind.Feeder)
            {
                yield return item;
            }

            if (item.Kind == NeighbourKind.Feeder)
            {
                yield break;
            }

            first = false;
        }
    }

    private static IEnumerable<PlaceNeighbour> Around(LayoutIndex index, TrackPlace place)
    {
        foreach (Feeder feeder in index.Layout.Wiring.Feeders.Where(feeder => feeder.At.Section == place.Section))
        {
            yield return new(Away(feeder.At.MetresFromA), NeighbourKind.Feeder, feeder.Name);
        }

        foreach (Gap gap in index.Layout.Wiring.Gaps)
        {
            if (gap.At is GapPlace.InSection { Place: var at } && at.Section == place.Section)
            {
                yield return new(Away(at.MetresFromA), NeighbourKind.Gap, at.ToString());
            }
        }

        if (index.Piece(place.Section) is Piece.Section section)
        {
            yield return End(section.End("a"), 0);
            yield return End(section.End("b"), section.Length.Meters);
        }

        double Away(double metres) => Math.Abs(metres - place.MetresFromA) < 1e-6 ? 0 : metres - place.MetresFromA;

        PlaceNeighbour End(TrackEnd end, double metres) => index.Opposite(end) is { } opposite
            ? new(Away(metres), NeighbourKind.Joint, opposite.ToString())
            : new(Away(metres), NeighbourKind.EndOfTrack, end.ToString());
    }
}

/// <summary>What something beside a place is.</summary>
public enum NeighbourKind
{
    /// <summary>A feeder.</summary>
    Feeder,

    /// <summary>A gap within the section.</summary>
    Gap,

    /// <summary>The joint to another piece.</summary>
    Joint,

    /// <summary>An end that nothing is joined to.</summary>
    EndOfTrack,
}

/// <summary>Something beside a place.</summary>
/// <param name="Metres">How far away, in metres: negative towards end a, positive towards end b.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Name">The feeder's name, the gap's place, the end that is joined there, or the open end.</param>
public sealed record PlaceNeighbour(double Metres, NeighbourKind Kind, string Name);
