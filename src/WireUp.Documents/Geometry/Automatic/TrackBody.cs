using System.Collections.Immutable;
using WireUp.Layouts;

namespace WireUp.Documents.Geometry.Automatic;

/// <summary>An arm of a body: where it ends and the way the track leaves there, in the body's own frame.</summary>
/// <param name="Bar">Which of the bars that turn by themselves it belongs to.</param>
/// <param name="X">End, ahead of the centre.</param>
/// <param name="Y">End, left of the centre.</param>
/// <param name="Heading">Outward direction in radians from the bar's own direction.</param>
internal readonly record struct BodyArm(int Bar, double X, double Y, double Heading);

/// <summary>
/// The rigid shape in which a node is drawn, in units of track spacing. A turnout is one bar, its points behind and its legs ahead;
/// a crossing is two bars on one pivot; anything else is a point.
/// </summary>
/// <param name="Bars">How many bars turn by themselves: 0, 1 or 2.</param>
/// <param name="Arms">The arms, in the order of the node's halves.</param>
/// <param name="Shift">How far behind the node's place on squared paper the centre lies.</param>
/// <param name="PreferredCosine">Square of the cosine of the angle at which two bars like to cross.</param>
internal sealed record TrackBody(int Bars, ImmutableArray<BodyArm> Arms, double Shift, double PreferredCosine)
{
    /// <summary>Angle between the legs of a right-hand or left-hand turnout, in radians.</summary>
    public const double LegAngle = 0.31;

    private const double HalfTurnout = 1.5, HalfCrossing = 1;
    private const double SharpestCrossing = 0.6;

    /// <summary>From the centre to the end of an arm, along the track.</summary>
    public double HalfLength => Bars switch { 0 => 0, 1 => HalfTurnout, _ => HalfCrossing };

    /// <summary>The shape of a node.</summary>
    public static TrackBody Of(MapNode node) => node.Kind switch
    {
        NodeKind.Turnout => Turnout(((Piece.Turnout)node.Piece!).Hand),
        NodeKind.Crossing => Crossing(Math.Max(SharpestCrossing, ((Piece.Crossing)node.Piece!).Angle.Radians)),
        NodeKind.Bridge => Crossing(Math.PI / 2),
        _ => new(0, [.. node.Halves.Select(_ => new BodyArm(0, 0, 0, 0))], 0, 0),
    };

    private static TrackBody Turnout(TurnoutHand hand)
    {
        (double right, double left) = hand switch
        {
            TurnoutHand.Right => (-LegAngle, 0.0),
            TurnoutHand.Left => (0.0, LegAngle),
            _ => (-LegAngle / 1.6, LegAngle / 1.6),
        };
        return new(1, [Leg(right), Leg(left), new(0, -HalfTurnout, 0, Math.PI)], HalfTurnout - 0.3, 0);
    }

    private static BodyArm Leg(double angle) => new(0, HalfTurnout, 1.7 * HalfTurnout * Math.Tan(angle / 2), angle);

    private static TrackBody Crossing(double angle)
    {
        double cosine = Math.Cos(angle);
        return new(2, [Arm(0, 1), Arm(1, 1), Arm(0, -1), Arm(1, -1)], 0, cosine * cosine);

        static BodyArm Arm(int bar, int side) => new(bar, side * HalfCrossing, 0, side > 0 ? 0 : Math.PI);
    }
}
