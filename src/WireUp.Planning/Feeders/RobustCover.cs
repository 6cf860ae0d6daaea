using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;

namespace WireUp.Planning.Feeders;

/// <summary>
/// A cover that also meets every need of <see cref="RobustNeeds"/>. One feeder for a block is a row of the cover. Two for a block are as many
/// rows as it has candidates, each row with one of them left out; they are put in only for blocks that a cover without them feeds too thinly.
/// Either way the bound of the cover holds for what is asked.
/// </summary>
internal sealed class RobustCover
{
    private readonly RobustNeeds _needs;
    private readonly ImmutableArray<FeederCandidate> _candidates;
    private readonly ImmutableArray<TrackPlace> _built;
    private readonly Dictionary<RobustNeed, ImmutableArray<int>> _columns;

    public RobustCover(RobustNeeds needs, ImmutableArray<FeederCandidate> candidates, Layout layout)
    {
        (_needs, _candidates) = (needs, candidates);
        _built = [.. layout.Wiring.Feeders.Where(feeder => feeder.When is null).Select(feeder => feeder.At)];
        _columns = needs.Needs.ToDictionary(
            need => need,
            need => Enumerable.Range(0, candidates.Length).Where(i => needs.Feeds(candidates[i].Place, need)).ToImmutableArray());
    }

    /// <summary>Blocks that have too few places for what they need, one sentence each.</summary>
    public IEnumerable<string> Remains => _needs.Needs
        .Where(need => _columns[need].Length < Missing(need, []))
        .Select(need => string.Create(
            CultureInfo.InvariantCulture,
            $"The rail at '{_candidates[_columns[need][0]].Place}' has one place for a feeder and nothing else to feed it: when that feeder fails it has no current."));

    /// <summary>Adds rows to a cover and solves it until every need is met that can be.</summary>
    public Cover Solve(List<ImmutableArray<int>> rows, Func<Cover> solve)
    {
        rows.AddRange(_needs.Needs.Where(need => Missing(need, []) > 0 && !_columns[need].IsEmpty).Select(need => _columns[need]));
        HashSet<RobustNeed> doubled = [];
        while (true)
        {
            Cover cover = solve();
            RobustNeed[] thin = [.. _needs.Needs.Where(need => _columns[need].Length > 1 && Missing(need, cover.Chosen) > 0 && doubled.Add(need))];
            if (thin.Length == 0)
            {
                return cover;
            }

            rows.AddRange(thin.SelectMany(need => _columns[need].Select(column => _columns[need].Remove(column))));
        }
    }

    /// <summary>For each feeder that is the only one of its block, and for each of two, what it is there for.</summary>
    public ImmutableSortedDictionary<TrackPlace, string> Reasons(ImmutableArray<TrackPlace> places) => (
        from need in _needs.Needs
        let feeders = places.Concat(_built).Where(place => _needs.Feeds(place, need)).ToArray()
        where feeders.Length <= need.Feeders
        from feeder in feeders.Intersect(places)
        group Reason(need) by feeder).ToImmutableSortedDictionary(reasons => reasons.Key, reasons => reasons.First());

    private static string Reason(RobustNeed need) => need.Joiner is { } joiner
        ? $"Should the joiner at '{joiner.Joint.First}' fail, the {RailSides.Word(joiner.Side)} rail on this side of it still has this feeder."
        : "Should one feeder of this rail fail, another still feeds it.";

    private int Missing(RobustNeed need, IEnumerable<int> chosen) =>
        need.Feeders - _built.Count(place => _needs.Feeds(place, need)) - chosen.Count(column => _needs.Feeds(_candidates[column].Place, need));
}
