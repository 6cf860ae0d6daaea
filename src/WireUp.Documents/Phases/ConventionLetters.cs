using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>
/// Letters for rails that no feeder reaches yet: the first conductor of the first piece of each stretch of track is A, what
/// conducts to it or would through trackwork as it should is A too, the other conductor of the same track is B, and so on outward.
/// </summary>
internal static class ConventionLetters
{
    /// <summary>One letter a node; where a way round disagrees, the letter that came first stays.</summary>
    public static ImmutableArray<RailPhase> Of(RailGraph graph)
    {
        RailPhase[] letters = new RailPhase[graph.Nodes.Length];
        ILookup<int, (int Node, bool Same)> neighbours = Neighbours(graph);
        foreach (Piece piece in graph.Layout.Track)
        {
            RailSide first = RailSides.Of(graph.Layout.Control).First;
            foreach (TrackEnd end in piece.Ends) Spread(graph.NodeAt(new(end, first.Across())), letters, neighbours);
            if (piece.PlacesMetres is not null) Spread(graph.Stations(piece.Id)[0].FirstTowardsB, letters, neighbours);
        }

        MarkSwitched(graph, letters);
        return [.. letters];
    }

    /// <summary>Whether a way round disagrees: two points of one rail have two letters, or both rails of a track have one.</summary>
    public static bool Clash(RailGraph graph, ImmutableArray<RailPhase> letters) =>
        Neighbours(graph).Any(group => group.Any(next => next.Same != (letters[group.Key] == letters[next.Node])));

    private static void Spread(int start, RailPhase[] letters, ILookup<int, (int Node, bool Same)> neighbours)
    {
        if (letters[start] != RailPhase.Unfed) return;
        letters[start] = RailPhase.A;
        Queue<int> open = new([start]);
        while (open.TryDequeue(out int node))
        {
            foreach ((int next, bool same) in neighbours[node])
            {
                if (letters[next] != RailPhase.Unfed) continue;
                letters[next] = same == (letters[node] == RailPhase.A) ? RailPhase.A : RailPhase.B;
                open.Enqueue(next);
            }
        }
    }

    private static ILookup<int, (int Node, bool Same)> Neighbours(RailGraph graph)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        List<(int From, int To, bool Same)> links = [.. graph.Links.Where(link => CarriesLetter(graph, link)).Select(link => (link.From, link.To, true))];
        foreach (Piece piece in graph.Layout.Track)
        {
            links.AddRange(piece.Ends.Select(end => (graph.NodeAt(new(end, first)), graph.NodeAt(new(end, second)), false)));
            if (piece is Piece.Section) continue;
            links.AddRange(Through(graph, piece));
            if (piece.PlacesMetres is not null) links.AddRange(graph.Stations(piece.Id).Select(station => (station.FirstTowardsB, station.SecondTowardsB, false)));
        }

        return links.SelectMany(link => new[] { link, (From: link.To, To: link.From, link.Same) })
            .ToLookup(link => link.From, link => (link.To, link.Same));
    }

    /// <summary>Along the rails of sections and bridges and through joints, also those of a section that can be lifted out.</summary>
    private static bool CarriesLetter(RailGraph graph, RailLink link) => link switch
    {
        RailLink.Rail or RailLink.Through => true,
        RailLink.Contact contact => graph.Index.FindPiece(contact.Piece) is Piece.Section,
        _ => false,
    };

    /// <summary>Whatever its blades and frogs do, the polarity of certain ends of trackwork hangs together; the trackwork table says of which.</summary>
    private static IEnumerable<(int From, int To, bool Same)> Through(RailGraph graph, Piece piece)
    {
        (RailSide first, _) = RailSides.Of(graph.Layout.Control);
        foreach (PhaseGroup group in TrackworkTable.Of(piece, graph.Layout.Control).Phases)
        {
            int[] nodes =
            [
                .. group.Plus.Select(end => graph.NodeAt(new(piece.End(end), first.Across()))),
                .. group.Minus.Select(end => graph.NodeAt(new(piece.End(end), first))),
            ];
            for (int i = 1; i < nodes.Length; i++) yield return (nodes[i - 1], nodes[i], true);
        }
    }

    private static void MarkSwitched(RailGraph graph, RailPhase[] letters)
    {
        foreach (RailLink.Contact contact in graph.Links.OfType<RailLink.Contact>())
        {
            foreach (int node in new[] { contact.From, contact.To })
            {
                if (graph.Nodes[node] is RailPoint.Inside inside && inside.Name.StartsWith(TrackworkTable.Frog, StringComparison.Ordinal)) letters[node] = RailPhase.Switched;
            }
        }
    }
}
