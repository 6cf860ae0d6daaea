using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>The centre line on paper of one way through a piece: a section a to b, a turnout points to leg, one track of a crossing; of a turntable also its bridge.</summary>
/// <param name="Piece">The piece.</param>
/// <param name="From">Name of the end at which the line begins; of a turntable or transfer table <c>head</c> or <c>pivot</c>.</param>
/// <param name="To">Name of the end at which it ends; of a bridge <c>tail</c>.</param>
/// <param name="Points">The line, in metres; at least two points, neighbours apart from each other.</param>
public sealed record PieceLine(PieceId Piece, string From, string To, ImmutableArray<PlanPoint> Points)
{
    /// <summary>Length on paper, in metres of the plan. An automatic drawing keeps true lengths only roughly.</summary>
    public double LengthMetres => Polyline.Length(Points);

    /// <summary>The place a share of the way along, looking towards <see cref="To"/>.</summary>
    /// <param name="share">0 at <see cref="From"/> to 1 at <see cref="To"/>; values outside are taken as the nearer end.</param>
    public PlanPose At(double share) => Polyline.At(Points, Math.Clamp(share, 0, 1) * LengthMetres);

    /// <summary>The line between two shares of its way, with both of those places as its ends.</summary>
    /// <param name="fromShare">Where it begins, from 0 to 1.</param>
    /// <param name="toShare">Where it ends, from <paramref name="fromShare"/> to 1.</param>
    public ImmutableArray<PlanPoint> Part(double fromShare, double toShare)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(fromShare, toShare);
        double length = LengthMetres;
        return Polyline.Part(Points, Math.Clamp(fromShare, 0, 1) * length, Math.Clamp(toShare, 0, 1) * length);
    }
}
