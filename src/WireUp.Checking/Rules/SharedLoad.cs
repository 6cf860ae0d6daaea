using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>What several districts draw together.</summary>
internal static class SharedLoad
{
    /// <summary>
    /// Their part of the railway's design load by length of track, and never less than the heaviest train, which may be in any of them.
    /// The same rule as for one district (<see cref="DesignLoad.ForDistrict"/>): the sum over districts would count that train in each.
    /// </summary>
    internal static ElectricCurrent Of(CheckContext context, IEnumerable<string> districts)
    {
        HashSet<string> names = [.. districts];
        if (context.Power.DesignLoad is not { } load || names.Count == 0)
        {
            return ElectricCurrent.Zero;
        }

        double all = context.Power.Sections.Sum(section => LengthOf(context, section));
        double own = context.Power.Sections.Where(section => names.Contains(section.District)).Sum(section => LengthOf(context, section));
        return own > 0 ? load.ForDistrict(own / all) : ElectricCurrent.Zero;
    }

    private static double LengthOf(CheckContext context, SectionPower section) =>
        ((Piece.Section)context.Index.Piece(section.Section)).Length.Meters;
}
