using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Planning.Districts;

namespace WireUp.Planning.Reversing;

/// <summary>
/// The track with everything between junctions drawn together: junctions (turnouts and other trackwork of which more than two ends
/// hang together in polarity) joined by runs (sections, and tracks of trackwork that lead from one end to one other). This is the
/// signed graph on which reversing is decided; what hangs together is told by the trackwork table.
/// </summary>
/// <param name="Index">The layout and its look-ups.</param>
/// <param name="Junctions">Junctions, in order of name.</param>
/// <param name="Runs">Runs, in the order in which a walk over the junctions meets them.</param>
internal sealed record RunMap(LayoutIndex Index, ImmutableArray<Junction> Junctions, ImmutableArray<Run> Runs)
{
    /// <summary>The junction port at a tip of a run, or null where the track ends there.</summary>
    public Port? PortAt(Tip tip) => tip.Side == 0 ? Runs[tip.Run].Port0 : Runs[tip.Run].Port1;

    /// <summary>The end of a piece at a port.</summary>
    public TrackEnd EndAt(Port port) => Junctions[port.Junction].Piece.End(Junctions[port.Junction].Ends[port.Index]);

    /// <summary>
    /// Whether the frame of a run (looking from its tip 0 to its tip 1) has its left rail on the rail that is left in the frame of
    /// the junction at that tip (looking in at a plus end: at the points of a turnout, towards the frog).
    /// </summary>
    public bool SameFrame(Tip tip) => PortAt(tip) is { } port && port.IsPlus == (tip.Side == 1);

    /// <summary>Where runs end at the pit of a bridge that is a reversing section by itself.</summary>
    public IEnumerable<(int Run, double Position)> PitEdges()
    {
        foreach (Run run in Runs.Where(run => !run.IsRing))
        {
            TrackEnd? back = run.Pieces is [var first, ..] ? new(first.Piece, first.Enters) : null;
            TrackEnd? front = run.Pieces is [.., var last] ? new(last.Piece, last.Leaves) : run.Port0 is { } port ? EndAt(port) : null;
            if (run.Port0 is null && back is { } start && Index.Opposite(start) is { } before && IsAtPit(before))
            {
                yield return (run.Index, 0);
            }

            if (run.Port1 is null && front is { } end && Index.Opposite(end) is { } after && IsAtPit(after))
            {
                yield return (run.Index, run.Length);
            }
        }
    }

    private bool IsAtPit(TrackEnd end) => MovingBridges.Reverses(Index.Piece(end.Piece), Index.Layout.Control);

    /// <summary>Whether a feeder brings A to the left rail of its run's frame.</summary>
    public static bool LeftCarriesA(Feeder feeder, RunPlace at) => !feeder.Swap == at.Forward;

    /// <summary>
    /// Where a place of a section lies: its run, the distance along it, and whether the run goes from a to b there; null for a place
    /// on a bridge with more roads than two.
    /// </summary>
    public RunPlace? Find(TrackPlace place)
    {
        foreach (Run run in Runs)
        {
            foreach (RunPiece piece in run.Pieces)
            {
                if (piece.TakesFeeders && piece.Piece == place.Section)
                {
                    return new(run.Index, piece.PositionOf(place.MetresFromA), piece.Forward);
                }
            }
        }

        return null;
    }
}

/// <summary>One end of a junction.</summary>
/// <param name="Junction">The junction.</param>
/// <param name="Index">Its number there.</param>
/// <param name="IsPlus">Whether it is a plus end: the left rail seen from there inward is the left rail of the junction's frame.</param>
internal readonly record struct Port(int Junction, int Index, bool IsPlus);

/// <summary>One tip of a run: side 0 is where its distances start.</summary>
internal readonly record struct Tip(int Run, int Side)
{
    /// <summary>The other tip of the same run.</summary>
    public Tip Opposite => new(Run, 1 - Side);
}

/// <summary>A place on a run.</summary>
internal readonly record struct RunPlace(int Run, double Position, bool Forward)
{
    /// <summary>The place as a very short stretch, for asking what it lies on.</summary>
    public RunStretch Spot => new(Run, Position - 1e-5, Position + 1e-5);
}

/// <summary>Track without a junction in it, from one junction (or end of track) to the next.</summary>
/// <param name="Index">Its index in the map.</param>
/// <param name="Port0">Junction where it starts, or null at an end of track.</param>
/// <param name="Port1">Junction where it ends, or null at an end of track.</param>
/// <param name="Pieces">Sections and tracks of trackwork in the order they are passed; none where two junctions meet.</param>
/// <param name="IsRing">Whether it closes on itself without any turnout.</param>
internal sealed record Run(int Index, Port? Port0, Port? Port1, ImmutableArray<RunPiece> Pieces, bool IsRing)
{
    /// <summary>Length in metres.</summary>
    public double Length { get; } = Pieces.Sum(piece => piece.Length);

    /// <summary>Places where existing gaps or insulated joiners part both rails, in order along the run.</summary>
    public ImmutableArray<Spot> DoubleGaps { get; init; } = [];

    /// <summary>The joint at tip 0 where no piece lies between two turnouts, or null.</summary>
    public TrackEnd? BareJoint { get; init; }

    /// <summary>Whether both tips end at turnouts.</summary>
    public bool IsThrough => Port0 is not null && Port1 is not null;
}

/// <summary>A section, or one track of a piece of trackwork, as a run passes it.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="Enters">The end by which the run enters.</param>
/// <param name="Leaves">The end by which it leaves.</param>
/// <param name="Start">Distance of the entering end from the start of the run, in metres.</param>
/// <param name="Length">Length in metres.</param>
internal sealed record RunPiece(PieceId Piece, string Enters, string Leaves, double Start, double Length)
{
    /// <summary>Whether it is plain track, which can be cut and fed.</summary>
    public required bool IsSection { get; init; }

    /// <summary>Whether feeders can be soldered to it: plain track, or a moving bridge that is fed by itself.</summary>
    public required bool TakesFeeders { get; init; }

    /// <summary>Whether the run passes it in the direction in which its own places are counted: it enters at the plus end.</summary>
    public required bool Forward { get; init; }

    /// <summary>Distance of the leaving end from the start of the run.</summary>
    public double End => Start + Length;

    /// <summary>Distance along the run of a place of this section.</summary>
    public double PositionOf(double metresFromA) => Forward ? Start + metresFromA : End - metresFromA;

    /// <summary>Distance from the section's end a of a position along the run.</summary>
    public double MetresFromA(double position) => Forward ? position - Start : End - position;
}

/// <summary>A place of a run where both rails are, or can be, parted.</summary>
/// <param name="Run">The run.</param>
/// <param name="Position">Distance along the run in metres.</param>
/// <param name="Place">The same place in the words of the layout.</param>
/// <param name="Exists">Whether both rails are parted there already.</param>
internal readonly record struct Spot(int Run, double Position, GapPlace Place, bool Exists);
