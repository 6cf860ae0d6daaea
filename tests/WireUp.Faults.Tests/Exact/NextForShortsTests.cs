using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Faults.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Exact;

/// <summary>What is asked for when conductors may touch: a look at the breaker, then readings with a limited supply.</summary>
public sealed class NextForShortsTests
{
    private static readonly MeterReading Trips = new MeterReading.Breaker("d0", true);

    [Fact]
    public void A_dead_place_makes_one_look_whether_the_breaker_trips()
    {
        NextReading look = Assert.Single(Next(Dead()), next => next.Reading is MeterReading.Breaker);
        Assert.Equal(("look whether the breaker of d0 trips", 0.5, Reach.Above), (look.Words, look.Minutes, look.Reach));
        Assert.True(look.Bits > 0.05, $"{look.Bits}");
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Nobody_looks_twice(bool trips) => Assert.DoesNotContain(Next(Dead(), new MeterReading.Breaker("d0", trips)), next => next.Reading is MeterReading.Breaker);

    [Fact]
    public void With_a_limited_supply_on_hand_every_reading_of_volts_is_made_with_it_and_without_a_load()
    {
        ImmutableArray<NextReading> next = Next(ReadingTools.Volts | ReadingTools.Load | ReadingTools.Supply, Trips);
        LimitedSupply usual = new("b0", ElectricPotential.FromVolts(12), ElectricCurrent.FromAmperes(1));
        Assert.NotEmpty(next);
        Assert.All(next, item => Assert.Equal(usual, item.Reading.Supply));
        Assert.All(next, item => Assert.Null(LoadOf(item.Reading)));
        Assert.All(next, item => Assert.Contains("fed with 12 V up to 1 A at booster b0", item.Words, StringComparison.Ordinal));
    }

    [Fact]
    public void Without_one_nothing_is_asked_of_it() => Assert.All(Next(Trips), item => Assert.Null(item.Reading.Supply));

    [Fact]
    public void The_supply_that_was_used_is_used_again()
    {
        LimitedSupply own = new("b0", ElectricPotential.FromVolts(9), ElectricCurrent.FromAmperes(0.5));
        MeterReading read = new MeterReading.Volts(Chain.Middle("s0"), ElectricPotential.FromVolts(0.17)) { Supply = own };
        Assert.All(Next(ReadingTools.Volts | ReadingTools.Supply, Trips, read), item => Assert.Equal(own, item.Reading.Supply));
    }

    [Fact]
    public void Volts_along_a_run_of_bus_tell_on_which_side_of_it_the_short_is()
    {
        // 1 A through 2 m of 14 AWG, 8.3 mohm a metre: 17 mV if the bus is shorted behind it, nothing if before.
        Layout layout = new PlanBuilder().Booster("b0").District("d0", "b0").Run("d0", "b0", "P1", 2).Run("d0", "P1", "P2", 2)
            .Section("s0", 1).Feeder("f0", "s0", 0.5, "d0", "P2").Build();
        ImmutableArray<NextReading> next = Rank(layout, ReadingTools.Volts | ReadingTools.Supply, Trips).Next;
        MeterReading.VoltsAlong along = Assert.IsType<MeterReading.VoltsAlong>(next.First(item => item.Reading is MeterReading.VoltsAlong
        {
            From: ReadingPoint.OfBus { Point: "P1" }, To: ReadingPoint.OfBus { Point: "P2" },
        }).Reading);
        (double before, double behind) = (At("P1", along with { Shown = ElectricPotential.Zero }), At("P2", along with { Shown = ElectricPotential.FromMillivolts(17) }));
        Assert.True(before > 0.9 && behind > 0.9, $"{before} {behind}");

        double At(string point, MeterReading shown)
        {
            RankedFault[] onBus = [.. Rank(layout, ReadingTools.Volts, Trips, shown).Faults.Where(fault => fault.Parts[0].Element.Kind == FaultElementKind.BusPoint)];
            return onBus.Where(fault => fault.Parts[0].Element.BusPoint == point).Sum(fault => fault.Probability) / onBus.Sum(fault => fault.Probability);
        }
    }

    [Fact]
    public void Every_reading_that_is_suggested_can_be_typed_in()
    {
        Diagnosis diagnosis = Rank(SmallLayout.Layout, ReadingTools.Volts | ReadingTools.Supply, new MeterReading.Breaker("east", true));
        Assert.InRange(diagnosis.Next.Length, 10, 40);
        Assert.Contains(diagnosis.Next, next => next.Reading is MeterReading.VoltsAlong);
        Assert.All(diagnosis.Next, next => Assert.Equal(next.Reading.ToString(), LayoutWords.Sentence(SmallLayout.Layout, next.Reading.ToString()).Value?.ToString()));
    }

    [Fact]
    public void A_short_that_a_breaker_was_seen_to_hold_shows_as_a_short()
    {
        // Just below the trip, where nearly half of all breakers would trip.
        PlanBuilder plan = new PlanBuilder().Booster("b0").District("d0", "b0").Run("d0", "b0", "P1", 2).Section("s0", 1).Feeder("f0", "s0", 0.5, "d0", "P1");
        Layout layout = plan.Build();
        double amps = ShortAmps(layout);
        Layout justHolds = layout with
        {
            Wiring = layout.Wiring with { Districts = [.. layout.Wiring.Districts.Select(district => district with { Trip = ElectricCurrent.FromAmperes(amps * 1.02) })] },
        };
        Diagnosis diagnosis = Rank(
            justHolds, ReadingTools.Volts | ReadingTools.Load | ReadingTools.Supply, Dead("s0"), new MeterReading.Breaker("d0", false), Chain.Volts("s0", amps * 0.05));
        RankedFault found = diagnosis.Faults[0];
        Assert.Equal(("rails of s0", FaultState.Short), (found.Parts[0].Element.Place, found.Parts[0].State));
        Assert.Equal(amps * 0.05, found.Predicted[2], 0.02);
        Assert.NotEmpty(diagnosis.Next);
        Assert.All(diagnosis.Next, next => Assert.Equal("b0", next.Reading.Supply?.Booster));
    }

    /// <summary>What a coin of 0.05 ohm draws in the middle of the section.</summary>
    private static double ShortAmps(Layout layout)
    {
        Layout neverTrips = layout with
        {
            Wiring = layout.Wiring with { Districts = [.. layout.Wiring.Districts.Select(district => district with { Trip = ElectricCurrent.FromAmperes(1e6) })] },
        };
        Diagnosis diagnosis = Rank(neverTrips, ReadingTools.Volts, Chain.Volts("s0", 0.3, loaded: false));
        return diagnosis.Faults.First(fault => fault.Parts[0] is { State: FaultState.Short, Element.Kind: FaultElementKind.Section }).Predicted[0] / 0.05;
    }

    private static MeterReading Dead(string section = "s2") => new MeterReading.Running(Chain.Middle(section), RunningState.Dead);

    private static ReadingLoad? LoadOf(MeterReading reading) => reading switch
    {
        MeterReading.Volts volts => volts.Load,
        MeterReading.VoltsAlong volts => volts.Load,
        _ => null,
    };

    private static ImmutableArray<NextReading> Next(params MeterReading[] readings) => Next(ReadingTools.Volts | ReadingTools.Load, readings);

    private static ImmutableArray<NextReading> Next(ReadingTools tools, params MeterReading[] readings) => Rank(Chain.Of(5), tools, readings).Next;

    private static Diagnosis Rank(Layout layout, ReadingTools tools, params MeterReading[] readings) =>
        FaultSearch.Rank(layout, Chain.Readings(readings) with { Tools = tools }, null, new() { MostNext = 40, Most = 100 }, TestContext.Current.CancellationToken)!;
}
