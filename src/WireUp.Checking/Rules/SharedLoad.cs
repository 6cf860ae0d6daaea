using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;

namespace WireUp.Checking.Rules;

/// <summary>What several districts draw together.</summary>
internal static class SharedLoad
{
    /// <summary>
    /// Their part of the railway's design load by length of track, and never less than the heaviest train, which may be in any of them.
    /// The same rule as for one district (<see cref="DesignLoad.ForDistrict(double, DistrictUse)"/>): the sum over districts would count that train in each.
    /// </summary>
    internal static ElectricCurrent Of(CheckContext context, IEnumerable<string> districts)
    {
        HashSet<string> names = [.. districts];
        if (context.Power.DesignLoad is not { } load || names.Count == 0)
        {
            return ElectricCurrent.Zero;
        }

        int programming = names.RemoveWhere(name => context.Wiring.Districts.Any(district => district.Name == name && district.Use == DistrictUse.Programming));
        if (names.Count == 0)
        {
            return programming * load.Standing;
        }

        double all = context.MetresOfDistricts.Values.Sum();
        double own = names.Sum(name => context.MetresOfDistricts.GetValueOrDefault(name));
        return own > 0 ? load.ForDistrict(own / all) : ElectricCurrent.Zero;
    }
}
