using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Feeders;

/// <summary>The fewest feeders of one district by distance and by what the circuit was found to need, chosen anew as more of that is found.</summary>
internal sealed class FeederChoiceWorkspace
{
    private const double Effort = 1;

    private readonly ImmutableArray<FeederCandidate> _candidates;
    private readonly ImmutableArray<ImmutableArray<int>> _rows;
    private readonly List<NeededFeeder> _needed = [];
    private readonly CancellationToken _cancel;
    private Cover? _cover;

    /// <summary>Finds the candidates and what the distance asks for.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="track">Its track.</param>
    /// <param name="isOwn">Whether a place is in the district.</param>
    /// <param name="cancel">Stops the search.</param>
    public FeederChoiceWorkspace(Layout layout, FeedableTrack track, Func<TrackPlace, bool> isOwn, CancellationToken cancel)
    {
        (Track, _cancel) = (track, cancel);
        TrustedReach reach = new(track, layout.MaxFeederDistance.Meters);
        FeederCandidates finder = new(track, reach);
        Cells = [.. track.Spans.Where(span => isOwn(new(span.Section, span.MiddleMetres))).SelectMany(CellsOf)];
        ImmutableArray<FeederCandidate> found = [.. finder.Find([], new FeederOptions().Rounds, cancel).Where(candidate => isOwn(candidate.Place))];
        _candidates = [.. found.Concat(Cells.Except(found.Select(candidate => candidate.Place)).Select(finder.Make)).OrderBy(candidate => candidate.Place)];
        IEnumerable<Reach> built = layout.Wiring.Feeders.Select(feeder => FeederPlanner.BuiltReach(track, reach, feeder.At));
        _rows = [.. FeederDemand.Of(track, [.. _candidates.Select(candidate => candidate.Reach), .. built])
            .Select(demand => demand.By)
            .Where(by => !by.IsEmpty && by[^1] < _candidates.Length)];
    }

    private FeederChoiceWorkspace(FeederChoiceWorkspace other) => (_candidates, _rows, _cancel, Track, Cells) = (other._candidates, other._rows, other._cancel, other.Track, other.Cells);

    /// <summary>The track.</summary>
    public FeedableTrack Track { get; }

    /// <summary>Places every 5 cm where a feeder may be soldered, in the order of the track, the ends of each such length included.</summary>
    public ImmutableArray<TrackPlace> Cells { get; }

    /// <summary>Candidates: the cells, and the places that the distance makes worth trying.</summary>
    public ImmutableArray<TrackPlace> Candidates => [.. _candidates.Select(candidate => candidate.Place)];

    /// <summary>Numbers of the candidates chosen, ascending.</summary>
    public ImmutableArray<int> Chosen => Cover.Chosen;

    /// <summary>How many they are.</summary>
    public int Count => Chosen.Length;

    /// <summary>No choice meets the conditions with fewer.</summary>
    public int Bound => (int)Cover.Bound;

    /// <summary>The places chosen, each with the nearest condition that no other of them meets.</summary>
    public IEnumerable<(TrackPlace At, NeededFeeder? For)> Places => Chosen.Select(chosen => (Rounded(_candidates[chosen].Place), _needed
        .Where(needed => needed.Candidates.Contains(chosen) && !needed.Candidates.Any(other => other != chosen && Chosen.Contains(other)))
        .MinBy(needed => needed.WithinMetres)));

    private Cover Cover => _cover ??= SetCover.Solve(
        [.. _rows, .. _needed.Select(needed => needed.Candidates)], [.. _candidates.Select(candidate => candidate.OffCentreMetres)], Effort, _cancel);

    /// <summary>The same choice before any condition of the circuit.</summary>
    public FeederChoiceWorkspace ByDistance() => new(this);

    /// <summary>Adds conditions.</summary>
    public void Need(IEnumerable<NeededFeeder> needed)
    {
        _needed.AddRange(needed);
        _cover = null;
    }

    private static TrackPlace Rounded(TrackPlace place) => place with { MetresFromA = Math.Round(place.MetresFromA, 4) };

    private static IEnumerable<TrackPlace> CellsOf(FeedSpan span)
    {
        int count = (int)Math.Ceiling(((span.ToMetres - span.FromMetres) / FeedNet.CellMetres) - 1e-6);
        return Enumerable.Range(0, count).Select(i => span.FromMetres + (i * FeedNet.CellMetres)).Append(span.ToMetres)
            .Select(metres => Rounded(new(span.Section, metres)));
    }
}
