using WireUp.Layouts;

namespace WireUp.Planning.Reversing;

/// <summary>Finds where along a run both rails may be parted: in plain track that may be cut, or in a joint of it.</summary>
internal sealed class CutSpots(RunMap map, Clearances clearances)
{
    private readonly HashSet<PieceId> _noGap = [.. map.Index.Layout.NoGap, .. map.Index.Layout.Track.OfType<Piece.Section>().Where(section => section.LiftOut).Select(section => section.Id)];

    /// <summary>
    /// The first spot from one position towards another, both ends included. A joiner a little farther on wins over a saw cut.
    /// </summary>
    internal Spot? First(Run run, double from, double to)
    {
        Spot? cut = FirstCut(run, from, to, _noGap);
        Spot? joint = FirstJoint(run, from, to);
        if (cut is null || joint is null)
        {
            return joint ?? cut;
        }

        double farther = Math.Abs(joint.Value.Position - from) - Math.Abs(cut.Value.Position - from);
        return farther <= clearances.JointReach ? joint : cut;
    }

    /// <summary>The first existing double gap from one position towards another.</summary>
    internal static Spot? FirstExisting(Run run, double from, double to) => run.DoubleGaps
        .Where(gap => Between(gap.Position, from, to))
        .OrderBy(gap => Math.Abs(gap.Position - from))
        .Select(gap => (Spot?)gap)
        .FirstOrDefault();

    /// <summary>
    /// The joint nearest the middle of a run that is too short for any spot clear of both its turnouts; null for longer runs.
    /// </summary>
    internal Spot? OnlyJoint(Run run)
    {
        double far = run.Length - clearances.Frog;
        if (!run.IsThrough || (far >= clearances.Frog && FirstCut(run, clearances.Frog, far, []) is not null))
        {
            return null;
        }

        IEnumerable<Spot> joints = run.BareJoint is { } bare
            ? [new(run.Index, 0, new GapPlace.InJoint(bare), Exists: false)]
            : [.. Joints(run), .. LastJoint(run) is { } last ? [last] : Array.Empty<Spot>()];
        return joints
            .Where(MayPart)
            .OrderBy(joint => Math.Abs(joint.Position - (run.Length / 2)))
            .ThenBy(joint => joint.Position)
            .Select(joint => (Spot?)joint)
            .FirstOrDefault();
    }

    private Spot? FirstCut(Run run, double from, double to, HashSet<PieceId> noGap)
    {
        bool forward = to >= from;
        foreach (RunPiece piece in forward ? run.Pieces : run.Pieces.Reverse())
        {
            if (!piece.IsSection || noGap.Contains(piece.Piece))
            {
                continue;
            }

            (double low, double high) = Zone(run, piece);
            (double start, double end) = forward ? (Math.Max(from, low), Math.Min(to, high)) : (Math.Min(from, high), Math.Max(to, low));
            if (forward ? start <= end : start >= end)
            {
                double metres = RoundOutward(piece.MetresFromA(start), piece.MetresFromA(end));
                return new(run.Index, piece.PositionOf(metres), new GapPlace.InSection(new(piece.Piece, metres)), Exists: false);
            }
        }

        return null;
    }

    /// <summary>Whole centimetres or millimetres where the room allows, never back towards where the search began.</summary>
    private static double RoundOutward(double start, double end)
    {
        foreach (double step in new[] { 0.01, 0.001 })
        {
            double rounded = end >= start ? Math.Ceiling((start / step) - 1e-6) * step : Math.Floor((start / step) + 1e-6) * step;
            if (Between(rounded, start - 1e-9, end) || Between(rounded, end, start + 1e-9))
            {
                return Math.Round(rounded, 6);
            }
        }

        return start;
    }

    /// <summary>The part of a section clear of its joints and of crossings beside it.</summary>
    private (double Low, double High) Zone(Run run, RunPiece piece)
    {
        double low = piece.Start + clearances.RailEnd, high = piece.End - clearances.RailEnd;
        foreach (RunPiece crossing in run.Pieces.Where(other => !other.IsSection))
        {
            if (crossing.Start >= piece.End - CellMap.SamePlaceMetres)
            {
                high = Math.Min(high, crossing.Start - clearances.Frog);
            }
            else
            {
                low = Math.Max(low, crossing.End + clearances.Frog);
            }
        }

        return (low, high);
    }

    private Spot? FirstJoint(Run run, double from, double to) => Joints(run)
        .Where(joint => Between(joint.Position, from, to) && MayPart(joint) && ClearOfCrossings(run, joint.Position))
        .OrderBy(joint => Math.Abs(joint.Position - from))
        .Select(joint => (Spot?)joint)
        .FirstOrDefault();

    private bool ClearOfCrossings(Run run, double position) => run.Pieces
        .Where(piece => !piece.IsSection)
        .All(crossing => position <= crossing.Start - clearances.Frog || position >= crossing.End + clearances.Frog);

    private static IEnumerable<Spot> Joints(Run run) => run.Pieces
        .Where(piece => !(piece.Start == 0 && run.Port0 is null))
        .Select(piece => new Spot(run.Index, piece.Start, new GapPlace.InJoint(new(piece.Piece, piece.Enters)), Exists: false));

    private static Spot? LastJoint(Run run) => run.Pieces is [.., var last] && run.Port1 is not null
        ? new Spot(run.Index, run.Length, new GapPlace.InJoint(new(last.Piece, last.Leaves)), Exists: false)
        : null;

    /// <summary>Whether a joint is a plain joiner and not both pieces at it are marked: the edge of a marked piece may be parted.</summary>
    private bool MayPart(Spot spot) =>
        spot.Place is GapPlace.InJoint place
        && map.Index.JointAt(place.End) is { Kind: JointKind.Joiner } joint
        && !(_noGap.Contains(joint.First.Piece) && _noGap.Contains(joint.Second.Piece));

    private static bool Between(double position, double from, double to) =>
        position >= Math.Min(from, to) - 1e-9 && position <= Math.Max(from, to) + 1e-9;
}
