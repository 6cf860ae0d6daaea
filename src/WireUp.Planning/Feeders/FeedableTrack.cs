using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;
using WireUp.Planning.Frogs;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>A length of a section between two cuts or ends where a feeder may be soldered to both rails.</summary>
/// <param name="Section">The section.</param>
/// <param name="FromMetres">First place, from end a.</param>
/// <param name="ToMetres">Last place, from end a.</param>
internal readonly record struct FeedSpan(PieceId Section, double FromMetres, double ToMetres)
{
    public double MiddleMetres => (FromMetres + ToMetres) / 2;

    public bool Holds(double metres) =>
        metres >= FromMetres - FeederTolerance.Metres && metres <= ToMetres + FeederTolerance.Metres;
}

/// <summary>
/// Which metal needs feeders and where they may be soldered. Metal that gets its polarity through blades, a contact, a switch or the
/// road a bridge stands at needs none and must have none: a feeder there would meet the other polarity, or feed for good what is
/// meant to be switched off.
/// </summary>
internal sealed class FeedableTrack
{
    private readonly bool[] _switched;
    private readonly bool[] _matters;
    private readonly FrozenDictionary<PieceId, ImmutableArray<(int First, int Second)>> _links;

    /// <summary>Looks at a layout's rails.</summary>
    /// <param name="graph">The rails.</param>
    /// <param name="marginMetres">Distance kept from cuts and ends.</param>
    /// <param name="around">Places whose parts of the track alone matter, or null for all track.</param>
    public FeedableTrack(RailGraph graph, double marginMetres, IEnumerable<TrackPlace>? around = null)
    {
        Graph = graph;
        IslandOf = Islands(graph);
        _switched = SwitchedNodes(graph, IslandOf);
        _links = PairLinks(graph);
        LinksOf = Metal(graph);
        SolderSpots spots = new(graph.Layout);
        Spans = [.. graph.Layout.Track
            .Where(piece => MovingBridges.TakesFeeders(piece, graph.Layout.Control) && spots.On(piece))
            .SelectMany(piece => SpansOf(piece, marginMetres).SelectMany(span => spots.Within(piece, span)))];
        DisjointSetsWorkspace parts = Parts();
        HashSet<int>? wanted = around?.Select(place => parts.Find(IslandOf[Graph.Links[LinksAt(place).First].From])).ToHashSet();
        _matters = [.. IslandOf.Select(island => wanted is null || wanted.Contains(parts.Find(island)))];
        Spans = [.. Spans.Where(Matters)];
    }

    public RailGraph Graph { get; }

    /// <summary>For each node the number of its island: everything that always conducts to it. An island's number is its first node.</summary>
    public int[] IslandOf { get; }

    /// <summary>For each node the links that always conduct to it.</summary>
    public ImmutableArray<ImmutableArray<int>> LinksOf { get; }

    /// <summary>Where feeders may go, in the order of the track.</summary>
    public ImmutableArray<FeedSpan> Spans { get; }

    /// <summary>Whether a node's metal gets its polarity through blades or a contact.</summary>
    public bool IsSwitched(int node) => _switched[node];

    /// <summary>Rails of sections that must be fed: indices of links.</summary>
    public IEnumerable<int> DemandLinks => Enumerable.Range(0, Graph.Links.Length)
        .Where(link => Graph.Links[link] is RailLink.Rail rail && !_switched[rail.From] && _matters[rail.From]);

    /// <summary>Rail ends of trackwork that must be fed: indices of nodes. Roads at a moving bridge end in plain track, which is fed.</summary>
    public IEnumerable<int> DemandNodes => Enumerable.Range(0, Graph.Nodes.Length)
        .Where(node => !_switched[node] && _matters[node] && Graph.Nodes[node] is RailPoint.AtEnd end
            && Graph.Index.Piece(end.Piece) is { PlacesMetres: null } and not Piece.Stop);

    /// <summary>The links of both rails at a place that is no gap.</summary>
    public (int First, int Second) LinksAt(TrackPlace place)
    {
        foreach ((int first, int second) in _links[place.Section])
        {
            RailLink.Rail rail = (RailLink.Rail)Graph.Links[first];
            if (place.MetresFromA <= rail.EndMetres + FeederTolerance.Metres)
            {
                return (first, second);
            }
        }

        throw new ArgumentOutOfRangeException(nameof(place), place, "beyond the section's end");
    }

    /// <summary>The same two links, for walking over both.</summary>
    public int[] BothLinksAt(TrackPlace place)
    {
        (int first, int second) = LinksAt(place);
        return [first, second];
    }

    /// <summary>Whether the track at a place is in a part that matters: metal that some feeder could tie to metal of the places given.</summary>
    public bool Matters(TrackPlace place) => _matters[Graph.Links[LinksAt(place).First].From];

    private bool Matters(FeedSpan span) => Matters(new TrackPlace(span.Section, span.MiddleMetres));

    /// <summary>Islands that a feeder ties to one another, each with its other rail.</summary>
    private DisjointSetsWorkspace Parts()
    {
        DisjointSetsWorkspace parts = new(Graph.Nodes.Length);
        foreach (FeedSpan span in Spans)
        {
            (int first, int second) = LinksAt(new(span.Section, span.MiddleMetres));
            parts.Join(IslandOf[Graph.Links[first].From], IslandOf[Graph.Links[second].From]);
        }

        return parts;
    }

    private IEnumerable<FeedSpan> SpansOf(Piece section, double marginMetres)
    {
        ImmutableArray<Station> stations = Graph.Stations(section.Id);
        ImmutableArray<Station> cuts = [.. stations.Where((station, i) => i == 0 || i == stations.Length - 1
            || station.FirstTowardsA != station.FirstTowardsB || station.SecondTowardsA != station.SecondTowardsB)];
        for (int i = 1; i < cuts.Length; i++)
        {
            (Station from, Station to) = (cuts[i - 1], cuts[i]);
            double margin = Math.Min(marginMetres, (to.Metres - from.Metres) / 2);
            bool feedable = !_switched[from.FirstTowardsB] && !_switched[from.SecondTowardsB];
            if (feedable && to.Metres - from.Metres > FeederTolerance.Metres)
            {
                yield return new(section.Id, from.Metres + margin, to.Metres - margin);
            }
        }
    }

    private static ImmutableArray<ImmutableArray<int>> Metal(RailGraph graph)
    {
        List<int>[] links = [.. Enumerable.Range(0, graph.Nodes.Length).Select(_ => new List<int>())];
        for (int i = 0; i < graph.Links.Length; i++)
        {
            if (graph.Links[i] is not RailLink.Contact)
            {
                links[graph.Links[i].From].Add(i);
                links[graph.Links[i].To].Add(i);
            }
        }

        return [.. links.Select(list => list.ToImmutableArray())];
    }

    private static int[] Islands(RailGraph graph)
    {
        DisjointSetsWorkspace islands = new(graph.Nodes.Length);
        foreach (RailLink link in graph.Links.Where(link => link is not RailLink.Contact))
        {
            islands.Join(link.From, link.To);
        }

        return [.. Enumerable.Range(0, graph.Nodes.Length).Select(islands.Find)];
    }

    private static bool[] SwitchedNodes(RailGraph graph, int[] islandOf)
    {
        Layout layout = graph.Layout;
        IEnumerable<int> frogs = layout.Track
            .SelectMany(piece => FollowingConductor.Of(piece, layout.Control))
            .Select(frog => graph.NodeInside(frog.Piece.Id, frog.Names[0])!.Value);
        IEnumerable<int> bridges = layout.Track
            .Where(piece => piece.PlacesMetres is not null && !MovingBridges.TakesFeeders(piece, layout.Control))
            .SelectMany(piece => graph.Stations(piece.Id))
            .SelectMany(station => new[] { station.FirstTowardsB, station.SecondTowardsB });
        HashSet<int> switched = [.. frogs.Concat(bridges).Concat(BehindSwitches(graph, islandOf)).Select(node => islandOf[node])];
        return [.. islandOf.Select(switched.Contains)];
    }

    /// <summary>
    /// Rails that a switch feeds: where switched feeders are soldered, and beyond a gap that a switch bridges, on the side that has less
    /// rail.
    /// </summary>
    private static IEnumerable<int> BehindSwitches(RailGraph graph, int[] islandOf)
    {
        ILookup<int, double> metres = graph.Links.OfType<RailLink.Rail>().ToLookup(rail => islandOf[rail.From], rail => rail.LengthMetres);
        HashSet<PieceId> owners = [.. graph.Layout.Wiring.Gaps.Select(gap => gap.BridgedWhen?.Owner).OfType<PieceId>()];
        foreach (RailLink.Contact contact in graph.Links.OfType<RailLink.Contact>())
        {
            if (graph.Nodes[contact.From] is RailPoint.AtWire)
            {
                yield return contact.To;
            }
            else if (owners.Contains(contact.Piece) && graph.Nodes[contact.From] is not RailPoint.Inside && graph.Nodes[contact.To] is not RailPoint.Inside)
            {
                yield return metres[islandOf[contact.From]].Sum() < metres[islandOf[contact.To]].Sum() ? contact.From : contact.To;
            }
        }
    }

    private static FrozenDictionary<PieceId, ImmutableArray<(int First, int Second)>> PairLinks(RailGraph graph)
    {
        RailSide firstSide = RailSides.Of(graph.Layout.Control).First;
        return Enumerable.Range(0, graph.Links.Length)
            .Where(link => graph.Links[link] is RailLink.Rail)
            .GroupBy(link => ((RailLink.Rail)graph.Links[link]).Section)
            .ToFrozenDictionary(group => group.Key, Pairs);

        ImmutableArray<(int First, int Second)> Pairs(IEnumerable<int> links)
        {
            ILookup<bool, int> bySide = links
                .OrderBy(link => ((RailLink.Rail)graph.Links[link]).StartMetres)
                .ToLookup(link => ((RailLink.Rail)graph.Links[link]).Side == firstSide);
            return [.. bySide[true].Zip(bySide[false])];
        }
    }
}
