using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>A stretch of one rail of a section, between two distances from the section's end a.</summary>
/// <param name="Link">Index of the rail in <see cref="RailGraph.Links"/>.</param>
/// <param name="FromMetres">Nearer end.</param>
/// <param name="ToMetres">Farther end.</param>
internal readonly record struct Stretch(int Link, double FromMetres, double ToMetres)
{
    public bool Holds(double metres) => metres >= FromMetres - FeederTolerance.Metres && metres <= ToMetres + FeederTolerance.Metres;
}

/// <summary>What a feeder serves: stretches of rail, and the rail ends (of turnouts and sections) it reaches.</summary>
/// <param name="Stretches">The stretches.</param>
/// <param name="NodeMetres">For each rail end that is reached how far it is.</param>
internal sealed record Reach(ImmutableArray<Stretch> Stretches, ImmutableSortedDictionary<int, double> NodeMetres)
{
    public bool Holds(int node) => NodeMetres.ContainsKey(node);

    /// <summary>Whether a point of a rail is reached.</summary>
    public bool Holds(int link, double metres) => Stretches.Any(stretch => stretch.Link == link && stretch.Holds(metres));
}

/// <summary>
/// How far a feeder is trusted to carry along metal: up to a radius, through soldered joints, through the solid rails of
/// turnouts, and through as many slide-on joiners as their rail bears; never through blades, contacts or gaps.
/// </summary>
/// <param name="track">The metal.</param>
/// <param name="radiusMetres">How far.</param>
/// <param name="anyJoiners">Whether to go on through joiners whether they are trusted or not.</param>
internal sealed class TrustedReach(FeedableTrack track, double radiusMetres, bool anyJoiners = false)
{
    private readonly RailGraph _graph = track.Graph;

    /// <summary>What is reached from a point of one rail.</summary>
    public Reach FromPoint(int link, double metres)
    {
        RailLink.Rail rail = (RailLink.Rail)_graph.Links[link];
        return Search([(rail.From, metres - rail.StartMetres), (rail.To, rail.EndMetres - metres)], [(link, metres)]);
    }

    /// <summary>What is reached from a rail end.</summary>
    public Reach FromNode(int node) => Search([(node, 0)], []);

    /// <summary>What a feeder soldered to both rails at a place reaches, given the two rails it lies on.</summary>
    public Reach FromPair(int firstLink, int secondLink, double metres)
    {
        Reach first = FromPoint(firstLink, metres), second = FromPoint(secondLink, metres);
        return new([.. first.Stretches, .. second.Stretches], Nearest(first.NodeMetres.Concat(second.NodeMetres)));
    }

    private Reach Search(ReadOnlySpan<(int Node, double Metres)> starts, ReadOnlySpan<(int Link, double Metres)> within)
    {
        Dictionary<(int Node, int Joiners), double> nearest = [];
        PriorityQueue<(int Node, int Joiners), (double Metres, int Node)> open = new();
        foreach ((int node, double metres) in starts)
        {
            Offer(node, 0, metres);
        }

        while (open.TryDequeue(out (int Node, int Joiners) at, out (double Metres, int Node) priority))
        {
            if (priority.Metres > nearest[at])
            {
                continue;
            }

            foreach (int index in track.LinksOf[at.Node])
            {
                RailLink link = _graph.Links[index];
                Offer(link.Opposite(at.Node), at.Joiners + JoinersOf(link), priority.Metres + MetresOf(link));
            }
        }

        ImmutableSortedDictionary<int, double> nodes = Nearest(nearest.Select(pair => KeyValuePair.Create(pair.Key.Node, pair.Value)));
        return new(StretchesOf(nodes, within), nodes);

        void Offer(int node, int joiners, double metres)
        {
            if (joiners <= TrustedJoiners.Most && metres <= radiusMetres + FeederTolerance.Metres
                && (!nearest.TryGetValue((node, joiners), out double known) || metres < known))
            {
                nearest[(node, joiners)] = metres;
                open.Enqueue((node, joiners), (metres, node));
            }
        }
    }

    /// <summary>The way along a link; infinite where it does not always conduct.</summary>
    public static double MetresOf(RailLink link) => link switch
    {
        RailLink.Rail rail => rail.LengthMetres,
        RailLink.Bond bond => bond.LengthMetres,
        RailLink.Through => 0,
        RailLink.Contact => double.PositiveInfinity,
        _ => throw new InvalidOperationException($"unknown link {link}"),
    };

    private int JoinersOf(RailLink link) => link is RailLink.Through through && !anyJoiners ? TrustedJoiners.Spent(_graph, through.Joint) : 0;

    private static ImmutableSortedDictionary<int, double> Nearest(IEnumerable<KeyValuePair<int, double>> nodes) =>
        nodes.GroupBy(pair => pair.Key, pair => pair.Value).ToImmutableSortedDictionary(group => group.Key, group => group.Min());

    private ImmutableArray<Stretch> StretchesOf(ImmutableSortedDictionary<int, double> nodes, ReadOnlySpan<(int Link, double Metres)> within)
    {
        ImmutableArray<Stretch>.Builder stretches = ImmutableArray.CreateBuilder<Stretch>();
        foreach ((int link, double metres) in within)
        {
            Add(link, metres - radiusMetres, metres + radiusMetres);
        }

        foreach ((int node, double metres) in nodes)
        {
            double left = radiusMetres - metres;
            foreach (int index in track.LinksOf[node])
            {
                if (_graph.Links[index] is RailLink.Rail rail)
                {
                    bool fromA = rail.From == node;
                    Add(index, fromA ? rail.StartMetres : rail.EndMetres - left, fromA ? rail.StartMetres + left : rail.EndMetres);
                }
            }
        }

        return stretches.ToImmutable();

        void Add(int link, double from, double to)
        {
            RailLink.Rail rail = (RailLink.Rail)_graph.Links[link];
            (from, to) = (Math.Max(from, rail.StartMetres), Math.Min(to, rail.EndMetres));
            if (to - from > FeederTolerance.Metres)
            {
                stretches.Add(new(link, from, to));
            }
        }
    }
}

/// <summary>How exactly feeder distances are compared.</summary>
internal static class FeederTolerance
{
    /// <summary>A tenth of a millimetre: distances that differ by less are the same on the bench.</summary>
    public const double Metres = 1e-4;
}
