using WireUp.Layouts;
using WireUp.Planning.Feeders;
using WireUp.Rails;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>
/// The fewest feeders by trying every choice of places on a 0.1 m grid: a second answer that shares nothing with the planner
/// but the rail graph. Distances are found by walking every path.
/// </summary>
internal static class FeederSearch
{
    private const double Step = 0.1;

    /// <summary>The fewest feeders, of which one lies near a place if that is wanted, through any joiners.</summary>
    public static int Fewest(Layout layout, FeederWish? wish = null)
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
                masks.Add(Enumerable.Range(0, demands.Length).Where(i => served.Contains(demands[i]))
                    .Concat(Near(graph, station, wish).Select(rail => demands.Length + rail))
                    .Aggregate(UInt128.Zero, (mask, i) => mask | (UInt128.One << i)));
            }
        }

        Assert.InRange(demands.Length, 0, 126);
        UInt128 all = masks.Aggregate(UInt128.Zero, (sum, mask) => sum | mask);
        return Enumerable.Range(0, masks.Count + 1).First(count => CanCover(masks, all, count));
    }

    /// <summary>
    /// The fewest feeders with which, besides, no failed joiner and no failed feeder leaves a place for feeders without one: every choice is tried.
    /// </summary>
    public static int FewestRobust(Layout layout)
    {
        TrackPlace[] sites = FeedableSites(layout);
        FailureOracle oracle = new(layout, sites);
        (int Feeders, UInt128 Sites)[] groups = [.. oracle.Groups.Select(group => (group.Feeders, Mask(group.Sites)))];
        UInt128[] rows = [.. ServingSites(layout, sites).Select(Mask).Where(mask => mask != 0)];
        Assert.InRange(sites.Length, 0, 128);
        return Enumerable.Range(0, sites.Length + 1).First(count => CanMeet(
            [.. rows.Select(row => (1, row)), .. groups.Select(group => (Math.Min(group.Feeders, Ones(group.Sites)), group.Sites))], 0, count));

        UInt128 Mask(IEnumerable<TrackPlace> places) =>
            places.Aggregate(UInt128.Zero, (mask, place) => mask | (UInt128.One << Array.IndexOf(sites, place)));
    }

    /// <summary>Places on the grid where a feeder may be soldered to both rails.</summary>
    public static TrackPlace[] FeedableSites(Layout layout)
    {
        TrackPlace[] sites = [.. Sites(layout, 0, Step).Where(place => !layout.NoFeeder.Contains(place.Section))];
        RailGraph graph = RailGraph.Build(layout, [.. sites]);
        bool[] switched = Switched(graph);
        return [.. sites.Where(site =>
        {
            Station station = graph.StationAt(site);
            return station.FirstTowardsA == station.FirstTowardsB && station.SecondTowardsA == station.SecondTowardsB
                && !switched[station.FirstTowardsA] && !switched[station.SecondTowardsA];
        })];
    }

    /// <summary>For each demand the sites that serve it.</summary>
    private static IEnumerable<IEnumerable<TrackPlace>> ServingSites(Layout layout, TrackPlace[] sites)
    {
        TrackPlace[] probes = [.. Sites(layout, Step / 2, Step)];
        RailGraph graph = RailGraph.Build(layout, [.. sites, .. probes]);
        bool[] switched = Switched(graph);
        (TrackPlace Site, HashSet<int> Served)[] served = [.. sites.Select(site =>
        {
            HashSet<int> nodes = [];
            Walk(graph, graph.StationAt(site).FirstTowardsA, layout.MaxFeederDistance.Meters, 1, [], nodes);
            Walk(graph, graph.StationAt(site).SecondTowardsA, layout.MaxFeederDistance.Meters, 1, [], nodes);
            return (site, nodes);
        })];
        return Demands(graph, probes).Where(node => !switched[node]).Distinct()
            .Select(node => served.Where(each => each.Served.Contains(node)).Select(each => each.Site));
    }

    private static int Ones(UInt128 mask) => (int)UInt128.PopCount(mask);

    private static bool CanMeet((int Feeders, UInt128 Sites)[] rows, UInt128 chosen, int count)
    {
        (int feeders, UInt128 open) = Array.Find(rows, row => Ones(row.Sites & chosen) < row.Feeders);
        if (feeders == 0)
        {
            return true;
        }

        for (UInt128 left = open & ~chosen; count > 0 && left != 0; left &= left - 1)
        {
            if (CanMeet(rows, chosen | (left & (~left + UInt128.One)), count - 1))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Which rails of a wish, 0 and 1, lie near enough to a feeder.</summary>
    private static IEnumerable<int> Near(RailGraph graph, Station feeder, FeederWish? wish)
    {
        if (wish is not { } wanted)
        {
            return [];
        }

        Station station = graph.StationAt(wanted.At);
        return new[] { station.FirstTowardsA, station.SecondTowardsA }
            .Select((node, rail) => (rail, served: Walked(graph, node, wanted.WithinMetres)))
            .Where(pair => pair.served.Contains(feeder.FirstTowardsA) || pair.served.Contains(feeder.SecondTowardsA))
            .Select(pair => pair.rail);
    }

    private static HashSet<int> Walked(RailGraph graph, int node, double metres)
    {
        HashSet<int> served = [];
        Walk(graph, node, metres, int.MaxValue, [], served);
        return served;
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
