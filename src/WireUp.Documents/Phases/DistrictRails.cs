using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>The rails of one district: a rail that several districts share belongs to each where the other rail beside it does.</summary>
internal static class DistrictRails
{
    /// <summary>The letters of its rails; all others look as if nothing fed them.</summary>
    public static RailPhases Of(Layout layout, RailPhases phases, string district)
    {
        RailGraph graph = phases.Graph;
        bool?[] belongs = new bool?[graph.Nodes.Length];
        foreach ((int first, int second) in layout.Track.SelectMany(piece => Places(layout, graph, piece)))
        {
            bool own = (phases.DistrictOf(first) ?? phases.DistrictOf(second)) == district;
            belongs[first] = own || belongs[first] == true;
            belongs[second] = own || belongs[second] == true;
        }

        // What lies within trackwork and is fed by a contact goes with the piece.
        HashSet<PieceId> pieces = [.. Enumerable.Range(0, belongs.Length).Where(node => belongs[node] == true).Select(node => graph.Nodes[node].Piece)];
        return phases.Within(district, node => belongs[node] ?? (phases.DistrictOf(node) is { } fed ? fed == district : pieces.Contains(graph.Nodes[node].Piece)));
    }

    /// <summary>The nodes that lie beside each other on the two conductors of a piece.</summary>
    private static IEnumerable<(int First, int Second)> Places(Layout layout, RailGraph graph, Piece piece)
    {
        (RailSide first, RailSide second) = RailSides.Of(layout.Control);
        foreach (TrackEnd end in piece.Ends) yield return (graph.NodeAt(new(end, first)), graph.NodeAt(new(end, second)));
        if (piece.PlacesMetres is null) yield break;
        foreach (Station station in graph.Stations(piece.Id))
        {
            yield return (station.FirstTowardsA, station.SecondTowardsA);
            yield return (station.FirstTowardsB, station.SecondTowardsB);
        }
    }
}
