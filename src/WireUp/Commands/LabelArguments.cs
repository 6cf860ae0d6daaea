using System.Globalization;
using UnitsNet;
using WireUp.Documents;
using WireUp.Files;

namespace WireUp.Commands;

/// <summary>Reads the size of labels.</summary>
internal static class LabelArguments
{
    /// <summary>What <c>--labels</c> asks for, or null where it is not given.</summary>
    /// <exception cref="InputRefused">It is no size, one that cannot be printed, or there is no folder to write to.</exception>
    public static LabelOptions? Read(string? typed, DirectoryInfo? folder, PaperSize paper)
    {
        if (typed is null)
        {
            return null;
        }

        if (folder is null)
        {
            throw new InputRefused("--labels writes sheets into the folder of --out: give that too");
        }

        double[] sides = [.. typed.Split('x').Select(side =>
            double.TryParse(side, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double millimetres) ? millimetres : double.NaN)];
        (Length least, Length most) = LabelOptions.Sides;
        return sides.Length == 2 && sides.All(side => side >= least.Millimeters && side <= most.Millimeters)
            ? new LabelOptions(Length.FromMillimeters(sides[0]), Length.FromMillimeters(sides[1])) { Paper = paper }
            : throw new InputRefused($"--labels '{typed}': give width and height in mm with an x between, each {least.Millimeters} to {most.Millimeters}, as 38.1x21.2");
    }
}
