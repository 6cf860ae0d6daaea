using System.Collections.Immutable;

namespace WireUp.Layouts.Tracing.Junctions;

/// <summary>A crossing as four lines that meet show it.</summary>
/// <param name="Ends">The branches that have the ends a1, b1, a2, b2: counter-clockwise from an acute angle.</param>
/// <param name="AngleDegrees">The angle between the two tracks, from 0 to 90.</param>
internal sealed record TracedCrossing(ImmutableArray<int> Ends, double AngleDegrees)
{
    private const double StraightEnough = Math.PI / 6;

    /// <summary>Flatter crossings are not built, and the format has none.</summary>
    public const double FlattestDegrees = 1;

    /// <summary>At most at this angle the two tracks may be joined by slip roads.</summary>
    public const double SlipMostDegrees = 30;

    /// <summary>How far each track reaches from the middle, in metres.</summary>
    public double ArmMetres { get; private init; }

    /// <summary>The names of the ends in the order of <see cref="Ends"/>.</summary>
    public static ImmutableArray<string> EndNames { get; } = ["a1", "b1", "a2", "b2"];

    /// <summary>The shape of four branches; null where they are not two tracks that lead across each other.</summary>
    /// <param name="branches">The branches.</param>
    /// <param name="reachMetres">How far from the place one looks for a direction.</param>
    /// <param name="spreadMetres">How far apart the centre lines are where the crossing ends.</param>
    public static TracedCrossing? Of(ImmutableArray<Branch> branches, double reachMetres, double spreadMetres)
    {
        double reach = Math.Min(reachMetres, branches.Min(branch => branch.LengthMetres) / 3);
        double[] bearings = [.. branches.Select(branch => branch.Bearing(reach))];
        int[] round = [.. Enumerable.Range(0, 4).OrderBy(i => bearings[i])];
        if (Branch.Between(bearings[round[0]], bearings[round[2]]) < Math.PI - StraightEnough
            || Branch.Between(bearings[round[1]], bearings[round[3]]) < Math.PI - StraightEnough)
        {
            return null;
        }

        double first = (Gap(0) + Gap(2)) / 2;
        double second = (Gap(1) + Gap(3)) / 2;
        double acute = Math.Min(first, second);
        // Of the two acute angles the one that begins with the branch named first, so that the older track is track a where it can be.
        int start = first <= second ? 0 : 1;
        start = round[start] <= round[start + 2] ? start : start + 2;
        double arm = Math.Min(spreadMetres / (2 * Math.Max(Math.Sin(acute / 2), 1e-9)), branches.Min(branch => branch.LengthMetres) / 3);
        return new([.. Enumerable.Range(0, 4).Select(i => round[(start + i) % 4])], Math.Min(acute * 180 / Math.PI, 90)) { ArmMetres = arm };

        double Gap(int i)
        {
            double gap = bearings[round[(i + 1) % 4]] - bearings[round[i]];
            return gap < 0 ? gap + (2 * Math.PI) : gap;
        }
    }
}
