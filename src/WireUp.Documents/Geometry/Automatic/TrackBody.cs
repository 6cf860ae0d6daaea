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
/// a crossing is two bars on one pivot; see <see cref="BoxBodies"/> for larger trackwork; anything else is a point.
/// </summary>
/// <param name="Bars">How many bars turn by themselves: 0, 1 or 2.</param>
/// <param name="Arms">The arms, in the order of the node's halves.</param>
internal sealed record TrackBody(int Bars, ImmutableArray<BodyArm> Arms)
{
    /// <summary>Angle between the legs of a right-hand or left-hand turnout, in radians.</summary>
    public const double LegAngle = 0.31;

    /// <summary>From the centre to the points of a turnout.</summary>
    public const double HalfTurnout = 1.5;

    private const double HalfCrossing = 1;

    /// <summary>From the centre to the end of an arm, along the track; no more than lets neighbouring arms lie as near as they do.</summary>
    public double HalfLength { get; init; }

    /// <summary>How far behind the node's place on squared paper the centre lies.</summary>
    public double Shift { get; init; }

    /// <summary>Where ahead of the centre the arms meet.</summary>
    public double Meeting { get; init; }

    /// <summary>Cosine of the angle that the second of two bars likes to have to the first.</summary>
    public double PreferredCosine { get; init; }

    /// <summary>Half the length and half the width of the box that it needs.</summary>
    public (double X, double Y) HalfBox { get; init; }

    /// <summary>Corners of an outline that no other track may enter, ahead and left of the centre; empty where the arms are enough.</summary>
    public ImmutableArray<(double X, double Y)> Outline { get; init; } = [];

    /// <summary>Whether its arms lie on a circle.</summary>
    public bool IsRound { get; init; }

    /// <summary>The shape of a node.</summary>
    public static TrackBody Of(MapNode node) => node.Piece switch
    {
        Piece.Turnout turnout => Turnout(turnout),
        Piece.Crossing crossing when node.Kind == NodeKind.Crossing => Pivot(crossing.Angle.Radians, node.Turned),
        { } box => BoxBodies.Of(box, node),
        null when node.Kind == NodeKind.Bridge => Pivot(Math.PI / 2, false),
        null => new(0, [.. node.Halves.Select(_ => new BodyArm(0, 0, 0, 0))]),
    };

    private static TrackBody Turnout(Piece.Turnout turnout)
    {
        (double right, double left) = (turnout.Hand, turnout.Curved) switch
        {
            (TurnoutHand.Right, true) => (-1.9 * LegAngle, -0.9 * LegAngle),
            (TurnoutHand.Left, true) => (0.9 * LegAngle, 1.9 * LegAngle),
            (TurnoutHand.Right, _) => (-LegAngle, 0.0),
            (TurnoutHand.Left, _) => (0.0, LegAngle),
            _ => (-LegAngle / 1.6, LegAngle / 1.6),
        };
        return new(1, [Leg(right), Leg(left), new(0, -HalfTurnout, 0, Math.PI)]) { HalfLength = HalfTurnout, Shift = HalfTurnout - 0.3, Meeting = -0.3 };
    }

    private static BodyArm Leg(double angle) => new(0, HalfTurnout, 1.7 * HalfTurnout * Math.Tan(angle / 2), angle);

    /// <summary>Ends a1 and b1 lie at the acute side; turned over, the second arm is b2.</summary>
    private static TrackBody Pivot(double angle, bool turned)
    {
        return new(2, [Arm(0, 1), Arm(1, 1), Arm(0, -1), Arm(1, -1)]) { HalfLength = HalfCrossing, PreferredCosine = (turned ? -1 : 1) * Math.Cos(angle) };

        BodyArm Arm(int bar, int side) => new(bar, side * HalfCrossing, 0, side > 0 ? 0 : Math.PI);
    }
}
