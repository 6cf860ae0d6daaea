using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>What solving a layout in several sets of turnout positions came to.</summary>
/// <param name="Power">The worst of each district and section.</param>
internal sealed record PowerSurvey(PowerReport Power)
{
    /// <summary>No more sets of positions than this are solved.</summary>
    internal const int MostSets = 64;

    /// <summary>Whether wires of opposite polarity are joined however the turnouts stand, so that the figures are of a short.</summary>
    internal bool HasNoClearPositions { get; init; }

    /// <summary>Track whose positions were not solved any more, because there are too many sets of them.</summary>
    internal ImmutableArray<SwitchedTrack> Unsolved { get; init; } = [];

    /// <summary>Track that has current only in positions that join wires of opposite polarity.</summary>
    internal ImmutableArray<SwitchedTrack> FedByShort { get; init; } = [];

    /// <summary>
    /// Solves a layout in as many sets of turnout positions as it takes to bring current to all track that gets it through blades or contacts,
    /// in positions without a short.
    /// </summary>
    internal static PowerSurvey Of(RailGraph graph, PolarityReport polarity, CancellationToken cancellationToken)
    {
        ClearPositions clear = new(graph, polarity);
        ImmutableSortedDictionary<PieceId, string>? first = clear.With(ImmutableSortedDictionary<PieceId, string>.Empty);
        List<(ImmutableSortedDictionary<PieceId, string> Positions, List<SwitchedTrack> Tracks)> sets = [(first ?? clear.Normal, [])];
        List<SwitchedTrack> unsolved = [], fedByShort = [];
        foreach (SwitchedTrack track in polarity.Switched.Concat(SwitchedFeeders(graph.Layout)).Where(track => !track.LiveWhen.IsEmpty))
        {
            int fitting = Agree(sets[0].Positions, track.LiveWhen) ? 0
                : sets.FindIndex(1, set => Agree(set.Positions, track.LiveWhen) && clear.With(set.Positions.SetItems(track.LiveWhen)) is not null);
            if (fitting > 0)
            {
                sets[fitting] = sets[fitting] with { Positions = sets[fitting].Positions.SetItems(track.LiveWhen) };
                sets[fitting].Tracks.Add(track);
            }
            else if (fitting < 0 && clear.With(track.LiveWhen) is null) fedByShort.Add(track);
            else if (fitting < 0 && sets.Count > MostSets) unsolved.Add(track);
            else if (fitting < 0) sets.Add((track.LiveWhen, [track]));
        }

        PowerReport worst = PowerAnalysis.Solve(graph, PowerOptions.Default with { Turnouts = sets[0].Positions }, cancellationToken);
        foreach ((ImmutableSortedDictionary<PieceId, string> positions, List<SwitchedTrack> tracks) in sets.Skip(1))
        {
            ImmutableSortedDictionary<PieceId, string> whole = clear.With(positions)!;
            if (ShortedPositions.IsShorted(graph, whole)) fedByShort.AddRange(tracks);
            else worst = Worse(worst, PowerAnalysis.Solve(graph, PowerOptions.Default with { Turnouts = whole }, cancellationToken));
        }

        bool hasNoClear = first is null || ShortedPositions.IsShorted(graph, first);
        return new(worst) { HasNoClearPositions = hasNoClear, Unsolved = [.. unsolved], FedByShort = [.. fedByShort] };
    }

    /// <summary>Each feeder that conducts in one position only, as track that is live then: its own wires and cab are to be judged too.</summary>
    private static IEnumerable<SwitchedTrack> SwitchedFeeders(Layout layout) =>
        from feeder in layout.Wiring.Feeders
        where feeder.When is not null
        let when = feeder.When!.Value
        select new SwitchedTrack(
            feeder.At.Section, feeder.At.MetresFromA, feeder.At.MetresFromA,
            ImmutableSortedDictionary<PieceId, string>.Empty.Add(when.Owner, when.Position));

    private static bool Agree(ImmutableSortedDictionary<PieceId, string> set, ImmutableSortedDictionary<PieceId, string> asked) =>
        asked.All(pair => !set.TryGetValue(pair.Key, out string? position) || position == pair.Value);

    private static PowerReport Worse(PowerReport first, PowerReport second) => first with
    {
        Districts =
        [
            .. first.Districts.Select(district =>
                second.Districts.FirstOrDefault(other => other.District == district.District) is { } other ? Worse(district, other) : district),
            .. second.Districts.Where(district => first.Districts.All(other => other.District != district.District)),
        ],
        Sections =
        [
            .. first.Sections.Concat(second.Sections).GroupBy(section => section.Section)
                .Select(section => section.MaxBy(place => place.LargestLoop.Loop)!),
        ],
        Problems = [.. first.Problems, .. second.Problems.Where(problem => !first.Problems.Contains(problem))],
    };

    private static DistrictPower Worse(DistrictPower first, DistrictPower second) => first with
    {
        LowestVolts = second.LowestVolts.Volts < first.LowestVolts.Volts ? second.LowestVolts : first.LowestVolts,
        LowestFault = second.LowestFault.FaultCurrent < first.LowestFault.FaultCurrent ? second.LowestFault : first.LowestFault,
    };
}
