using System.Collections.Immutable;
using WireUp.Layouts.Reference;

namespace WireUp.Layouts.Tracing.Junctions;

/// <summary>A turnout as three lines that meet show it.</summary>
/// <param name="Points">Which of the three branches leads to its points.</param>
/// <param name="Left">Which is its left leg, seen from the points.</param>
/// <param name="Right">Which is its right leg.</param>
internal sealed record TracedTurnout(int Points, int Left, int Right)
{
    // The legs leave to the same side in general direction, and away from the points; between these limits somebody must say.
    private const double LegsApartMost = Math.PI / 3;
    private const double FromPointsLeast = 2 * Math.PI / 3;

    // Of the turns of the two legs: the smaller over the larger. Below the first the leg counts as straight, above the second as turned.
    private const double StraightShare = 0.35;

    /// <summary>How far from the place one looks for the general direction, in gauges: about the length of a sharp turnout.</summary>
    public const double ReachOverGauge = 6;

    /// <summary>Which way it diverges.</summary>
    public TurnoutHand Hand { get; private init; }

    /// <summary>Whether both legs turn to the side of the hand.</summary>
    public bool Curved { get; private init; }

    /// <summary>The frog number nearest to the angle at which the legs part.</summary>
    public double Number { get; private init; }

    /// <summary>How far its legs reach from the place, in metres.</summary>
    public double HeelMetres { get; private init; }

    /// <summary>Whether the directions leave no doubt which branch leads to the points.</summary>
    public bool IsClear { get; private init; }

    /// <summary>The branch that has the end of this name.</summary>
    public int BranchOf(string end) => end switch
    {
        "points" => Points,
        "left" => Left,
        "right" => Right,
        "diverging" => Hand == TurnoutHand.Left ? Left : Right,
        "through" => Hand == TurnoutHand.Left ? Right : Left,
        _ => throw new ArgumentOutOfRangeException(nameof(end), end, "not an end of a turnout"),
    };

    /// <summary>The shape of three branches.</summary>
    /// <param name="branches">The branches.</param>
    /// <param name="gaugeMetres">The gauge of the railway.</param>
    /// <param name="heelMetres">How far apart the legs' centre lines are where the turnout ends.</param>
    /// <param name="points">The branch that leads to the points, where somebody said so.</param>
    public static TracedTurnout Of(ImmutableArray<Branch> branches, double gaugeMetres, double heelMetres, int? points = null)
    {
        double reach = ReachOverGauge * gaugeMetres;
        double[] bearings = [.. branches.Select(branch => branch.Bearing(reach))];
        int stem = points ?? Stem(bearings);
        int[] legs = [.. Enumerable.Range(0, 3).Where(i => i != stem)];
        bool clear = Branch.Between(bearings[legs[0]], bearings[legs[1]]) <= LegsApartMost
            && legs.All(leg => Branch.Between(bearings[leg], bearings[stem]) >= FromPointsLeast);
        double ahead = bearings[stem] + Math.PI;
        return Branch.Turn(bearings[legs[0]] - ahead) >= Branch.Turn(bearings[legs[1]] - ahead)
            ? Shape(branches, new(stem, legs[0], legs[1]) { IsClear = clear }, (gaugeMetres, heelMetres))
            : Shape(branches, new(stem, legs[1], legs[0]) { IsClear = clear }, (gaugeMetres, heelMetres));
    }

    /// <summary>The branch that is not one of the two that lie closest together.</summary>
    private static int Stem(double[] bearings) =>
        Enumerable.Range(0, 3).MinBy(i => Branch.Between(bearings[(i + 1) % 3], bearings[(i + 2) % 3]));

    private static TracedTurnout Shape(ImmutableArray<Branch> branches, TracedTurnout ends, (double Gauge, double Heel) apart)
    {
        (Branch left, Branch right) = (branches[ends.Left], branches[ends.Right]);
        double shorter = Math.Min(left.LengthMetres, right.LengthMetres);
        double frog = Branch.Parting(left, right, apart.Gauge) ?? shorter;
        double ahead = branches[ends.Points].Bearing(apart.Gauge) + Math.PI;
        (double toLeft, double toRight) = (Branch.Turn(left.Heading(frog) - ahead), Branch.Turn(right.Heading(frog) - ahead));
        (TurnoutHand hand, bool curved) = HandOf(toLeft, toRight);
        return ends with
        {
            Hand = hand,
            Curved = curved,
            Number = FrogNumbers.Nearest(Branch.Between(left.Heading(frog), right.Heading(frog))),
            HeelMetres = Math.Min(Branch.Parting(left, right, apart.Heel) ?? shorter, shorter / 3),
        };
    }

    private static (TurnoutHand Hand, bool Curved) HandOf(double toLeft, double toRight)
    {
        (double left, double right) = (Math.Abs(toLeft), Math.Abs(toRight));
        bool bothTurn = Math.Min(left, right) > StraightShare * Math.Max(left, right);
        return (bothTurn, Math.Sign(toLeft) == Math.Sign(toRight)) switch
        {
            (true, false) => (TurnoutHand.Wye, false),
            (true, true) => (toLeft > 0 ? TurnoutHand.Left : TurnoutHand.Right, true),
            _ => (left > right ? TurnoutHand.Left : TurnoutHand.Right, false),
        };
    }
}
