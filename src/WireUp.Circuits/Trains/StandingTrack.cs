using System.Collections.Frozen;
using System.Collections.Immutable;
using WireUp.Circuits.Network;
using WireUp.Layouts;
using WireUp.Rails.Routes;

namespace WireUp.Circuits.Trains;

/// <summary>A part of a lane: a length of live track, or a hole in which no engine can be placed.</summary>
/// <param name="From">Start, metres along the lane.</param>
/// <param name="To">End, metres along the lane.</param>
/// <param name="Live">Index of the live length of track; −1 for a hole.</param>
/// <param name="IsReversed">Whether the lane runs from that length's end to its start.</param>
internal readonly record struct LaneSpan(double From, double To, int Live, bool IsReversed)
{
    /// <summary>Stands for no live length.</summary>
    internal const int Hole = -1;

    internal double Length => To - From;

    /// <summary>The place of live track at a distance along the lane.</summary>
    internal LiveSpot At(double x)
    {
        double along = Length > 0 ? Math.Clamp((x - From) / Length, 0, 1) : 0;
        return new(Live, IsReversed ? 1 - along : along);
    }

    /// <summary>Distance along the lane of a fraction of its live length.</summary>
    internal double Where(double fraction) => From + ((IsReversed ? 1 - fraction : fraction) * Length);
}

/// <summary>A lane with what feeds it.</summary>
/// <param name="Spans">Its parts without holes between them, from 0 to its length.</param>
/// <param name="Length">Length in metres.</param>
/// <param name="IsRing">Whether its end leads into its start.</param>
internal sealed record StandingLane(ImmutableArray<LaneSpan> Spans, double Length, bool IsRing)
{
    /// <summary>Whether an engine can be placed anywhere on it.</summary>
    internal bool HasPower { get; } = Spans.Any(span => span.Live != LaneSpan.Hole);

    /// <summary>The part that holds a distance along the lane; of two that meet there the live one, else the earlier.</summary>
    internal LaneSpan SpanAt(double x)
    {
        (int low, int high) = (0, Spans.Length - 1);
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = Spans[middle].To >= x ? (low, middle) : (middle + 1, high);
        }

        return Spans[low].Live == LaneSpan.Hole && low + 1 < Spans.Length && Spans[low + 1].From <= x ? Spans[low + 1] : Spans[low];
    }

    /// <summary>Where on a ring a distance lies that has run past its end.</summary>
    internal double Wrap(double x) => !IsRing || (x >= 0 && x <= Length) ? x : x - (Math.Floor(x / Length) * Length);
}

/// <summary>Two stretches of lanes that lie on one piece, so that a train on either keeps the other clear: the tracks of a crossing.</summary>
internal readonly record struct SharedPiece(int FirstLane, double FirstFrom, double FirstTo, int SecondLane, double SecondFrom, double SecondTo);

/// <summary>Where trains can stand as turnouts are set: lanes, what feeds them, and where two of them cross.</summary>
internal sealed class StandingTrack
{
    private readonly NodalModel _model;
    private readonly FrozenDictionary<(int First, int Second), LiveSpot> _firstAt;

    internal StandingTrack(NodalModel model, IReadOnlyList<LiveSegment> live, IReadOnlyDictionary<PieceId, string> positions)
    {
        (_model, Live) = (model, live);
        ImmutableArray<TrackLane> lanes = TrackLane.Of(model.Circuit.Graph.Index, positions);
        ILookup<PieceId, int> ofSection = Enumerable.Range(0, live.Count).Where(IsForTrains).ToLookup(i => Segment(i).Section);
        Lanes = [.. lanes.Select(lane => new StandingLane([.. Spans(lane, ofSection)], lane.LengthMetres, lane.IsRing))];
        Shared = [.. SharedPieces(lanes)];
        SpanOf = (from lane in Enumerable.Range(0, Lanes.Length)
                  from span in Lanes[lane].Spans
                  where span.Live != LaneSpan.Hole
                  select (lane, span)).ToFrozenDictionary(pair => pair.span.Live);
        _firstAt = SpanOf.Keys.Order().SelectMany(spot => new LiveSpot[] { new(spot, 0), new(spot, 1) })
            .GroupBy(Nodes)
            .ToFrozenDictionary(group => group.Key, group => group.First());
    }

    /// <summary>The live lengths of track.</summary>
    internal IReadOnlyList<LiveSegment> Live { get; }

    internal ImmutableArray<StandingLane> Lanes { get; }

    internal ImmutableArray<SharedPiece> Shared { get; }

    /// <summary>Lane and part of a lane of every live length of track that lies on one.</summary>
    internal FrozenDictionary<int, (int Lane, LaneSpan Span)> SpanOf { get; }

    /// <summary>The segment of a live length of track.</summary>
    internal TrackSegment Segment(int live) => _model.Circuit.Segments[Live[live].Segment];

    /// <summary>Open-circuit volts at a place.</summary>
    internal double OpenVolts(LiveSpot spot) => Live[spot.Live].OpenVolts(spot.Fraction);

    /// <summary>The place of a standing train's engine.</summary>
    internal LiveSpot SpotOf(StandingTrain standing) => SpanOf[standing.Live].Span.At(Lanes[standing.Lane].Wrap(standing.Head));

    /// <summary>The same place as the end of whichever live length comes first, where two meet without a gap.</summary>
    internal LiveSpot FirstAt(LiveSpot spot) => spot.Fraction is 0 or 1 ? _firstAt[Nodes(spot)] : spot;

    /// <summary>The transfer resistances of a place.</summary>
    internal TransferColumn Column(LiveSpot spot) => new(_model, Live, spot);

    private (int First, int Second) Nodes(LiveSpot spot)
    {
        TrackSegment segment = Segment(spot.Live);
        return spot.Fraction == 0 ? (segment.FirstAtStart, segment.SecondAtStart) : (segment.FirstAtEnd, segment.SecondAtEnd);
    }

    /// <summary>Whether engines may be placed there: not on a track for programming, nor where the circuit has no answer.</summary>
    private bool IsForTrains(int live) =>
        _model.Circuit.Districts[Live[live].District].District.Use == DistrictUse.Running
        && !_model.Unknowns.IsRefused(_model.Unknowns.Part(Segment(live).FirstAtStart));

    private IEnumerable<LaneSpan> Spans(TrackLane lane, ILookup<PieceId, int> ofSection)
    {
        double driven = 0;
        foreach (RouteStep step in lane.Steps)
        {
            double at = driven;
            if (step is { FromPlaceMetres: { } from, ToPlaceMetres: { } to })
            {
                bool reversed = to < from;
                foreach (int live in reversed ? ofSection[step.Piece].Reverse() : ofSection[step.Piece])
                {
                    TrackSegment segment = Segment(live);
                    double start = driven + (reversed ? from - segment.ToMetres : segment.FromMetres - from);
                    if (start > at)
                    {
                        yield return new(at, start, LaneSpan.Hole, IsReversed: false);
                    }

                    yield return new(start, at = start + segment.LengthMetres, live, reversed);
                }
            }

            driven += step.LengthMetres;
            if (driven > at)
            {
                yield return new(at, driven, LaneSpan.Hole, IsReversed: false);
            }
        }
    }

    private static IEnumerable<SharedPiece> SharedPieces(ImmutableArray<TrackLane> lanes)
    {
        Dictionary<PieceId, List<(int Lane, double From, double To)>> found = [];
        for (int lane = 0; lane < lanes.Length; lane++)
        {
            double driven = 0;
            foreach (RouteStep step in lanes[lane].Steps)
            {
                if (!found.TryGetValue(step.Piece, out List<(int Lane, double From, double To)>? ways))
                {
                    found[step.Piece] = ways = [];
                }

                foreach ((int other, double from, double to) in ways)
                {
                    yield return new(other, from, to, lane, driven, driven + step.LengthMetres);
                }

                ways.Add((lane, driven, driven + step.LengthMetres));
                driven += step.LengthMetres;
            }
        }
    }
}
