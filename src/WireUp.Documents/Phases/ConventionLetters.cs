using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Documents.Phases;

/// <summary>
/// Letters for rails that no feeder reaches yet: the first conductor of the first piece of each stretch of track is A, what
/// conducts to it is A too, the other conductor of the same track is B, and so on outward.
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
        List<(int From, int To, bool Same)> links = [];
        foreach (RailLink link in graph.Links.Where(link => CarriesLetter(graph, link))) links.Add((link.From, link.To, true));
        foreach (Piece piece in graph.Layout.Track)
        {
            (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
            foreach (TrackEnd end in piece.Ends)
            {
                links.Add((graph.NodeAt(new(end, first)), graph.NodeAt(new(end, second)), false));
            }
        }

        return links.SelectMany(link => new[] { link, (From: link.To, To: link.From, link.Same) })
            .ToLookup(link => link.From, link => (link.To, link.Same));
    }

    /// <summary>A frog has no letter of its own, so none is carried through it.</summary>
    private static bool CarriesLetter(RailGraph graph, RailLink link) =>
        link is not RailLink.Contact
        && graph.Nodes[link.From] is not RailPoint.Inside
        && graph.Nodes[link.To] is not RailPoint.Inside;

    private static void MarkSwitched(RailGraph graph, RailPhase[] letters)
    {
        foreach (RailLink.Contact contact in graph.Links.OfType<RailLink.Contact>())
        {
            foreach (int node in new[] { contact.From, contact.To })
            {
                if (graph.Nodes[node] is RailPoint.Inside) letters[node] = RailPhase.Switched;
            }
        }
    }
}
