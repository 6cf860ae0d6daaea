using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Districts;

/// <summary>A place of a zone where track of another zone begins behind a cut.</summary>
/// <param name="Spot">The spot of the zone.</param>
/// <param name="AtMetres">Of a length of section: distance of the cut from end a.</param>
internal readonly record struct ZoneEdge(TrackSpot Spot, double AtMetres)
{
    /// <summary>Whether a cell of the zone lies there.</summary>
    public bool Touches(TrackCell cell) => Spot.IsPlain
        ? cell.Holds(new(Spot.Piece, AtMetres))
        : cell.Pieces.Contains(Spot.Piece);
}

/// <summary>Where one can leave a zone over its cuts and come back to it elsewhere.</summary>
internal static class WaysAround
{
    /// <summary>Edges of the zone in groups that track outside joins.</summary>
    public static ImmutableArray<ImmutableArray<ZoneEdge>> Of(TrackMap map, int zone)
    {
        (ZoneEdge One, ZoneEdge Other)[] cuts = [.. Cuts(map).Where(cut => map.ZoneOf(cut.One.Spot.Index) != map.ZoneOf(cut.Other.Spot.Index))];
        DisjointSetsWorkspace outside = new(map.ZoneCount);
        foreach ((ZoneEdge one, ZoneEdge other) in cuts.Where(cut => map.ZoneOf(cut.One.Spot.Index) != zone && map.ZoneOf(cut.Other.Spot.Index) != zone))
        {
            outside.Join(map.ZoneOf(one.Spot.Index), map.ZoneOf(other.Spot.Index));
        }

        return [.. cuts.SelectMany(cut => new[] { cut, (One: cut.Other, Other: cut.One) })
            .Where(cut => map.ZoneOf(cut.One.Spot.Index) == zone)
            .GroupBy(cut => outside.Find(map.ZoneOf(cut.Other.Spot.Index)), cut => cut.One)
            .OrderBy(group => group.Key)
            .Select(group => group.ToImmutableArray())];
    }

    /// <summary>Every cut, with the spots on its two sides.</summary>
    private static IEnumerable<(ZoneEdge One, ZoneEdge Other)> Cuts(TrackMap map)
    {
        HashSet<TrackEnd> joined = [.. map.Links.Select(link => link.FromEnd)];
        foreach (Joint joint in map.Index.Layout.Joints.Where(joint => !joined.Contains(joint.First)))
        {
            yield return (EdgeAt(map, joint.First), EdgeAt(map, joint.Second));
        }

        foreach ((TrackSpot before, TrackSpot after) in map.Spots.Zip(map.Spots.Skip(1))
            .Where(pair => pair.First.Piece == pair.Second.Piece && pair.First is { IsPlain: true, IsBridge: false } && pair.Second.IsPlain))
        {
            yield return (new(before, before.ToMetres), new(after, after.FromMetres));
        }
    }

    private static ZoneEdge EdgeAt(TrackMap map, TrackEnd end)
    {
        TrackSpot spot = map.Spots[map.SpotOf(end)];
        return new(spot, spot.Front == end ? spot.ToMetres : spot.FromMetres);
    }
}
