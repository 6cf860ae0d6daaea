using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>
/// How far the metal is that one feeder alone serves, as a train there finds it: rail that ends, or ends in gaps, in full; rail
/// that another feeder reaches from the other side by half, since the current comes from both.
/// </summary>
internal sealed class FeederFarness
{
    private const double BetweenFeeders = 0.5;

    private readonly RailGraph _graph;
    private readonly FeedableTrack _track;
    private readonly HashSet<int> _fed;
    private readonly (Stretch Stretch, double TowardsFrom, double TowardsTo)[] _metal;

    /// <summary>Looks at the metal of one feeder.</summary>
    /// <param name="track">The track.</param>
    /// <param name="feeder">The feeder.</param>
    /// <param name="own">What it alone serves.</param>
    /// <param name="others">Places of all other feeders.</param>
    public FeederFarness(FeedableTrack track, FeederCandidate feeder, ImmutableArray<Stretch> own, IEnumerable<TrackPlace> others)
    {
        (_track, _graph) = (track, track.Graph);
        _fed = [.. others.Append(feeder.Place).SelectMany(place => _track.BothLinksAt(place))];
        _metal = [.. own.Select(stretch => (stretch, Share(stretch.Link, _graph.Links[stretch.Link].From), Share(stretch.Link, _graph.Links[stretch.Link].To)))];
    }

    /// <summary>The largest of those distances, in metres, for the feeder at another place that serves the same.</summary>
    public double Metres(FeederCandidate candidate)
    {
        int[] links = _track.BothLinksAt(candidate.Place);
        return _metal
            .Select(metal => links.Contains(metal.Stretch.Link) ? Beside(metal, candidate.Place.MetresFromA) : Beyond(metal, candidate.Reach))
            .DefaultIfEmpty(0).Max();
    }

    private static double Beside((Stretch Stretch, double TowardsFrom, double TowardsTo) metal, double metres) =>
        Math.Max((metres - metal.Stretch.FromMetres) * metal.TowardsFrom, (metal.Stretch.ToMetres - metres) * metal.TowardsTo);

    private double Beyond((Stretch Stretch, double TowardsFrom, double TowardsTo) metal, Reach reach)
    {
        RailLink.Rail rail = (RailLink.Rail)_graph.Links[metal.Stretch.Link];
        double from = reach.NodeMetres.GetValueOrDefault(rail.From, double.PositiveInfinity);
        double to = reach.NodeMetres.GetValueOrDefault(rail.To, double.PositiveInfinity);
        double farthest = Math.Max(At(metal.Stretch.FromMetres), At(metal.Stretch.ToMetres));
        return farthest * (from <= to ? metal.TowardsTo : metal.TowardsFrom);

        double At(double metres) => Math.Min(from + metres - rail.StartMetres, to + rail.EndMetres - metres);
    }

    /// <summary>The part of a distance that counts on a rail, seen towards one of its nodes: half where metal leads on to a feeder there.</summary>
    private double Share(int link, int towards)
    {
        HashSet<int> seen = [towards];
        Stack<int> open = new([towards]);
        while (open.TryPop(out int node))
        {
            foreach (int next in _track.LinksOf[node].Where(next => next != link))
            {
                int other = _graph.Links[next].Opposite(node);
                if (_fed.Contains(next) || other == _graph.Links[link].Opposite(towards))
                {
                    return BetweenFeeders;
                }

                if (seen.Add(other))
                {
                    open.Push(other);
                }
            }
        }

        return 1;
    }
}
