using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Checking;

/// <summary>Finds positions of everything that moves in which no wires of opposite polarity are joined.</summary>
internal sealed class ClearPositions(RailGraph graph, PolarityReport polarity)
{
    private readonly ImmutableArray<ImmutableSortedDictionary<PieceId, string>> _shorts =
    [
        .. polarity.ByPosition.Where(meeting => meeting.Kind == MeetingKind.Short).Select(meeting => meeting.Turnouts),
        .. from fault in polarity.FoilFaults
           where !fault.UnderWheels
           from position in fault.Positions
           select ImmutableSortedDictionary<PieceId, string>.Empty.Add(fault.Turnout, position),
    ];

    /// <summary>Everything in its first position.</summary>
    internal ImmutableSortedDictionary<PieceId, string> Normal { get; } = graph.Layout.Track.Select(piece => piece.Id)
        .Concat(graph.Layout.Wiring.Switches.Select(item => item.Name))
        .Select(owner => (Owner: owner, Positions: graph.PositionsOf(owner)))
        .Where(pair => !pair.Positions.IsEmpty)
        .ToImmutableSortedDictionary(pair => pair.Owner, pair => pair.Positions[0]);

    /// <summary>
    /// Positions without a short: the asked ones, else the first ones, changed one after the other so that each change leaves fewer shorts; null
    /// where that leads to none.
    /// </summary>
    /// <param name="asked">Positions that must not be changed.</param>
    internal ImmutableSortedDictionary<PieceId, string>? With(ImmutableSortedDictionary<PieceId, string> asked)
    {
        ImmutableSortedDictionary<PieceId, string> set = Normal.SetItems(asked);
        for (int left = Shorts(set).Count(); left > 0;)
        {
            (ImmutableSortedDictionary<PieceId, string> Set, int Left) best = Shorts(set)
                .SelectMany(shorted => shorted.Keys).Distinct()
                .Where(owner => !asked.ContainsKey(owner))
                .SelectMany(owner => graph.PositionsOf(owner).Select(position => set.SetItem(owner, position)))
                .Select(other => (other, Shorts(other).Count()))
                .DefaultIfEmpty((set, left))
                .MinBy(pair => pair.Item2);
            if (best.Left >= left) return null;
            (set, left) = best;
        }

        return set;
    }

    private IEnumerable<ImmutableSortedDictionary<PieceId, string>> Shorts(ImmutableSortedDictionary<PieceId, string> set) =>
        _shorts.Where(shorted => shorted.All(pair => set.TryGetValue(pair.Key, out string? position) && position == pair.Value));
}
