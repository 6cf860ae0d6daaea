using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>A place where a feeder could go, with what it would serve.</summary>
internal sealed record FeederCandidate(TrackPlace Place, double OffCentreMetres, Reach Reach);

/// <summary>
/// The finite choice of places. A feeder can be slid until its reach just touches the end of a rail, or just touches the reach
/// of the next feeder; so the places worth trying lie at one reach from rail ends, and at two reaches from one another.
/// To these come both ends and the middle of every length where soldering is allowed.
/// </summary>
internal sealed class FeederCandidates(FeedableTrack track, TrustedReach reach)
{
    private readonly Dictionary<PieceId, List<double>> _places = [];
    private readonly ILookup<PieceId, FeedSpan> _spans = track.Spans.ToLookup(span => span.Section);
    private readonly List<FeederCandidate> _found = [];

    /// <summary>Every candidate, in the order of the track.</summary>
    /// <param name="wishes">Metal that wants a feeder; the ends of it are worth trying too.</param>
    /// <param name="rounds">How often to go on from the reaches of what was found.</param>
    /// <param name="cancel">Stops the search.</param>
    public ImmutableArray<FeederCandidate> Find(ImmutableArray<Reach> wishes, int rounds, CancellationToken cancel)
    {
        GoOn(Seeds(), rounds, cancel);
        GoOn(wishes.SelectMany(InnerEnds).Select(PlaceOf), Math.Min(rounds, 1), cancel);
        return [.. _found.OrderBy(candidate => candidate.Place)];
    }

    private void GoOn(IEnumerable<TrackPlace> seeds, int rounds, CancellationToken cancel)
    {
        List<FeederCandidate> latest = [.. seeds.SelectMany(Chain).Select(Add).OfType<FeederCandidate>()];
        for (int round = 0; round < rounds && latest.Count > 0; round++)
        {
            cancel.ThrowIfCancellationRequested();
            latest = [.. latest
                .SelectMany(candidate => InnerEnds(candidate.Reach))
                .SelectMany(end => InnerEnds(reach.FromPoint(end.Link, end.Metres)))
                .Select(PlaceOf).SelectMany(Chain).Select(Add).OfType<FeederCandidate>()];
        }
    }

    private IEnumerable<TrackPlace> Seeds()
    {
        foreach (FeedSpan span in track.Spans)
        {
            yield return new(span.Section, span.MiddleMetres);
            yield return new(span.Section, span.FromMetres);
            yield return new(span.Section, span.ToMetres);
        }

        IEnumerable<int> ends = track.DemandLinks
            .SelectMany(link => new[] { track.Graph.Links[link].From, track.Graph.Links[link].To })
            .Concat(track.DemandNodes).Distinct().Order();
        foreach (int node in ends)
        {
            foreach ((int link, double metres) in InnerEnds(reach.FromNode(node)))
            {
                yield return PlaceOf((link, metres));
            }
        }
    }

    /// <summary>Where a reach stops on a rail because its radius is used up, not because the rail ends.</summary>
    private IEnumerable<(int Link, double Metres)> InnerEnds(Reach served)
    {
        foreach (Stretch stretch in served.Stretches)
        {
            RailLink.Rail rail = (RailLink.Rail)track.Graph.Links[stretch.Link];
            if (stretch.FromMetres > rail.StartMetres + FeederTolerance.Metres)
            {
                yield return (stretch.Link, stretch.FromMetres);
            }

            if (stretch.ToMetres < rail.EndMetres - FeederTolerance.Metres)
            {
                yield return (stretch.Link, stretch.ToMetres);
            }
        }
    }

    private TrackPlace PlaceOf((int Link, double Metres) point) =>
        new(((RailLink.Rail)track.Graph.Links[point.Link]).Section, point.Metres);

    /// <summary>A place and its like along the same section, at every second reach: on a long section feeders follow at that distance.</summary>
    private IEnumerable<TrackPlace> Chain(TrackPlace place)
    {
        double step = 2 * track.Graph.Layout.MaxFeederDistance.Meters;
        double length = track.Graph.Index.Piece(place.Section).PlacesMetres!.Value;
        for (double metres = place.MetresFromA % step; metres <= length; metres += step)
        {
            yield return place with { MetresFromA = metres };
        }
    }

    private FeederCandidate? Add(TrackPlace place)
    {
        if (!_spans[place.Section].Any(span => span.Holds(place.MetresFromA)))
        {
            return null;
        }

        if (!_places.TryGetValue(place.Section, out List<double>? known))
        {
            _places[place.Section] = known = [];
        }

        if (known.Exists(metres => Math.Abs(metres - place.MetresFromA) < FeederTolerance.Metres))
        {
            return null;
        }

        known.Add(place.MetresFromA);
        FeederCandidate candidate = Make(place);
        _found.Add(candidate);
        return candidate;
    }

    /// <summary>The candidate at a place where soldering is allowed.</summary>
    public FeederCandidate Make(TrackPlace place)
    {
        FeedSpan span = _spans[place.Section].First(each => each.Holds(place.MetresFromA));
        (int first, int second) = track.LinksAt(place);
        return new(place, Math.Abs(place.MetresFromA - span.MiddleMetres), reach.FromPair(first, second, place.MetresFromA));
    }
}
