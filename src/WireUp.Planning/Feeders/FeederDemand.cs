using System.Collections.Immutable;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>A piece of metal that all candidates serve whole or not at all, and the candidates that do.</summary>
/// <param name="Node">A node of the metal; tells its island.</param>
/// <param name="Stretch">The length of rail, or null for a rail end of a turnout.</param>
/// <param name="By">Candidates that serve it, ascending.</param>
internal sealed record Demand(int Node, Stretch? Stretch, ImmutableArray<int> By);

/// <summary>Cuts every rail that needs feeding at the limits of the candidates' reaches.</summary>
internal static class FeederDemand
{
    /// <summary>All demands, rails first.</summary>
    /// <param name="track">What needs feeding.</param>
    /// <param name="reaches">What each candidate serves.</param>
    public static ImmutableArray<Demand> Of(FeedableTrack track, IReadOnlyList<Reach> reaches)
    {
        ILookup<int, (int By, Stretch Stretch)> onLink = reaches
            .SelectMany((reach, by) => reach.Stretches.Select(stretch => (by, stretch)))
            .ToLookup(pair => pair.stretch.Link);
        ILookup<int, int> atNode = reaches
            .SelectMany((reach, by) => reach.NodeMetres.Keys.Select(node => (by, node)))
            .ToLookup(pair => pair.node, pair => pair.by);
        return
        [
            .. track.DemandLinks.SelectMany(link => Cut(track, link, [.. onLink[link]])),
            .. track.DemandNodes.Select(node => new Demand(node, null, [.. atNode[node].Distinct().Order()])),
        ];
    }

    private static IEnumerable<Demand> Cut(FeedableTrack track, int link, IReadOnlyList<(int By, Stretch Stretch)> serving)
    {
        RailLink.Rail rail = (RailLink.Rail)track.Graph.Links[link];
        List<double> cuts = [rail.StartMetres, rail.EndMetres];
        cuts.AddRange(serving.SelectMany(each => new[] { each.Stretch.FromMetres, each.Stretch.ToMetres }));
        cuts.Sort();
        for (int i = 1; i < cuts.Count; i++)
        {
            (double from, double to) = (cuts[i - 1], cuts[i]);
            if (to - from > FeederTolerance.Metres)
            {
                double middle = (from + to) / 2;
                IEnumerable<int> by = serving
                    .Where(each => each.Stretch.FromMetres <= middle && each.Stretch.ToMetres >= middle)
                    .Select(each => each.By);
                yield return new(rail.From, new Stretch(link, from, to), [.. by.Distinct().Order()]);
            }
        }
    }
}
