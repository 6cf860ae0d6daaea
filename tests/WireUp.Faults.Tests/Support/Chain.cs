using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Support;

/// <summary>A siding of sections in a row, fed at its first one only: 15 V, a load of 0.5 A is 30 ohm.</summary>
internal static class Chain
{
    internal static Layout Of(int sections, string prefix = "s")
    {
        PlanBuilder plan = new PlanBuilder().Booster("b0").District("d0", "b0").Run("d0", "b0", "P1", 1);
        for (int i = 0; i < sections; i++)
        {
            plan.Section($"{prefix}{i}", 1);
        }

        for (int i = 1; i < sections; i++)
        {
            plan.Join($"{prefix}{i - 1}.b", $"{prefix}{i}.a");
        }

        return plan.Feeder("f0", $"{prefix}0", 0.5, "d0", "P1").Build();
    }

    internal static ReadingPlace Middle(string section) => new ReadingPlace.Along(new(new(section), 0.5));

    /// <summary>Volts across the rails in the middle of a section with a load there.</summary>
    internal static MeterReading Volts(string section, double volts, bool loaded = true) =>
        new MeterReading.Volts(Middle(section), ElectricPotential.FromVolts(volts))
        {
            Load = loaded ? new(Middle(section), ElectricCurrent.FromAmperes(0.5)) : null,
        };

    internal static ReadingSet Readings(params MeterReading[] readings) => ReadingSet.None with { Readings = [.. readings] };
}
