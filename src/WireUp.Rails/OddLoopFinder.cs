using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Finds the closed walks that exchange the rails, and for each a way through the rails from one rail to the other where there is one.
/// Takes the joints of each that conducts out of the paths, so that what is looked for afterwards is not found through it.
/// </summary>
internal static class OddLoopFinder
{
    /// <summary>No further end of a walk is tried when so many nodes have been looked at for it.</summary>
    private const int MostNodesLookedAt = 1_000_000;

    internal static ImmutableArray<OddLoop> Find(RailGraph graph, ParityGraph parity, RailPathWorkspace paths)
    {
        ImmutableArray<OddLoop>.Builder loops = ImmutableArray.CreateBuilder<OddLoop>();
        ImmutableArray<OddWalk> walks = parity.OddWalks();
        ILookup<Joint, int> through = Enumerable.Range(0, walks.IsEmpty ? 0 : graph.Links.Length)
            .Where(link => graph.Links[link] is RailLink.Through)
            .ToLookup(link => ((RailLink.Through)graph.Links[link]).Joint);
        List<ImmutableArray<int>?> witnesses = [.. walks.Select(walk => ThroughRails(graph, parity, paths, walk))];
        for (int i = 0; i < walks.Length; i++)
        {
            loops.Add(new(walks[i], witnesses[i] is { } path ? paths.Points(path) : []));
            if (witnesses[i] is not null)
            {
                paths.Take(walks[i].Joints.SelectMany(joint => through[joint]), @out: true);
            }
        }

        while (AnyMeeting(graph, paths) is { } path)
        {
            loops.Add(new(null, paths.Points(path)));
            HashSet<int> nodes = [.. path];
            bool WithinPath(RailLink link) => nodes.Contains(link.From) && nodes.Contains(link.To);
            bool passesJoint = paths.Conducting.Any(link => link is RailLink.Through && WithinPath(link));
            paths.TakeOut(link => WithinPath(link) && (link is RailLink.Through || !passesJoint));
        }

        return loops.ToImmutable();
    }

    /// <summary>
    /// The shortest way between the two rails of any end of the parts that the walk passes; on a walk of a great many parts, of as many of
    /// its ends as may be looked at.
    /// </summary>
    private static ImmutableArray<int>? ThroughRails(RailGraph graph, ParityGraph parity, RailPathWorkspace paths, OddWalk walk)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        ImmutableArray<int>? best = null;
        long last = paths.Reached + MostNodesLookedAt;
        foreach (TrackPart part in walk.Steps.Select(step => parity.Parts[step.Part]))
        {
            foreach (TrackEnd end in paths.Reached > last ? [] : part.PlusEnds.Concat(part.MinusEnds))
            {
                int goal = graph.NodeAt(new(end, second));
                ImmutableArray<int>? path = paths.Shortest([graph.NodeAt(new(end, first))], node => node == goal);
                if (path is { } found && (best is not { } shortest || found.Length < shortest.Length))
                {
                    best = path;
                }
            }
        }

        return best;
    }

    /// <summary>A way between the two rails of an end that meet although no walk tells of it.</summary>
    private static ImmutableArray<int>? AnyMeeting(RailGraph graph, RailPathWorkspace paths)
    {
        (RailSide first, RailSide second) = RailSides.Of(graph.Layout.Control);
        SignUnionWorkspace nets = new(graph.Nodes.Length);
        foreach (RailLink link in paths.Conducting)
        {
            nets.Join(link.From, link.To);
        }

        foreach (TrackEnd end in graph.Layout.Track.SelectMany(piece => piece.Ends))
        {
            int from = graph.NodeAt(new(end, first)), to = graph.NodeAt(new(end, second));
            if (nets.Find(from).Root == nets.Find(to).Root)
            {
                return paths.Shortest([from], node => node == to);
            }
        }

        return null;
    }
}
