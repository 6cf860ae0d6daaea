using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry;

/// <summary>The shape of a way through trackwork between two of its ends.</summary>
internal static class WayLines
{
    // The slip roads of a slip begin behind the sharp frogs: this part of the way to the middle.
    private const double SlipBegins = 0.62;

    /// <summary>The line from one end to another, both looking outward.</summary>
    public static ImmutableArray<PlanPoint> Between(Piece piece, PlanPose from, PlanPose to) => (piece, IsStraight(from, to)) switch
    {
        (_, true) => [from.At, to.At],
        (Piece.Slip, _) => SlipRoad(from, to),
        _ => SmoothLine.Bent(from, to),
    };

    private static bool IsStraight(PlanPose from, PlanPose to)
    {
        (double dx, double dy) = (to.At.X - from.At.X, to.At.Y - from.At.Y);
        double length = Math.Max(Math.Sqrt((dx * dx) + (dy * dy)), 1e-12);
        return Across(from.DirectionX, from.DirectionY) && Across(to.DirectionX, to.DirectionY);

        bool Across(double x, double y) => Math.Abs((x * dy) - (y * dx)) < 1e-9 * length;
    }

    private static ImmutableArray<PlanPoint> SlipRoad(PlanPose first, PlanPose last)
    {
        double straight = SlipBegins * Polyline.Distance(first.At, last.At) / 2;
        return [first.At, .. SmoothLine.Bent(first with { At = first.Ahead(-straight) }, last with { At = last.Ahead(-straight) }), last.At];
    }
}
