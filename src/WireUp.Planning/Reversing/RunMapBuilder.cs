using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;
using WireUp.Rails;

namespace WireUp.Planning.Reversing;

/// <summary>Draws a layout together into a <see cref="RunMap"/>; the result does not depend on the order of the file. Which ends of a piece hang
/// together is taken from the trackwork table.</summary>
internal sealed class RunMapBuilder(LayoutIndex index)
{
    private readonly List<Run> _runs = [];
    private readonly SortedDictionary<TrackEnd, Tip> _tips = [];
    private readonly HashSet<(PieceId, int)> _passed = [];
    private readonly Dictionary<TrackEnd, Port> _ports = [];
    private readonly Dictionary<TrackEnd, TrackThrough> _through = [];

    internal RunMap Build()
    {
        Piece[] pieces = [.. index.Layout.Track.OrderBy(piece => piece.Id)];
        List<(Piece Piece, ImmutableArray<string> Ends, Trackwork Row)> found = [];
        foreach (Piece piece in pieces)
        {
            Trackwork row = TrackworkTable.Of(piece, index.Layout.Control);
            for (int number = 0; number < row.Phases.Length; number++)
            {
                Sort(piece, row, number, found);
            }
        }

        foreach (TrackEnd end in found.SelectMany(one => one.Ends.Select(one.Piece.End)).Where(end => !_tips.ContainsKey(end)))
        {
            AddFrom(end);
        }

        AddTrackWithoutJunctions(pieces);
        ImmutableArray<Junction> junctions =
        [
            .. found.Select((one, i) => new Junction(i, one.Piece, one.Ends, [.. one.Ends.Select(end => _tips[one.Piece.End(end)])]) { Ways = one.Row.Ways }),
        ];
        return new(index, junctions, [.. _runs]);
    }

    /// <summary>
    /// Ends of a piece that hang together: two that a train drives between are track of a run, more are a junction, one is an end of track.
    /// </summary>
    private void Sort(Piece piece, Trackwork row, int number, List<(Piece Piece, ImmutableArray<string> Ends, Trackwork Row)> junctions)
    {
        PhaseGroup group = row.Phases[number];
        ImmutableArray<string> ends = [.. piece.EndNames.Where(end => group.Plus.Contains(end) || group.Minus.Contains(end))];
        if (group is { Plus: [var plus], Minus: [var minus] })
        {
            _through[piece.End(plus)] = new(number, minus, Forward: true);
            _through[piece.End(minus)] = new(number, plus, Forward: false);
        }
        else if (ends.Length > 1)
        {
            for (int port = 0; port < ends.Length; port++)
            {
                _ports[piece.End(ends[port])] = new(junctions.Count, port, group.Plus.Contains(ends[port]));
            }

            junctions.Add((piece, ends, row));
        }
    }

    private void AddFrom(TrackEnd start)
    {
        (List<RunPiece> pieces, TrackEnd? last) = Follow(start);
        int number = _runs.Count;
        _tips[start] = new(number, 0);
        if (last is { } end)
        {
            _tips[end] = new(number, 1);
        }

        Add(new(number, _ports[start], last is { } port ? _ports[port] : null, [.. pieces], IsRing: false)
        {
            BareJoint = pieces.Count == 0 && last is not null ? start : null,
        });
    }

    private void Add(Run run) => _runs.Add(run with { DoubleGaps = [.. ExistingGaps(run).OrderBy(spot => spot.Position)] });

    /// <summary>Walks from an end, out of its piece, to the next junction or the end of track.</summary>
    private (List<RunPiece> Pieces, TrackEnd? Last) Follow(TrackEnd start)
    {
        List<RunPiece> pieces = [];
        double along = 0;
        TrackEnd? at = index.Opposite(start);
        while (at is { } enters && !_ports.ContainsKey(enters))
        {
            if (!_through.TryGetValue(enters, out TrackThrough track) || !_passed.Add((enters.Piece, track.Number)))
            {
                return (pieces, null);
            }

            RunPiece piece = Passed(enters, track, along);
            pieces.Add(piece);
            along += piece.Length;
            at = index.Opposite(new(enters.Piece, track.Leaves));
        }

        return (pieces, at);
    }

    private RunPiece Passed(TrackEnd enters, TrackThrough track, double start)
    {
        Piece piece = index.Piece(enters.Piece);
        return new(piece.Id, enters.Name, track.Leaves, start, piece.WayMetres)
        {
            IsSection = piece is Piece.Section,
            TakesFeeders = MovingBridges.TakesFeeders(piece, index.Layout.Control),
            Forward = track.Forward,
        };
    }

    /// <summary>Track that meets no junction: from an open end first, then rings.</summary>
    private void AddTrackWithoutJunctions(IEnumerable<Piece> pieces)
    {
        TrackEnd[] ends = [.. pieces.SelectMany(piece => piece.Ends).Where(_through.ContainsKey)];
        foreach (TrackEnd end in ends.Where(end => EndsHere(end) && !IsPassed(end)))
        {
            AddLoose(end, isRing: false);
        }

        foreach (TrackEnd end in ends.Where(end => !IsPassed(end)))
        {
            AddLoose(end, isRing: true);
        }
    }

    private void AddLoose(TrackEnd start, bool isRing)
    {
        TrackThrough track = _through[start];
        _passed.Add((start.Piece, track.Number));
        RunPiece first = Passed(start, track, 0);
        (List<RunPiece> rest, _) = Follow(new(start.Piece, track.Leaves));
        Add(new(_runs.Count, null, null, [first, .. rest.Select(piece => piece with { Start = piece.Start + first.Length })], isRing));
    }

    private bool EndsHere(TrackEnd end) => index.Opposite(end) is not { } opposite || !_through.ContainsKey(opposite);

    private bool IsPassed(TrackEnd end) => _passed.Contains((end.Piece, _through[end].Number));

    private IEnumerable<Spot> ExistingGaps(Run run)
    {
        foreach (RunPiece piece in run.Pieces)
        {
            if (index.AlwaysOpenRails(new(piece.Piece, piece.Enters)) == RailSet.Both)
            {
                yield return new(run.Index, piece.Start, new GapPlace.InJoint(new(piece.Piece, piece.Enters)), Exists: true);
            }

            foreach (double metres in CutsIn(piece))
            {
                yield return new(
                    run.Index, piece.PositionOf(metres), new GapPlace.InSection(new(piece.Piece, metres)), Exists: true);
            }
        }

        TrackEnd? tail = run.BareJoint ?? (run is { IsRing: false, Pieces: [.., var last] } ? new(last.Piece, last.Leaves) : null);
        if (tail is { } end && index.AlwaysOpenRails(end) == RailSet.Both)
        {
            yield return new(run.Index, run.Length, new GapPlace.InJoint(end), Exists: true);
        }
    }

    /// <summary>
    /// Places of a section where gaps of both rails lie opposite each other, or nearer than the shortest pick-up wheel base, so that
    /// nothing can stand between them.
    /// </summary>
    private IEnumerable<double> CutsIn(RunPiece piece)
    {
        if (!piece.IsSection)
        {
            yield break;
        }

        double reach = index.Layout.ShortestPickup.Meters + CellMap.SamePlaceMetres;
        double? open = null;
        RailSet openRails = RailSet.None;
        foreach ((double metres, RailSet rails) in CutsByPlace(piece.Piece))
        {
            bool pairs = open is { } before && metres - before <= reach && (openRails | rails) == RailSet.Both;
            if (rails == RailSet.Both || pairs)
            {
                yield return pairs && rails != RailSet.Both ? (open!.Value + metres) / 2 : metres;
                (open, openRails) = (null, RailSet.None);
            }
            else
            {
                (open, openRails) = (metres, rails);
            }
        }
    }

    private IEnumerable<(double Metres, RailSet Rails)> CutsByPlace(PieceId section) => index.Layout.Wiring.Gaps
        .Where(gap => gap.BridgedWhen is null)
        .Select(gap => (gap.Rails, Place: (gap.At as GapPlace.InSection)?.Place))
        .Where(gap => gap.Place?.Section == section)
        .GroupBy(gap => Math.Round(gap.Place!.Value.MetresFromA, 6), gap => gap.Rails)
        .OrderBy(place => place.Key)
        .Select(place => (place.Key, place.Aggregate(RailSet.None, (all, one) => all | one)));

    /// <summary>A track that leads from one end of a piece to one other.</summary>
    /// <param name="Number">Number of the phase group, so that the two tracks of a crossing are told apart.</param>
    /// <param name="Leaves">The other end.</param>
    /// <param name="Forward">Whether that is from plus to minus.</param>
    private readonly record struct TrackThrough(int Number, string Leaves, bool Forward);
}
