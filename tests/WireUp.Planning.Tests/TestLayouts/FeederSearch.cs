using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>
/// The fewest feeders by trying every choice of places on a 0.1 m grid: a second answer that shares nothing with the planner
/// but the rail graph. Distances are found by walking every path.
/// </summary>
internal static class FeederSearch
{
    private const double Step = 0.1;

    public static int Fewest(Layout layout)
    {
        TrackPlace[] sites = [.. Sites(layout, 0, Step).Where(place => !layout.NoFeeder.Contains(place.Section))];
        TrackPlace[] probes = [.. Sites(layout, Step / 2, Step)];
        RailGraph graph = RailGraph.Build(layout, [.. sites, .. probes]);
        bool[] switched = Switched(graph);
        int[] demands = [.. Demands(graph, probes).Where(node => !switched[node])];
        List<UInt128> masks = [];
        foreach (TrackPlace site in sites)
        {
            Station station = graph.StationAt(site);
            bool gap = station.FirstTowardsA != station.FirstTowardsB || station.SecondTowardsA != station.SecondTowardsB;
            if (!gap && !switched[station.FirstTowardsA] && !switched[station.SecondTowardsA])
            {
                HashSet<int> served = [];
                Walk(graph, station.FirstTowardsA, layout.MaxFeederDistance.Meters, 1, [], served);
                Walk(graph, station.SecondTowardsA, layout.MaxFeederDistance.Meters, 1, [], served);
                masks.Add(Enumerable.Range(0, demands.Length).Where(i => served.Contains(demands[i])).Aggregate(UInt128.Zero, (mask, i) => mask | (UInt128.One << i)));
            }
        }

        Assert.InRange(demands.Length, 0, 128);
        UInt128 all = masks.Aggregate(UInt128.Zero, (sum, mask) => sum | mask);
        return Enumerable.Range(0, masks.Count + 1).First(count => CanCover(masks, all, count));
    }

    private static IEnumerable<TrackPlace> Sites(Layout layout, double offset, double step) =>
        layout.Track.OfType<Piece.Section>().SelectMany(section =>
            Enumerable.Range(0, (int)Math.Round(section.Length.Meters / step) + 1)
                .Select(i => Math.Round(offset + (i * step), 6))
                .Where(metres => metres > 1e-6 && metres < section.Length.Meters - 1e-6)
                .Select(metres => new TrackPlace(section.Id, metres)));

    private static IEnumerable<int> Demands(RailGraph graph, IEnumerable<TrackPlace> probes)
    {
        foreach (Station station in probes.Select(graph.StationAt))
        {
            yield return station.FirstTowardsA;
            yield return station.SecondTowardsA;
        }

        foreach (Piece.Turnout turnout in graph.Layout.Track.OfType<Piece.Turnout>())
        {
            foreach (TrackEnd end in turnout.Ends)
            {
                yield return graph.NodeAt(new(end, RailSide.Left));
                yield return graph.NodeAt(new(end, RailSide.Right));
            }
        }
    }

    private static bool[] Switched(RailGraph graph)
    {
        HashSet<int> switched = [];
        foreach (Piece.Turnout turnout in graph.Layout.Track.OfType<Piece.Turnout>())
        {
            if (graph.NodeInside(turnout.Id, "frog") is { } frog)
            {
                Walk(graph, frog, double.PositiveInfinity, int.MaxValue, [], switched);
            }
        }

        return [.. Enumerable.Range(0, graph.Nodes.Length).Select(switched.Contains)];
    }

    private static void Walk(RailGraph graph, int node, double metres, int joiners, HashSet<int> onPath, HashSet<int> served)
    {
        if (metres < -1e-9 || joiners < 0 || !onPath.Add(node))
        {
            return;
        }

        served.Add(node);
        foreach (RailLink link in graph.Links.Where(link => link.From == node || link.To == node))
        {
            if (link is not RailLink.Contact)
            {
                double length = link switch { RailLink.Rail rail => rail.LengthMetres, RailLink.Bond bond => bond.LengthMetres, _ => 0 };
                int joiner = link is RailLink.Through { Joint.Kind: JointKind.Joiner } ? 1 : 0;
                Walk(graph, link.Opposite(node), metres - length, joiners - joiner, onPath, served);
            }
        }

        onPath.Remove(node);
    }

    private static bool CanCover(List<UInt128> masks, UInt128 left, int count)
    {
        if (left == 0)
        {
            return true;
        }

        UInt128 first = left & (~left + UInt128.One);
        return count > 0 && masks.Any(mask => (mask & first) != 0 && CanCover(masks, left & ~mask, count - 1));
    }
}
