using System.Collections.Immutable;
using QuikGraph;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>A way through a piece, or a joint, as a line between two ends.</summary>
/// <param name="Source">One end.</param>
/// <param name="Target">The other end.</param>
/// <param name="LengthMetres">Length of the piece; 0 for a joint.</param>
public sealed record TrackLine(TrackEnd Source, TrackEnd Target, double LengthMetres) : IEdge<TrackEnd>
{
    /// <summary>True for a joint between two ends, false for a way through a piece.</summary>
    public bool IsJoint { get; init; }
}

/// <summary>Where a train is and which way it rolls.</summary>
/// <param name="End">The end it passes.</param>
/// <param name="Outward">True when it rolls out of the end's piece, false when it rolls into it.</param>
public readonly record struct TrainState(TrackEnd End, bool Outward);

/// <summary>One step of a train.</summary>
internal sealed record TrackArc(TrainState Source, TrainState Target, double LengthMetres, string? Position, bool IsReversal)
    : IEdge<TrainState>;

/// <summary>What a train may do on its way.</summary>
public sealed record DriveOptions
{
    /// <summary>The pieces it may touch, or null for all.</summary>
    public ImmutableHashSet<PieceId>? Within { get; init; }

    /// <summary>
    /// Metres that each change of direction adds (the length needed to clear the turnout behind it), 0 or more; null when
    /// it may not change direction.
    /// </summary>
    public double? ReversalMetres { get; init; }

    /// <summary>Length in metres to use for a piece in place of its own, or null for its own; for sections cut by gaps.</summary>
    public Func<PieceId, double?>? LengthOf { get; init; }

    internal bool Allows(PieceId piece) => Within?.Contains(piece) ?? true;
}

/// <summary>A drive that a train can make.</summary>
/// <param name="Ends">The ends passed, in order: in at the first, out at the last.</param>
/// <param name="LengthMetres">Metres driven, with what the changes of direction add.</param>
/// <param name="Reversals">How often it changes direction.</param>
/// <param name="Turnouts">The positions it needs, ordered by name; the last one where a turnout is passed twice.</param>
public sealed record DrivePath(
    ImmutableArray<TrackEnd> Ends, double LengthMetres, int Reversals, ImmutableSortedDictionary<PieceId, string> Turnouts)
{
    internal static DrivePath Of(ImmutableArray<TrackArc> arcs)
    {
        ImmutableSortedDictionary<PieceId, string>.Builder turnouts = ImmutableSortedDictionary.CreateBuilder<PieceId, string>();
        foreach (TrackArc arc in arcs)
        {
            if (arc.Position is { } position)
            {
                turnouts[arc.Source.End.Piece] = position;
            }
        }

        return new(
            [arcs[0].Source.End, .. arcs.Where(arc => !arc.IsReversal).Select(arc => arc.Target.End)],
            arcs.Sum(arc => arc.LengthMetres),
            arcs.Count(arc => arc.IsReversal),
            turnouts.ToImmutable());
    }
}
