using System.Collections.Immutable;
using System.Globalization;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Feeders;

/// <summary>Where feeders are still wanted.</summary>
/// <param name="Places">The places, in the order of the track; both rails are fed at each.</param>
/// <param name="Objective">How many they are, and how few any choice among the candidates needs.</param>
public sealed record FeederPlan(ImmutableArray<TrackPlace> Places, Objective Objective)
{
    /// <summary>Metal that no feeder can serve, one sentence each: nowhere to solder, or out of every feeder's reach.</summary>
    public ImmutableArray<string> Remains { get; init; } = [];

    /// <summary>For feeders that others depend on when something fails: what fails, one sentence each. Empty unless that was asked for.</summary>
    public ImmutableSortedDictionary<TrackPlace, string> Why { get; init; } = ImmutableSortedDictionary<TrackPlace, string>.Empty;
}

/// <summary>How feeders are looked for.</summary>
public sealed record FeederOptions
{
    /// <summary>Distance kept from joints, gaps and rail ends, in metres; shorter pieces are fed in their middle. Default 0.03.</summary>
    public double MarginMetres { get; init; } = 0.03;

    /// <summary>How often candidates are derived from candidates, 0 to 20. More may save a feeder and takes longer. Default 3.</summary>
    public int Rounds { get; init; } = 3;

    /// <summary>Solver effort for each independent part, in deterministic seconds. Default 4.</summary>
    public double Effort { get; init; } = 4;

    /// <summary>
    /// Whether after any one failed joiner or feeder all rail where a feeder may be soldered must still be joined to a feeder by metal
    /// that always conducts, at whatever distance and through any joiners. Default false.
    /// </summary>
    public bool Robust { get; init; }

}

/// <summary>
/// The fewest feeders so that every rail is fed and no place of a rail lies farther from a feeder than the layout allows,
/// along metal that can be trusted. Feeders that are already there count, and cost nothing. None is put on a turnout or crossing,
/// on a piece where the person wants none, or on metal that changes polarity with a turnout.
/// </summary>
public static class FeederPlanner
{
    /// <summary>Plans the feeders that a layout with all its gaps still needs.</summary>
    /// <param name="layout">The layout with all its gaps.</param>
    /// <param name="options">How to look, or null for the defaults.</param>
    /// <param name="cancel">Stops the search.</param>
    public static FeederPlan Plan(Layout layout, FeederOptions? options = null, CancellationToken cancel = default)
    {
        options ??= new();
        return Plan(layout, new FeedableTrack(RailGraph.Build(layout), options.MarginMetres), [], options, cancel);
    }

    /// <summary>
    /// Plans anew the parts of the track in which some place wants a feeder nearer; elsewhere feeders stay where they are planned.
    /// </summary>
    /// <param name="layout">The layout with all its gaps.</param>
    /// <param name="planned">Where feeders are planned now.</param>
    /// <param name="wishes">What is wanted, at least one.</param>
    /// <param name="options">How to look.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <returns>All feeders in the order of the track, each with the nearest wish that no other of them serves, and what else depends on it.</returns>
    internal static ImmutableArray<(TrackPlace At, int? For, string? Why)> Replan(
        Layout layout, IEnumerable<TrackPlace> planned, ImmutableArray<FeederWish> wishes, FeederOptions options, CancellationToken cancel)
    {
        FeedableTrack track = new(RailGraph.Build(layout), options.MarginMetres, wishes.Select(wish => wish.At));
        FeederPlan plan = Plan(layout, track, wishes, options, cancel);
        FeederWishes asked = new(track, wishes);
        return [.. planned.Where(place => !track.Matters(place)).Select(place => (place, (int?)null, (string?)null))
            .Concat(plan.Places.Select(place => (place, asked.ServedOnlyBy(place, plan.Places), plan.Why.GetValueOrDefault(place))))
            .OrderBy(pair => pair.place)];
    }

    private static FeederPlan Plan(Layout layout, FeedableTrack track, ImmutableArray<FeederWish> wished, FeederOptions options, CancellationToken cancel)
    {
        TrustedReach reach = new(track, layout.MaxFeederDistance.Meters);
        FeederWishes wishes = new(track, wished);
        FeederCandidates finder = new(track, reach);
        ImmutableArray<FeederCandidate> candidates = finder.Find(wishes.WithPlaces, options.Rounds, cancel);
        Reach[] built = [.. layout.Wiring.Feeders.Select(feeder => BuiltReach(track, reach, feeder.At))];

        // Candidates come first, so that a demand served by an index beyond them is served already.
        ImmutableArray<Demand> demands = FeederDemand.Of(track, [.. candidates.Select(candidate => candidate.Reach), .. built]);
        ImmutableArray<Demand> open = [.. demands.Where(demand => !demand.By.Any(by => by >= candidates.Length))];
        ImmutableArray<Reach> asked = [.. wishes.Rows.Where(row => !layout.Wiring.Feeders.Any(feeder => wishes.Serves(feeder.At, row)))];
        ILookup<int, int> onLink = OnLink(track, asked.IsEmpty ? [] : candidates);
        List<ImmutableArray<int>> rows = [.. open.Select(demand => demand.By).Concat(asked.Select(row => Serving(row, candidates, onLink))).Where(row => !row.IsEmpty)];
        Cover Solve() => SetCover.Solve(rows, [.. candidates.Select(candidate => candidate.OffCentreMetres)], options.Effort, cancel);
        RobustCover? robust = options.Robust ? new(new RobustNeeds(track), candidates, layout) : null;
        Cover cover = robust?.Solve(rows, Solve) ?? Solve();

        ImmutableArray<FeederCandidate> chosen = [.. cover.Chosen.Select(index => candidates[index])];
        ImmutableArray<TrackPlace> places = new FeederSlide(track, finder, built, wishes, asked).Slide(chosen);
        return new(places, new("feeders", chosen.Length, cover.Bound))
        {
            Remains = [.. RemainsOf(track, demands, layout), .. robust?.Remains ?? []],
            Why = robust?.Reasons(places) ?? ImmutableSortedDictionary<TrackPlace, string>.Empty,
        };
    }

    private static ImmutableArray<int> Serving(Reach row, ImmutableArray<FeederCandidate> candidates, ILookup<int, int> onLink) =>
        [.. row.Stretches.SelectMany(stretch => onLink[stretch.Link].Where(candidate => stretch.Holds(candidates[candidate].Place.MetresFromA))).Distinct().Order()];

    /// <summary>For each rail the candidates that are soldered to it.</summary>
    private static ILookup<int, int> OnLink(FeedableTrack track, ImmutableArray<FeederCandidate> candidates) => candidates
        .SelectMany((candidate, i) => track.BothLinksAt(candidate.Place).Select(link => (link, i)))
        .ToLookup(pair => pair.link, pair => pair.i);

    internal static Reach BuiltReach(FeedableTrack track, TrustedReach reach, TrackPlace place)
    {
        (int first, int second) = track.LinksAt(place);
        return reach.FromPair(first, second, place.MetresFromA);
    }

    private static ImmutableArray<string> RemainsOf(FeedableTrack track, ImmutableArray<Demand> demands, Layout layout)
    {
        ImmutableArray<string>.Builder remains = ImmutableArray.CreateBuilder<string>();
        foreach (IGrouping<int, Demand> island in demands.GroupBy(demand => track.IslandOf[demand.Node]).OrderBy(group => group.Key))
        {
            Demand[] outside = [.. island.Where(demand => demand.By.IsEmpty)];
            if (outside.Length > 0 && island.All(demand => demand.By.IsEmpty))
            {
                remains.Add(Unfed(track, outside));
            }
            else
            {
                remains.AddRange(outside.Where(demand => demand.Stretch is not null).Select(demand => OutOfReach(track, demand, layout)));
            }
        }

        return remains.ToImmutable();
    }

    private static string Unfed(FeedableTrack track, Demand[] island)
    {
        string pieces = string.Join(", ", island.Select(demand => $"'{track.Graph.Nodes[demand.Node].Piece}'").Distinct().Take(6));
        string why = Array.Exists(island, demand => demand.Stretch is not null)
            ? $"no feeder may be soldered anywhere on it{(track.Graph.Layout.Benchwork.OutOfReach.IsEmpty ? "" : " within reach from below")}"
            : "it has no section, and feeders are not soldered to turnouts or crossings";
        return $"The rail at '{track.Graph.Nodes[island[0].Node]}' (with {pieces}) gets no feeder: {why}.";
    }

    private static string OutOfReach(FeedableTrack track, Demand demand, Layout layout)
    {
        Stretch stretch = demand.Stretch!.Value;
        RailLink.Rail rail = (RailLink.Rail)track.Graph.Links[stretch.Link];
        return string.Create(
            CultureInfo.InvariantCulture,
            $"The {RailSides.Word(rail.Side)} rail of '{rail.Section}' from {stretch.FromMetres:0.###} m to {stretch.ToMetres:0.###} m stays farther than {layout.MaxFeederDistance.Meters:0.###} m from any feeder: no feeder may be soldered near enough.");
    }
}
