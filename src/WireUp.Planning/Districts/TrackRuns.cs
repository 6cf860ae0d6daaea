using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Districts;

/// <summary>A spot as a run passes it.</summary>
/// <param name="Spot">The spot.</param>
/// <param name="Forward">Whether its own distances grow along the run.</param>
/// <param name="StartMetres">Where it begins along the run.</param>
internal readonly record struct RunPart(TrackSpot Spot, bool Forward, double StartMetres)
{
    public double EndMetres => StartMetres + Spot.LengthMetres;

    /// <summary>The place of its section at a distance along the run.</summary>
    public TrackPlace PlaceAt(double metres) =>
        new(Spot.Piece, Math.Round(Forward ? Spot.FromMetres + metres - StartMetres : Spot.ToMetres - metres + StartMetres, 6));

    /// <summary>The end at which the run leaves it, or null at a cut.</summary>
    public TrackEnd? Leaves => TrackRuns.OtherEnd(Spot, Forward);
}

/// <summary>Track without a junction, from one turnout or other junction, cut or end of track to the next.</summary>
/// <param name="Parts">What it passes, in order; empty where two turnouts meet.</param>
/// <param name="FromTurnout">Spot of the turnout it starts at, or null.</param>
/// <param name="ToTurnout">Spot of the turnout it ends at, or null.</param>
/// <param name="IsRing">Whether it closes on itself.</param>
internal sealed record TrackRun(ImmutableArray<RunPart> Parts, int? FromTurnout, int? ToTurnout, bool IsRing)
{
    public double LengthMetres => Parts.IsEmpty ? 0 : Parts[^1].EndMetres;

    /// <summary>The turnout it starts at, or null.</summary>
    public PieceId? FromTurnoutPiece { get; init; }

    /// <summary>The turnout it ends at, or null.</summary>
    public PieceId? ToTurnoutPiece { get; init; }

    /// <summary>Whether it leads from a turnout to nowhere else.</summary>
    public bool IsTail => !IsRing && FromTurnout is null != ToTurnout is null;
}

/// <summary>Draws the sections between turnouts together into runs.</summary>
internal static class TrackRuns
{
    /// <summary>Every run of a map, those at turnouts first.</summary>
    public static ImmutableArray<TrackRun> Of(TrackMap map) => [.. new Walk(map).All()];

    /// <summary>The end at the far side of a spot with at most two ends, or null where it has a cut there.</summary>
    internal static TrackEnd? OtherEnd(TrackSpot spot, bool forward) => forward ? spot.Front : spot.Back;

    private sealed class Walk(TrackMap map)
    {
        private readonly Dictionary<TrackEnd, TrackEnd> _across = map.Links
            .SelectMany(link => new[] { (link.FromEnd, link.ToEnd), (link.ToEnd, link.FromEnd) })
            .ToDictionary(pair => pair.Item1, pair => pair.Item2);

        private readonly HashSet<int> _passed = [];
        private readonly HashSet<TrackEnd> _tips = [];

        public IEnumerable<TrackRun> All()
        {
            foreach (TrackSpot turnout in map.Spots.Where(spot => spot.IsJunction))
            {
                foreach (TrackEnd end in turnout.Ends.Where(end => _across.ContainsKey(end) && !_tips.Contains(end)))
                {
                    _tips.Add(end);
                    yield return Follow([], end, turnout.Index);
                }
            }

            foreach (bool ring in new[] { false, true })
            {
                foreach (TrackSpot spot in map.Spots.Where(spot => !spot.IsJunction && !_passed.Contains(spot.Index)))
                {
                    if (!_passed.Contains(spot.Index) && (ring || StartsHere(spot) is not null))
                    {
                        yield return Loose(spot, ring || StartsHere(spot)!.Value, ring);
                    }
                }
            }
        }

        /// <summary>True or false for the direction in which a run can start here, null when both sides go on.</summary>
        private bool? StartsHere(TrackSpot spot) =>
            !GoesOn(spot, forward: false) ? true : !GoesOn(spot, forward: true) ? false : null;

        private bool GoesOn(TrackSpot spot, bool forward) => OtherEnd(spot, forward) is { } end && _across.ContainsKey(end);

        private TrackRun Loose(TrackSpot first, bool forward, bool ring)
        {
            _passed.Add(first.Index);
            List<RunPart> parts = [new(first, forward, 0)];
            return OtherEnd(first, forward) is { } end && _across.ContainsKey(end)
                ? Follow(parts, end, null) with { IsRing = ring }
                : Run(parts, null, null);
        }

        private TrackRun Run(List<RunPart> parts, int? from, int? to) => new([.. parts], from, to, false)
        {
            FromTurnoutPiece = from is { } start ? map.Spots[start].Piece : null,
            ToTurnoutPiece = to is { } end ? map.Spots[end].Piece : null,
        };

        /// <summary>Goes on out of an end until a turnout, a cut, the end of track or a spot already passed.</summary>
        private TrackRun Follow(List<RunPart> parts, TrackEnd start, int? fromTurnout)
        {
            TrackEnd? leaves = start;
            while (leaves is { } end && _across.TryGetValue(end, out TrackEnd enters))
            {
                TrackSpot spot = map.Spots[map.SpotOf(enters)];
                if (spot.IsJunction)
                {
                    _tips.Add(enters);
                    return Run(parts, fromTurnout, spot.Index);
                }

                if (!_passed.Add(spot.Index))
                {
                    break;
                }

                bool forward = enters == spot.Back;
                parts.Add(new(spot, forward, parts.Count == 0 ? 0 : parts[^1].EndMetres));
                leaves = OtherEnd(spot, forward);
            }

            return Run(parts, fromTurnout, null);
        }
    }
}
