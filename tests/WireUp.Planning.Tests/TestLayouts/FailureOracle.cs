using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>
/// Lets joiners and feeders of a layout fail one by one and walks the metal each time: which places where a feeder may be soldered are
/// joined to no feeder any more. Shares nothing with the planner but the rail graph.
/// </summary>
internal sealed class FailureOracle
{
    private readonly RailGraph _graph;
    private readonly Dictionary<TrackPlace, int[]> _nodes;

    /// <summary>Looks at a layout.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="sites">Places where a feeder may be soldered, none at a gap.</param>
    public FailureOracle(Layout layout, IReadOnlyCollection<TrackPlace> sites)
    {
        _graph = RailGraph.Build(layout, [.. sites]);
        _nodes = sites.ToDictionary(site => site, site => new[] { _graph.StationAt(site).FirstTowardsA, _graph.StationAt(site).SecondTowardsA });
        Failures = [null, .. _graph.Links.OfType<RailLink.Through>().Where(link => link.Joint.Kind == JointKind.Joiner)];
        Groups = [.. Failures.SelectMany(failure => GroupsOf(failure).Select(group => (failure is null ? 2 : 1, group)))];
    }

    private RailLink.Through?[] Failures { get; }

    /// <summary>
    /// Sets of sites of which so many need a feeder: what hangs together while a joiner fails needs one; what hangs together while
    /// none does needs two, for one may fail, unless it has one site only.
    /// </summary>
    public (int Feeders, HashSet<TrackPlace> Sites)[] Groups { get; }

    private IEnumerable<HashSet<TrackPlace>> GroupsOf(RailLink.Through? failed)
    {
        HashSet<int> seen = [];
        foreach (int start in _nodes.Values.SelectMany(nodes => nodes).Where(node => !seen.Contains(node)))
        {
            HashSet<int> metal = [start];
            Stack<int> open = new([start]);
            while (open.TryPop(out int node))
            {
                foreach (RailLink link in _graph.Links.Where(link => (link.From == node || link.To == node) && link is not RailLink.Contact && link != failed))
                {
                    if (metal.Add(link.Opposite(node)))
                    {
                        open.Push(link.Opposite(node));
                    }
                }
            }

            seen.UnionWith(metal);
            yield return [.. _nodes.Where(pair => pair.Value.Any(metal.Contains)).Select(pair => pair.Key)];
        }
    }
}
