using System.Collections.Immutable;
using WireUp.Layouts.Tracing.Junctions;

namespace WireUp.Layouts.Tracing.Lines;

/// <summary>A run of track between two nodes.</summary>
/// <param name="Points">Its centre line.</param>
/// <param name="From">The node where it begins.</param>
/// <param name="To">The node where it ends.</param>
internal sealed record TracedTrack(ImmutableArray<PlanPoint> Points, int From, int To);

/// <summary>One end of a run of track, by its number, as it leaves a node.</summary>
internal readonly record struct TrackTip(int Track, bool AtStart);

/// <summary>Tracks that were put together.</summary>
/// <param name="Track">What they are together.</param>
/// <param name="Begin">The end of a part with which it begins.</param>
/// <param name="End">The end of a part with which it ends.</param>
/// <param name="IsRing">Whether its end leads into its beginning.</param>
internal sealed record MergedTrack(TracedTrack Track, TrackTip Begin, TrackTip End, bool IsRing);

/// <summary>Cuts lines at their nodes and puts together what goes on from one line into the next.</summary>
internal static class LineTracks
{
    /// <summary>Two lines that meet lead into each other without a question down to this angle between them.</summary>
    public const double SharpBelow = 80 * Math.PI / 180;

    /// <summary>The runs of track, in the order of the lines: from node to node, where two lines meet at no sharp corner straight on.</summary>
    public static ImmutableArray<TracedTrack> Of(ImmutableArray<ImmutableArray<PlanPoint>> lines, ImmutableArray<LineNode> nodes, double reachMetres)
    {
        ImmutableArray<TracedTrack> parts = Parts(lines, nodes);
        return [.. Merged(parts, TipsByNode(parts, nodes.Length).Where(tips => tips.Length == 2 && IsSmooth(tips)).Select(tips => (tips[0], tips[1]))).Select(merged => merged.Track)];

        bool IsSmooth(TrackTip[] tips) => Junctions.Branch.Between(Bearing(tips[0]), Bearing(tips[1])) >= SharpBelow;

        double Bearing(TrackTip tip) => Branch(parts[tip.Track], tip.AtStart).Bearing(reachMetres);
    }

    /// <summary>Tracks put together where one goes on as another.</summary>
    /// <param name="parts">The tracks.</param>
    /// <param name="passes">The ends of them that lead into each other.</param>
    public static ImmutableArray<MergedTrack> Merged(ImmutableArray<TracedTrack> parts, IEnumerable<(TrackTip, TrackTip)> passes)
    {
        Dictionary<TrackTip, TrackTip> goesOn = [];
        foreach ((TrackTip one, TrackTip other) in passes)
        {
            goesOn[one] = other;
            goesOn[other] = one;
        }

        return Together(parts, goesOn);
    }

    /// <summary>The ends of track at every node.</summary>
    public static ImmutableArray<TrackTip[]> TipsByNode(ImmutableArray<TracedTrack> tracks, int nodes)
    {
        List<TrackTip>[] tips = [.. Enumerable.Range(0, nodes).Select(_ => new List<TrackTip>())];
        for (int track = 0; track < tracks.Length; track++)
        {
            tips[tracks[track].From].Add(new(track, true));
            tips[tracks[track].To].Add(new(track, false));
        }

        return [.. tips.Select(each => each.ToArray())];
    }

    /// <summary>The centre line of a track as it leaves at one of its ends.</summary>
    public static Branch Branch(TracedTrack track, bool atStart) => new(atStart ? track.Points : [.. track.Points.Reverse()]);

    private static ImmutableArray<TracedTrack> Parts(ImmutableArray<ImmutableArray<PlanPoint>> lines, ImmutableArray<LineNode> nodes)
    {
        List<(double Along, int Node)>[] onLine = [.. lines.Select(_ => new List<(double, int)>())];
        for (int node = 0; node < nodes.Length; node++)
        {
            foreach (LinePlace place in nodes[node].Places) onLine[place.Line].Add((place.Along, node));
        }

        ImmutableArray<TracedTrack>.Builder parts = ImmutableArray.CreateBuilder<TracedTrack>();
        for (int line = 0; line < lines.Length; line++)
        {
            (double Along, int Node)[] places = [.. onLine[line].Order()];
            for (int i = 1; i < places.Length; i++)
            {
                ImmutableArray<PlanPoint> inner = Polyline.Part(lines[line], places[i - 1].Along, places[i].Along);
                ImmutableArray<PlanPoint> points = [nodes[places[i - 1].Node].At, .. inner[1..^1], nodes[places[i].Node].At];
                points = [.. points.Where((point, at) => at == 0 || point != points[at - 1])];
                if (points.Length > 1) parts.Add(new(points, places[i - 1].Node, places[i].Node));
            }
        }

        return parts.ToImmutable();
    }

    private static ImmutableArray<MergedTrack> Together(ImmutableArray<TracedTrack> parts, Dictionary<TrackTip, TrackTip> goesOn)
    {
        bool[] done = new bool[parts.Length];
        ImmutableArray<MergedTrack>.Builder tracks = ImmutableArray.CreateBuilder<MergedTrack>();
        for (int part = 0; part < parts.Length; part++)
        {
            if (!done[part]) tracks.Add(From(Begin(part)));
        }

        return tracks.ToImmutable();

        // Back to where the run begins; of a ring, which has no beginning, the part itself.
        TrackTip Begin(int part)
        {
            TrackTip tip = new(part, true);
            while (goesOn.TryGetValue(tip, out TrackTip before))
            {
                tip = before with { AtStart = !before.AtStart };
                if (tip.Track == part) return new(part, true);
            }

            return tip;
        }

        MergedTrack From(TrackTip begin)
        {
            List<PlanPoint> points = [];
            TrackTip tip = begin;
            int from = begin.AtStart ? parts[begin.Track].From : parts[begin.Track].To;
            while (true)
            {
                done[tip.Track] = true;
                ImmutableArray<PlanPoint> own = Branch(parts[tip.Track], tip.AtStart).Points;
                points.AddRange(points.Count == 0 ? own : own[1..]);
                TrackTip end = tip with { AtStart = !tip.AtStart };
                if (!goesOn.TryGetValue(end, out TrackTip next) || done[next.Track])
                {
                    return new(new([.. points], from, end.AtStart ? parts[end.Track].From : parts[end.Track].To), begin, end, next == begin && goesOn.ContainsKey(end));
                }

                tip = next;
            }
        }
    }
}
