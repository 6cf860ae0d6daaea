using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>Which nets are the two rails of the same track somewhere.</summary>
internal sealed class RailMates
{
    private readonly RailNets _nets;
    private readonly Dictionary<(int, int), List<(int First, int Second)>> _places = [];

    internal RailMates(RailGraph graph, RailNets nets)
    {
        _nets = nets;
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        foreach (TrackEnd end in graph.Layout.Track.SelectMany(piece => piece.Ends))
        {
            Add(graph.NodeAt(new(end, first)), graph.NodeAt(new(end, second)));
        }

        foreach (Station station in graph.Layout.Track.Where(piece => piece.PlacesMetres is not null).SelectMany(piece => graph.Stations(piece.Id)))
        {
            Add(station.FirstTowardsA, station.SecondTowardsA);
            Add(station.FirstTowardsB, station.SecondTowardsB);
        }
    }

    /// <summary>Whether two nets are the two rails of some track.</summary>
    internal bool Are(int one, int other) => _places.ContainsKey(Key(one, other));

    /// <summary>Where they are: the two nodes of each such place, the one net's node first.</summary>
    internal IEnumerable<(int One, int Other)> Places(int one, int other) =>
        _places[Key(one, other)].Select(place => _nets.NetOf[place.First] == one ? place : (place.Second, place.First));

    private static (int, int) Key(int one, int other) => (Math.Min(one, other), Math.Max(one, other));

    private void Add(int first, int second)
    {
        (int, int) key = Key(_nets.NetOf[first], _nets.NetOf[second]);
        if (!_places.TryGetValue(key, out List<(int, int)>? places))
        {
            _places[key] = places = [];
        }

        places.Add((first, second));
    }
}
