using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>Tests gaps on the rails themselves, without the map the planner works on.</summary>
internal static class ReversingProof
{
    /// <summary>Sections whose left and right rail are one conductor when the layout has these double gaps and no others.</summary>
    internal static ImmutableArray<PieceId> Shorted(Layout layout, IEnumerable<GapPlace> gaps)
    {
        RailGraph graph = RailGraph.Build(HealedLayout.With(layout, gaps));
        int[] conductor = Conductors(layout, graph);
        return
        [
            .. layout.Track.OfType<Piece.Section>()
                .Select(section => section.Id)
                .Where(section => graph.Stations(section).Any(station =>
                    conductor[station.FirstTowardsA] == conductor[station.SecondTowardsA]
                    || conductor[station.FirstTowardsB] == conductor[station.SecondTowardsB]))
                .Order(),
        ];
    }

    /// <summary>
    /// The shortest way along the rails from the left to the right rail of a place, as the pieces passed; empty when there is none.
    /// </summary>
    internal static ImmutableArray<PieceId> Walk(Layout layout, IEnumerable<GapPlace> gaps, TrackPlace at)
    {
        RailGraph graph = RailGraph.Build(HealedLayout.With(layout, gaps), [at]);
        ILookup<int, int> next = HealedLayout.Links(layout, graph)
            .SelectMany(link => new[] { (link.From, link.To), (From: link.To, To: link.From) })
            .ToLookup(pair => pair.From, pair => pair.To);
        Station station = graph.StationAt(at);
        Dictionary<int, int> cameFrom = new() { [station.FirstTowardsA] = station.FirstTowardsA };
        Queue<int> open = new([station.FirstTowardsA]);
        while (open.TryDequeue(out int node) && node != station.SecondTowardsA)
        {
            foreach (int reached in next[node].Where(reached => cameFrom.TryAdd(reached, node)))
            {
                open.Enqueue(reached);
            }
        }

        return cameFrom.ContainsKey(station.SecondTowardsA) ? Pieces(graph, cameFrom, station.SecondTowardsA) : [];
    }

    private static ImmutableArray<PieceId> Pieces(RailGraph graph, Dictionary<int, int> cameFrom, int node)
    {
        List<PieceId> passed = [graph.Nodes[node].Piece];
        for (; cameFrom[node] != node; node = cameFrom[node])
        {
            PieceId piece = graph.Nodes[cameFrom[node]].Piece;
            if (piece != passed[^1])
            {
                passed.Add(piece);
            }
        }

        passed.Reverse();
        return [.. passed];
    }

    /// <summary>Union–find over everything that always conducts.</summary>
    private static int[] Conductors(Layout layout, RailGraph graph)
    {
        SignUnionWorkspace joined = new(graph.Nodes.Length);
        foreach ((int from, int to) in HealedLayout.Links(layout, graph))
        {
            _ = joined.Join(from, to, differ: false);
        }

        return [.. Enumerable.Range(0, graph.Nodes.Length).Select(node => joined.Find(node).Root)];
    }
}
