using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Planning.Devices;

/// <summary>Finds where a booster stands best: the place from which the way along the track to all it feeds is shortest in sum.</summary>
internal static class CentralPlace
{
    /// <summary>The best of the middles of some lengths of track, each weighted by its length.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">Middle and length in metres of every length of track that is fed from there; at least one.</param>
    public static TrackPlace Of(Layout layout, ImmutableArray<(TrackPlace Middle, double Metres)> lengths)
    {
        Corridor corridor = Corridor.Along(layout, lengths.Select(length => length.Middle));
        ImmutableArray<(int Point, double Metres)> points = [.. lengths.Select(length => (corridor.PointAt(length.Middle), length.Metres))];
        return lengths
            .Select(length => (length.Middle, Sum: Math.Round(Sum(corridor, points, length.Middle), 6)))
            .OrderBy(pair => pair.Sum).ThenBy(pair => pair.Middle)
            .First().Middle;
    }

    private static double Sum(Corridor corridor, ImmutableArray<(int Point, double Metres)> points, TrackPlace from)
    {
        (double[] metres, _) = corridor.From([corridor.PointAt(from)]);

        // Track that no way leads to counts as very far, but the same from everywhere.
        return points.Sum(point => point.Metres * Math.Min(metres[point.Point], 1e6));
    }
}
