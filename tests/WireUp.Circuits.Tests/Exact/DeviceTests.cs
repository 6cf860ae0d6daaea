using System.Collections.Immutable;
using WireUp.Circuits.Devices;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

public sealed class DeviceTests
{
    private static readonly TripCurve Curve = new((2, 10), (4, 1), (40, 0.01));

    [Theory]
    [InlineData(1.99, double.PositiveInfinity)]
    [InlineData(2, 10)]
    [InlineData(2.8284271247461903, 3.1622776601683795)]
    [InlineData(4, 1)]
    [InlineData(12.649110640673518, 0.1)]
    [InlineData(40, 0.01)]
    [InlineData(400, 0.01)]
    public void A_trip_curve_is_straight_where_both_axes_are_logarithmic(double amps, double seconds) =>
        Assert.Equal(seconds, Curve.SecondsAt(amps), 1e-12);

    [Theory]
    [InlineData(20, 2)]
    [InlineData(10, 2)]
    [InlineData(0.1, 12.649110640673518)]
    [InlineData(0.01, 40)]
    [InlineData(0.009, double.PositiveInfinity)]
    public void It_says_from_which_current_it_is_fast_enough(double seconds, double amps) => Assert.Equal(amps, Curve.AmpsWithin(seconds), 1e-9);

    [Fact]
    public void Curves_that_rise_or_go_back_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new TripCurve());
        Assert.Throws<ArgumentException>(() => new TripCurve((2, 1), (2, 0.5)));
        Assert.Throws<ArgumentException>(() => new TripCurve((2, 1), (3, 1.5)));
        Assert.Throws<ArgumentException>(() => new TripCurve((0, 1)));
    }

    [Theory]
    [InlineData(10, 5.54)]
    [InlineData(5, 22.17)]
    public void Twenty_four_gauge_takes_seconds_to_its_limit(double amps, double seconds) =>
        Assert.Equal(seconds, ShortTimeHeat.LimitSeconds(new Wire.Awg(24), amps), 0.01);

    [Fact]
    public void The_worst_current_for_a_wire_is_a_bend_or_the_largest()
    {
        // Of the bends within five seconds 4 A for 1 s is 16 A²s; 40 A for 10 ms is the same; 60 A for 10 ms is 36.
        Assert.Equal((60, 36), ShortTimeHeat.Worst(Curve, 60));
        (double amps, double heat) = ShortTimeHeat.Worst(Curve, 3);
        Assert.Equal(5, Curve.SecondsAt(amps), 1e-9);
        Assert.Equal(amps * amps * 5, heat, 1e-9);
        Assert.Equal((0, 0), ShortTimeHeat.Worst(Curve, 1.5));
    }

    [Fact]
    public void A_breaker_of_100_ms_is_in_time_for_a_booster_of_300_but_not_of_150()
    {
        TripCurve breaker = TripCurve.Flat(3, 0.1);

        Assert.Null(Coordination.Trouble(breaker, TripCurve.Flat(5, 0.3), 0, 0.5, 4, 40));
        Assert.Equal((5, 40), Coordination.Trouble(breaker, TripCurve.Flat(5, 0.15), 0, 0.5, 4, 40));
        Assert.Equal((4, 40), Coordination.Trouble(breaker, TripCurve.Flat(5, 0.15), 2, 0.5, 4, 40));
        Assert.Null(Coordination.Trouble(breaker, TripCurve.Flat(5, 0.15), 0, 0.5, 1, 4.9));
    }

    /// <summary>The curve falls to 50 ms at 4·10^0.65 = 17.89 A: only below is it late for a booster of 100 ms.</summary>
    [Fact]
    public void Trouble_ends_where_a_falling_curve_is_fast_enough()
    {
        (double from, double to) = Coordination.Trouble(Curve, TripCurve.Flat(5, 0.1), 0, 0.5, 3, 40)!.Value;

        Assert.Equal(5, from);
        Assert.Equal(4 * Math.Pow(10, Math.Log10(20) / 2), to, 1e-6);
    }

    [Fact]
    public void One_capacitor_charges_by_the_textbook_formula_and_several_share_the_loop()
    {
        InrushCurrent one = new(15, 0.5, new ChargingGroup(1, 29.5, 1e-3));
        Assert.Equal(0.5, one.AmpsAt(0), 1e-9);
        Assert.Equal(0.5 * Math.Exp(-1), one.AmpsAt(0.03), 1e-9);

        InrushCurrent four = new(15, 0.5, new ChargingGroup(4, 28, 1e-3));
        Assert.Equal(2, four.AmpsAt(0), 1e-9);
        Assert.Equal(2 * Math.Exp(-1), four.AmpsAt(0.03), 1e-9);
    }

    [Fact]
    public void Shares_add_up_to_the_current_of_the_resistors_alone_and_to_the_charge()
    {
        ChargingGroup[] groups = [new(3, 22, 470e-6), new(2, 100, 2.2e-3), new(5, 33, 1e-3), new(1, 33, 1e-3)];
        InrushCurrent current = new(16, 0.7, groups);

        double siemens = groups.Sum(group => group.Count / group.Ohms);
        Assert.Equal(16 * siemens / (1 + (0.7 * siemens)), current.AmpsAt(0), 1e-8);

        // The charge that has gone through: V·ΣC. By Simpson's rule over twenty of the longest time constants.
        double end = 20 * 0.3, step = end / 200_000;
        double charge = Enumerable.Range(0, 100_000).Sum(i =>
            step / 3 * (current.AmpsAt(2 * i * step) + (4 * current.AmpsAt(((2 * i) + 1) * step)) + current.AmpsAt(((2 * i) + 2) * step)));
        Assert.Equal(16 * groups.Sum(group => group.Count * group.Farads), charge, 1e-6);
    }

    /// <summary>The trade's rule: at 0.5 A each for 50 ms a fast breaker of 5 A restarts ten at most, one of 3 A six.</summary>
    [Theory]
    [InlineData(5, 0.02, 9)]
    [InlineData(3, 0.02, 5)]
    [InlineData(5, 0.05, 100)]
    public void A_breaker_restarts_as_many_as_its_trip_current_allows_unless_it_waits(double trip, double delay, int most)
    {
        Restart restart = new(TripCurve.Flat(trip, delay), 15, 0.3) { PulseAmps = 0.5, PulseSeconds = 0.05 };

        Assert.Equal(most, restart.Most(_ => new WakingLocomotive(0, null), 100));
    }

    /// <summary>n·V/R·e^(−t/RC) with R₀ = 0 falls to the trip current just at the delay: one locomotive more and it opens.</summary>
    [Fact]
    public void Stay_alive_capacitors_are_counted_at_the_time_the_breaker_acts()
    {
        const double Ohms = 33, Farads = 3e-3, Delay = 0.1;
        Restart restart = new(TripCurve.Flat(3, Delay), 15, 0) { PulseAmps = 0, PulseSeconds = 0 };
        double each = 15 / Ohms * Math.Exp(-Delay / (Ohms * Farads));

        Assert.Equal((int)(3 / each), restart.Most(_ => new WakingLocomotive(0, new ChargingGroup(1, Ohms, Farads)), 1000));
    }

    [Fact]
    public void A_falling_curve_opens_at_the_first_time_that_is_long_enough_for_the_current_by_then()
    {
        ImmutableArray<WakingLocomotive> fleet = [.. Enumerable.Repeat(new WakingLocomotive(0, new ChargingGroup(1, 30, 0.05)), 20)];
        Restart restart = new(Curve, 15, 0.1) { PulseAmps = 0, PulseSeconds = 0 };

        double opens = restart.OpensAfterSeconds(fleet)!.Value;

        InrushCurrent current = new(15, 0.1, new ChargingGroup(20, 30, 0.05));
        Assert.Equal(Curve.SecondsAt(current.AmpsAt(opens)), opens, 1e-6);
        Assert.True(Curve.SecondsAt(current.AmpsAt(opens * 0.99)) > opens * 0.99);
    }
}
