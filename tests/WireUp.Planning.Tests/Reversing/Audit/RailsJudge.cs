using WireUp.Layouts;
using WireUp.Planning.Reversing;
using WireUp.Rails;

namespace WireUp.Planning.Tests.Reversing.Audit;

/// <summary>
/// Judges a set of candidates on the rails of the layout with their gaps cut: no map of runs, no signs, no solver. Every part of the
/// track that the gaps leave has two conductors; each part may have either of them on A; of all ways to choose, the best counts.
/// </summary>
internal sealed class RailsJudge(Layout layout, double requiredMetres)
{
    /// <summary>Sections, dead-end roads, rails cut, points; null when the set cures nothing or breaks a rule.</summary>
    public (int Sections, int Roads, int Gaps, int Points)? Value(IReadOnlyList<Candidate> chosen)
    {
        if (chosen.Any(one => chosen.Any(other => one != other && one.Touches(other))))
        {
            return null;
        }

        Layout cut = HealedLayout.With(layout, chosen.SelectMany(candidate => candidate.Borders).Select(border => border.Spot.Place));
        RailGraph graph = RailGraph.Build(cut);
        int[] net = Nets(graph, [.. BridgedTrack.Ties(layout, graph)]);
        (int Left, int Right)[] tracks = [.. Tracks(graph).Select(track => (net[track.Left], net[track.Right])).Distinct()];
        if (tracks.Any(track => track.Left == track.Right))
        {
            return null;
        }

        int points = BestPoints(chosen, graph, net, tracks);
        return points < 0
            ? null
            : (chosen.Count, chosen.Sum(one => one.ExtraRoads), chosen.Sum(one => one.Gaps), points + chosen.Sum(one => one.Penalty));
    }

    /// <summary>Fewest points for swaps over all polarities of the parts; −1 when none satisfies the ties.</summary>
    private int BestPoints(IReadOnlyList<Candidate> chosen, RailGraph graph, int[] net, (int Left, int Right)[] tracks)
    {
        List<Dictionary<int, bool>> parts = Parts(tracks);
        int best = -1;
        for (int pattern = 0; pattern < 1 << parts.Count; pattern++)
        {
            Dictionary<int, bool> carriesA = parts
                .SelectMany((part, i) => part.Select(pair => (pair.Key, Value: pair.Value ^ (((pattern >> i) & 1) == 1))))
                .ToDictionary(pair => pair.Key, pair => pair.Value);
            int[] points = [.. chosen.Select(candidate => Points(candidate, graph, node => carriesA[net[node]]))];
            best = points.All(one => one >= 0) && (best < 0 || points.Sum() < best) ? points.Sum() : best;
        }

        return best;
    }

    private int Points(Candidate candidate, RailGraph graph, Func<int, bool> carriesA)
    {
        bool[] swapped = [.. candidate.Borders.Select(border =>
        {
            (int inside, int outside) = Faces(graph, border);
            return carriesA(inside) != carriesA(outside);
        })];
        int points = 0;
        foreach (BorderPair pair in candidate.Pairs.Where(pair => swapped[pair.First] != swapped[pair.Second]))
        {
            if (pair.IsTied(requiredMetres))
            {
                return -1;
            }

            points += pair.MainWay ? CandidatePenalty.SwapOnMainWay : CandidatePenalty.SwapElsewhere;
        }

        return points;
    }

    /// <summary>The nodes of one rail on the two faces of a border; which of them is inside does not matter.</summary>
    private static (int One, int Other) Faces(RailGraph graph, Border border)
    {
        switch (border.Spot.Place)
        {
            case GapPlace.InSection within:
                Station station = graph.StationAt(within.Place);
                return (station.FirstTowardsA, station.FirstTowardsB);
            case GapPlace.InJoint joint:
                TrackEnd opposite = graph.Index.Opposite(joint.End)!.Value;
                return (graph.NodeAt(new(joint.End, RailSide.Left)), graph.NodeAt(new(opposite, RailSide.Right)));
            default:
                throw new InvalidOperationException();
        }
    }

    private static IEnumerable<(int Left, int Right)> Tracks(RailGraph graph) =>
        graph.Layout.Track.SelectMany(piece => piece.Ends)
            .Select(end => (graph.NodeAt(new(end, RailSide.Left)), graph.NodeAt(new(end, RailSide.Right))))
            .Concat(graph.Layout.Track.OfType<Piece.Section>()
                .SelectMany(section => graph.Stations(section.Id))
                .SelectMany(at => new[] { (at.FirstTowardsA, at.SecondTowardsA), (at.FirstTowardsB, at.SecondTowardsB) }));

    private static List<Dictionary<int, bool>> Parts((int Left, int Right)[] tracks)
    {
        List<Dictionary<int, bool>> parts = [];
        ILookup<int, int> facing = tracks
            .SelectMany(track => new[] { track, (track.Right, track.Left) })
            .ToLookup(pair => pair.Item1, pair => pair.Item2);
        HashSet<int> seen = [];
        foreach ((int start, _) in tracks.Where(track => !seen.Contains(track.Left)))
        {
            Dictionary<int, bool> part = new() { [start] = true };
            Queue<int> open = new([start]);
            while (open.TryDequeue(out int node))
            {
                _ = seen.Add(node);
                foreach (int other in facing[node].Where(other => part.TryAdd(other, !part[node])))
                {
                    open.Enqueue(other);
                }
            }

            parts.Add(part);
        }

        return parts;
    }

    private static int[] Nets(RailGraph graph, (int From, int To)[] ties)
    {
        int[] net = [.. Enumerable.Repeat(-1, graph.Nodes.Length)];
        ILookup<int, int> next = graph.Links.Where(link => link is not RailLink.Contact)
            .Select(link => (link.From, link.To))
            .Concat(ties)
            .SelectMany(link => new[] { (link.From, link.To), (From: link.To, To: link.From) })
            .ToLookup(pair => pair.From, pair => pair.To);
        for (int start = 0; start < net.Length; start++)
        {
            Stack<int> open = new(net[start] < 0 ? [start] : []);
            while (open.TryPop(out int node))
            {
                if (net[node] < 0)
                {
                    net[node] = start;
                    foreach (int other in next[node])
                    {
                        open.Push(other);
                    }
                }
            }
        }

        return net;
    }
}
