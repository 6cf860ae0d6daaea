using System.Collections.Immutable;

namespace WireUp.Layouts.Reference;

/// <summary>The frog numbers that turnouts usually have (shared/frog-numbers.csv). A number N diverges one in N.</summary>
public static class FrogNumbers
{
    /// <summary>Every usual number, ascending.</summary>
    public static ImmutableArray<double> All { get; } = [.. ReferenceTable.Read("frog-numbers.csv").Select(row => row.Number("number"))];

    /// <summary>The angle between the legs of a turnout of that number, in radians: 2 arctan(1/(2N)), as it is measured along the middle of the frog.</summary>
    public static double Angle(double number) => 2 * Math.Atan(1 / (2 * number));

    /// <summary>The usual number whose angle is nearest to an angle in radians.</summary>
    public static double Nearest(double angle) => All.MinBy(number => Math.Abs(Angle(number) - angle));
}
