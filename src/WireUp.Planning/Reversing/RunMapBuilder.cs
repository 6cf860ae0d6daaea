using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>Draws a layout together into a <see cref="RunMap"/>; the result does not depend on the order of the file.</summary>
internal sealed class RunMapBuilder(LayoutIndex index)
{
    private readonly List<Run> _runs = [];
    private readonly SortedDictionary<TrackEnd, Tip> _tips = [];
    private readonly HashSet<(PieceId, string)> _passed = [];
    private readonly Dictionary<TrackEnd, Port> _ports = [];

    internal RunMap Build()
    {
        Piece[] pieces = [.. index.Layout.Track.OrderBy(piece => piece.Id)];
        Piece.Turnout[] turnouts = [.. pieces.OfType<Piece.Turnout>()];
        for (int i = 0; i < turnouts.Length; i++)
        {
            for (int port = 0; port < turnouts[i].EndNames.Length; port++)
            {
                _ports[turnouts[i].End(turnouts[i].EndNames[port])] = new(i, port);
            }
        }

        foreach (TrackEnd end in turnouts.SelectMany(turnout => turnout.Ends).Where(end => !_tips.ContainsKey(end)))
        {
            AddFrom(end);
        }

        AddTrackWithoutTurnouts(pieces);
        ImmutableArray<Junction> junctions =
        [
            .. turnouts.Select((turnout, i) => new Junction(i, turnout, [.. turnout.Ends.Select(end => _tips[end])])),
        ];
        return new(index, junctions, [.. _runs]);
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

    /// <summary>Walks from an end, out of its piece, to the next turnout or the end of track.</summary>
    private (List<RunPiece> Pieces, TrackEnd? Last) Follow(TrackEnd start)
    {
        List<RunPiece> pieces = [];
        double along = 0;
        TrackEnd? at = index.Opposite(start);
        while (at is { } enters && !_ports.ContainsKey(enters))
        {
            if (Across(enters) is not { } leaves || !_passed.Add(TrackOf(enters)))
            {
                return (pieces, null);
            }

            double length = LengthOf(index.Piece(enters.Piece));
            pieces.Add(new(enters.Piece, enters.Name, leaves, along, length));
            along += length;
            at = index.Opposite(new(enters.Piece, leaves));
        }

        return (pieces, at);
    }

    /// <summary>Track that meets no turnout: from an open end first, then rings.</summary>
    private void AddTrackWithoutTurnouts(IEnumerable<Piece> pieces)
    {
        TrackEnd[] ends = [.. pieces.Where(piece => piece is Piece.Section or Piece.Crossing).SelectMany(piece => piece.Ends)];
        foreach (TrackEnd end in ends.Where(end => EndsHere(end) && !_passed.Contains(TrackOf(end))))
        {
            AddLoose(end, isRing: false);
        }

        foreach (TrackEnd end in ends.Where(end => !_passed.Contains(TrackOf(end))))
        {
            AddLoose(end, isRing: true);
        }
    }

    private void AddLoose(TrackEnd start, bool isRing)
    {
        string leaves = Across(start)!;
        _passed.Add(TrackOf(start));
        RunPiece first = new(start.Piece, start.Name, leaves, 0, LengthOf(index.Piece(start.Piece)));
        (List<RunPiece> rest, _) = Follow(new(start.Piece, leaves));
        Add(new(_runs.Count, null, null, [first, .. rest.Select(piece => piece with { Start = piece.Start + first.Length })], isRing));
    }

    private bool EndsHere(TrackEnd end) => index.Opposite(end) is not { } opposite || Across(opposite) is null;

    private string? Across(TrackEnd end) => index.Piece(end.Piece) is Piece.Stop
        ? null
        : end.Name switch { "a" => "b", "b" => "a", "a1" => "a2", "a2" => "a1", "b1" => "b2", "b2" => "b1", _ => null };

    /// <summary>A crossing is two tracks, told apart by the first letter of their ends; a section is one.</summary>
    private (PieceId, string) TrackOf(TrackEnd end) =>
        (end.Piece, index.Piece(end.Piece) is Piece.Crossing ? end.Name[..1] : "");

    private static double LengthOf(Piece piece) => piece switch
    {
        Piece.Section section => section.Length.Meters,
        Piece.Crossing crossing => crossing.Length?.Meters ?? 0,
        _ => 0,
    };

    private IEnumerable<Spot> ExistingGaps(Run run)
    {
        foreach (RunPiece piece in run.Pieces)
        {
            if (index.OpenRails(new(piece.Piece, piece.Enters)) == RailSet.Both)
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
        if (tail is { } end && index.OpenRails(end) == RailSet.Both)
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
        .Select(gap => (gap.Rails, Place: (gap.At as GapPlace.InSection)?.Place))
        .Where(gap => gap.Place?.Section == section)
        .GroupBy(gap => Math.Round(gap.Place!.Value.MetresFromA, 6), gap => gap.Rails)
        .OrderBy(place => place.Key)
        .Select(place => (place.Key, place.Aggregate(RailSet.None, (all, one) => all | one)));
}
