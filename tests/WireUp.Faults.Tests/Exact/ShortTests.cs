using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

public sealed class ShortTests
{
    [Fact]
    public void A_breaker_that_trips_speaks_for_conductors_that_touch()
    {
        Diagnosis diagnosis = Rank(Chain.Of(5), new MeterReading.Breaker("d0", true));
        double touching = diagnosis.Faults.Where(fault => fault.Parts[0].State == FaultState.Short).Sum(fault => fault.Probability);
        Assert.InRange(touching / diagnosis.Faults.Sum(fault => fault.Probability), 0.9, 1);
    }

    [Fact]
    public void A_breaker_that_holds_speaks_against_them()
    {
        Diagnosis diagnosis = Rank(Chain.Of(5), new MeterReading.Breaker("d0", false));
        double touching = diagnosis.Faults.Where(fault => fault.Parts[0].State == FaultState.Short).Sum(fault => fault.Probability);
        Assert.True(touching < 0.01, $"{touching}");
    }

    [Fact]
    public void Volts_of_a_limited_supply_fall_towards_the_short_and_are_flat_beyond()
    {
        // 1 A: 0.05 ohm where they touch, 0.1 V a metre of both rails, 20 mV a joint.
        Diagnosis diagnosis = Rank(Chain.Of(5), new MeterReading.Breaker("d0", true), Limited("s0", 0.29), Limited("s1", 0.17), Limited("s2", 0.05), Limited("s4", 0.05));
        Assert.Equal(("rails of s2", FaultState.Short), (diagnosis.Faults[0].Parts[0].Element.Place, diagnosis.Faults[0].Parts[0].State));
        Assert.True(diagnosis.Faults[0].Probability > 0.8, $"{diagnosis.Faults[0].Probability}");
        Assert.Equal([0.29, 0.17, 0.05, 0.05], diagnosis.Faults[0].Predicted.Skip(1).Select(volts => Math.Round(volts, 2)));
        Assert.Null(diagnosis.Contradiction);
    }

    [Fact]
    public void A_dead_siding_behind_gaps_that_runs_has_a_bridged_gap()
    {
        Layout layout = new PlanBuilder().Booster("b0").District("d0", "b0").Run("d0", "b0", "P1", 1)
            .Section("s0", 1).Section("s1", 1).Join("s0.b", "s1.a", RailSet.Left).Feeder("f0", "s0", 0.5, "d0", "P1").Build();
        Assert.Equal(FaultState.Bridged, Rank(layout, Chain.Volts("s1", 14.5)).Faults[0].Parts[0].State);
    }

    [Fact]
    public void A_swapped_feeder_is_told_by_what_its_breaker_does()
    {
        // Two feeders on one length of track: exchanged, the second one shorts the first.
        Layout layout = new PlanBuilder().Booster("b0").District("d0", "b0").Run("d0", "b0", "P1", 1).Section("s0", 2)
            .Feeder("f0", "s0", 0.5, "d0", "P1").Feeder("f1", "s0", 1.5, "d0", "P1").Build();
        double before = Swapped(Rank(layout)), after = Swapped(Rank(layout, new MeterReading.Breaker("d0", true)));
        Assert.True(after > 30 * before, $"{before} {after}");
    }

    private static double Swapped(Diagnosis diagnosis) => diagnosis.Faults.Where(fault => fault.Parts[0].State == FaultState.Swapped).Sum(fault => fault.Probability);

    private static MeterReading Limited(string section, double volts) => new MeterReading.Volts(Chain.Middle(section), ElectricPotential.FromVolts(volts))
    {
        Supply = new("b0", ElectricPotential.FromVolts(12), ElectricCurrent.FromAmperes(1)),
    };

    private static Diagnosis Rank(Layout layout, params MeterReading[] readings) =>
        FaultSearch.Rank(layout, Chain.Readings(readings), null, new() { MostNext = 5, Most = 60 }, TestContext.Current.CancellationToken)!;
}
