using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Sessions;

/// <summary>
/// Which district feeds a length of track when a train comes there, turnouts standing for the train: the one whose breaker, in leg A,
/// carries the current. Where several can, it is the one over the fewest contacts, then the first of the layout.
/// </summary>
internal sealed class FeedMap
{
    /// <summary>Stands for a district where nothing feeds both rails.</summary>
    internal const int None = -1;

    private readonly RailGraph _graph;
    private readonly FeedWays _ways;
    private readonly FrozenDictionary<string, int> _districts;

    internal FeedMap(RailGraph graph)
    {
        _graph = graph;
        _ways = FeedWays.Of(graph);
        Districts = graph.Layout.Wiring.Districts;
        _districts = Districts.Select((district, i) => (district.Name, i)).ToFrozenDictionary(pair => pair.Name, pair => pair.i);
    }

    /// <summary>The districts, in the order of the layout; a district is its index here.</summary>
    internal ImmutableArray<District> Districts { get; }

    /// <summary>The lengths of a section with the district that feeds each, from end a; neighbours of one district are one length.</summary>
    internal IEnumerable<(double From, double To, int District)> Along(PieceId section)
    {
        ImmutableArray<Station> stations = _graph.Stations(section);
        double from = 0;
        for (int i = 1; i < stations.Length; i++)
        {
            int here = Of(stations[i - 1], null);
            if (i + 1 == stations.Length || Of(stations[i], null) != here)
            {
                yield return (from, stations[i].Metres, here);
                from = stations[i].Metres;
            }
        }
    }

    /// <summary>The district of a place of a section, or <see cref="None"/>.</summary>
    internal int At(TrackPlace place) =>
        Along(place.Section).Where(part => place.MetresFromA <= part.To).Select(part => part.District).FirstOrDefault(None);

    /// <summary>The district of a way through trackwork, or <see cref="None"/>: seen at its first end, else at its other.</summary>
    internal int Through(Piece piece, DrivableWay way)
    {
        Setting? set = way.Position is { } position ? new(piece.Id, position) : null;
        if (piece.PlacesMetres is not null)
        {
            return Of(_graph.Stations(piece.Id)[0], set);
        }

        int first = AtEnd(piece.End(way.From), set);
        return first != None ? first : AtEnd(piece.End(way.To), set);
    }

    private int AtEnd(TrackEnd end, Setting? set)
    {
        (RailSide first, RailSide second) = RailSides.Of(_graph.Layout.Control);
        return Of(_graph.NodeAt(new(end, first)), _graph.NodeAt(new(end, second)), set);
    }

    private int Of(in Station station, Setting? set) => Of(station.FirstTowardsB, station.SecondTowardsB, set);

    private int Of(int first, int second, Setting? set)
    {
        (int district, int fewest) = (None, int.MaxValue);
        foreach (FeedWay one in _ways.At(first))
        {
            foreach (FeedWay other in _ways.At(second))
            {
                int contacts = one.When.Count + other.When.Count;
                if (contacts < fewest && IsPair(one, other) && Allows(one, set) && Allows(other, set))
                {
                    (district, fewest) = (_districts[(one.Wire.Leg == Leg.A ? one : other).Wire.District], contacts);
                }
            }
        }

        return district;
    }

    private bool IsPair(FeedWay one, FeedWay other) => one.Wire.Leg != other.Wire.Leg
        && Districts[_districts[one.Wire.District]].Booster == Districts[_districts[other.Wire.District]].Booster
        && FeedWays.Agree(one.When, other.When);

    private static bool Allows(FeedWay way, Setting? set) =>
        set is not { } wanted || !way.When.TryGetValue(wanted.Owner, out string? position) || position == wanted.Position;
}
