using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>How far the current comes along rail, from feeders on either side of a place.</summary>
internal sealed class FeederWays
{
    private readonly FeedableTrack _track;
    private readonly ILookup<int, double> _onLink;
    private readonly HashSet<int> _feedable;

    /// <summary>Takes note of where the feeders are.</summary>
    /// <param name="track">The track.</param>
    /// <param name="feeders">Places of feeders on it.</param>
    public FeederWays(FeedableTrack track, IEnumerable<TrackPlace> feeders)
    {
        _track = track;
        _onLink = feeders.SelectMany(feeder => _track.BothLinksAt(feeder).Select(link => (link, feeder.MetresFromA))).ToLookup(pair => pair.link, pair => pair.MetresFromA);
        ILookup<PieceId, FeedSpan> spans = track.Spans.ToLookup(span => span.Section);
        _feedable = [.. Enumerable.Range(0, track.Graph.Links.Length).Where(link => track.Graph.Links[link] is RailLink.Rail rail
            && spans[rail.Section].Any(span => span.FromMetres < rail.EndMetres && span.ToMetres > rail.StartMetres))];
    }

    /// <summary>
    /// Metres of one rail with as much resistance as the ways from both sides together, the mean of both rails: those to the one feeder
    /// where only one side has one, and a quarter of the way between two in the middle of it. Infinite where no feeder is within the limit.
    /// </summary>
    public double EffectiveMetres(TrackPlace place, double limitMetres) => _track.BothLinksAt(place).Average(link =>
    {
        (double before, double beyond) = (Towards(link, place.MetresFromA, isToEndA: true, limitMetres), Towards(link, place.MetresFromA, isToEndA: false, limitMetres));
        return double.IsInfinity(before) ? beyond : double.IsInfinity(beyond) ? before : before + beyond > 0 ? before * beyond / (before + beyond) : 0;
    });

    /// <summary>On how many rails, 0 to 2, no feeder can come from one side of a place, since the rail ends there with nowhere to solder one beyond.</summary>
    public int EndingRails(TrackPlace place, bool isToEndA) => _track.BothLinksAt(place).Count(link =>
        Walk(link, 0, isToEndA, double.PositiveInfinity, (next, _, _) => _feedable.Contains(next) ? 0 : null) is double.PositiveInfinity);

    private double Towards(int link, double metres, bool isToEndA, double limitMetres)
    {
        RailLink.Rail rail = (RailLink.Rail)_track.Graph.Links[link];
        double beside = _onLink[link]
            .Select(feeder => isToEndA ? metres - feeder : feeder - metres)
            .Where(away => away >= 0)
            .DefaultIfEmpty(double.PositiveInfinity).Min();
        return double.IsFinite(beside)
            ? beside
            : Walk(link, isToEndA ? metres - rail.StartMetres : rail.EndMetres - metres, isToEndA, limitMetres, Nearest);

        double? Nearest(int next, int from, double at)
        {
            RailLink.Rail? other = _track.Graph.Links[next] as RailLink.Rail;
            double[] found = [.. _onLink[next].Select(feeder => at + (other!.From == from ? feeder - other.StartMetres : other.EndMetres - feeder))];
            return found.Length > 0 ? found.Min() : null;
        }
    }

    /// <summary>The least that is found on a link, from one end of a link and without going back over it; infinite where nothing is.</summary>
    private double Walk(int link, double metres, bool isToEndA, double limitMetres, Func<int, int, double, double?> find)
    {
        RailLink.Rail rail = (RailLink.Rail)_track.Graph.Links[link];
        int start = isToEndA ? rail.From : rail.To;
        Dictionary<int, double> nearest = new() { [start] = metres };
        PriorityQueue<int, (double, int)> open = new([(start, (metres, start))]);
        double best = double.PositiveInfinity;
        while (open.TryDequeue(out int node, out (double Metres, int) priority) && priority.Metres < Math.Min(best, limitMetres))
        {
            foreach (int next in _track.LinksOf[node].Where(next => next != link))
            {
                if (find(next, node, priority.Metres) is { } found)
                {
                    best = Math.Min(best, found);
                }

                int other = _track.Graph.Links[next].Opposite(node);
                double at = priority.Metres + TrustedReach.MetresOf(_track.Graph.Links[next]);
                if (!nearest.TryGetValue(other, out double known) || at < known)
                {
                    nearest[other] = at;
                    open.Enqueue(other, (at, other));
                }
            }
        }

        return best;
    }
}
