using System.Collections.Immutable;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>
/// Solves a layout in as many sets of turnout positions as it takes to bring current to all track that gets it through blades or
/// contacts, and keeps the worst of each district and section.
/// </summary>
internal static class PowerSurvey
{
    /// <summary>No more sets of positions than this are solved.</summary>
    internal const int MostSets = 64;

    /// <summary>Solves.</summary>
    /// <returns>The worst of all sets, and the track whose positions were not solved any more.</returns>
    internal static (PowerReport Power, ImmutableArray<SwitchedTrack> Left) Solve(
        RailGraph graph, PolarityReport polarity, CancellationToken cancellationToken)
    {
        PowerReport worst = PowerAnalysis.Solve(graph, PowerOptions.Default, cancellationToken);
        List<ImmutableSortedDictionary<PieceId, string>> sets = [Normal(graph)];
        ImmutableArray<SwitchedTrack>.Builder left = ImmutableArray.CreateBuilder<SwitchedTrack>();
        foreach (SwitchedTrack track in polarity.Switched.Concat(SwitchedFeeders(graph.Layout)).Where(track => !track.LiveWhen.IsEmpty))
        {
            int fitting = sets.FindIndex(set => Agree(set, track.LiveWhen));
            if (fitting < 0 && sets.Count > MostSets)
            {
                left.Add(track);
            }
            else if (fitting < 0)
            {
                sets.Add(track.LiveWhen);
            }
            else if (fitting > 0)
            {
                sets[fitting] = sets[fitting].SetItems(track.LiveWhen);
            }
        }

        foreach (ImmutableSortedDictionary<PieceId, string> set in sets.Skip(1))
        {
            worst = Worse(worst, PowerAnalysis.Solve(graph, PowerOptions.Default with { Turnouts = set }, cancellationToken));
        }

        return (worst, left.ToImmutable());
    }

    private static ImmutableSortedDictionary<PieceId, string> Normal(RailGraph graph) => graph.Layout.Track.Select(piece => piece.Id)
        .Concat(graph.Layout.Wiring.Switches.Select(item => item.Name))
        .Select(owner => (Owner: owner, Positions: graph.PositionsOf(owner)))
        .Where(pair => !pair.Positions.IsEmpty)
        .ToImmutableSortedDictionary(pair => pair.Owner, pair => pair.Positions[0]);

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
