using System.Collections.Immutable;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Signals;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Properties;

public sealed class ProtectionPropertyTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1001, 60)];

    public static TheoryData<int> FewSeeds => [.. Enumerable.Range(1, 20)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Whatever_the_layout_every_figure_is_a_number_and_no_time_is_below_zero(int seed)
    {
        (Layout layout, _) = RandomPlans.Make(seed);
        PowerReport power = PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);

        ProtectionReport report = Protection.Of(layout, power);

        Assert.Equal(power.Districts.Select(district => district.District), report.Districts.Select(district => district.District));
        foreach (DistrictProtection district in report.Districts)
        {
            Assert.True(district.MostFault >= district.LeastFault);
            Assert.All(district.Wires, wire => Assert.True(wire.Allowed.Seconds > 0 && wire.Clears.Seconds > 0));
            Assert.InRange(district.Restart!.Most, 0, 99);
            Assert.Equal(district.Restart.OpensAfter is null, district.Restart.Expected <= district.Restart.Most);
            Assert.All(district.Ends, Sensible);
        }

        static void Sensible(BusEnd end)
        {
            Assert.InRange(end.LoadTime.Seconds, 0, 1);
            Assert.InRange(end.Ring.Hertz, 1, 1e10);
            Assert.InRange(end.Peak.Volts, 1, 60);
            Assert.True(end.IsCalm || end.PeakTerminated < end.Peak);
            Assert.True(end.SignalResistance >= end.Resistance);
            Assert.InRange(end.Settles.Seconds, 0, 60e-6);
        }
    }

    /// <summary>More engines never help, and in what order they are named does not matter.</summary>
    [Theory]
    [MemberData(nameof(FewSeeds))]
    public void Whoever_cannot_restart_a_few_cannot_restart_more(int seed)
    {
        Random random = new(seed);
        Restart restart = new(Curve(random), 12 + (6 * random.NextDouble()), 0.05 + random.NextDouble()) { PulseAmps = 0.5, PulseSeconds = 0.05 };
        ImmutableArray<WakingLocomotive> fleet = [.. Enumerable.Range(0, 30).Select(_ => Engine(random))];

        bool[] opens = [.. Enumerable.Range(0, 31).Select(count => restart.OpensAfterSeconds(fleet[..count]) is not null)];

        Assert.Equal(opens.Order(), opens);
        Assert.Equal(opens.Count(open => !open) - 1, restart.Most(number => fleet[number], 30));
        WakingLocomotive[] shuffled = [.. fleet];
        random.Shuffle(shuffled);
        Assert.Equal(restart.OpensAfterSeconds(fleet) is null, restart.OpensAfterSeconds([.. shuffled]) is null);
    }

    [Theory]
    [MemberData(nameof(FewSeeds))]
    public void A_current_of_a_trip_curve_is_fast_enough_for_its_own_time(int seed)
    {
        Random random = new(seed);
        TripCurve curve = Curve(random);
        for (int i = 0; i < 50; i++)
        {
            double amps = curve.LeastAmps * (1 + (20 * random.NextDouble())), within = curve.AmpsWithin(curve.SecondsAt(amps));
            Assert.InRange(within, 0, amps * (1 + 1e-9));
            Assert.True(curve.SecondsAt(within * (1 + 1e-9)) <= curve.SecondsAt(amps) * (1 + 1e-6));
        }
    }

    /// <summary>The course of the current is the same whether equal engines are one group or many.</summary>
    [Theory]
    [MemberData(nameof(FewSeeds))]
    public void Equal_capacitors_may_be_counted_together_or_each_alone(int seed)
    {
        Random random = new(seed);
        ChargingGroup[] groups = [.. Enumerable.Range(0, 3).Select(_ => new ChargingGroup(random.Next(1, 6), 5 + (50 * random.NextDouble()), 1e-3 * random.NextDouble()))];
        InrushCurrent together = new(15, 0.4, groups);
        InrushCurrent alone = new(15, 0.4, groups.SelectMany(group => Enumerable.Repeat(group with { Count = 1 }, group.Count)));

        foreach (double seconds in (ReadOnlySpan<double>)[0, 0.001, 0.01, 0.03, 0.1])
        {
            Assert.Equal(together.AmpsAt(seconds), alone.AmpsAt(seconds), 1e-9);
            Assert.True(together.AmpsAt(seconds) > together.AmpsAt(seconds + 0.001));
        }
    }

    private static TripCurve Curve(Random random)
    {
        double amps = 1 + (4 * random.NextDouble()), seconds = 0.01 + random.NextDouble();
        return random.Next(2) == 0
            ? TripCurve.Flat(amps, seconds)
            : new((amps, seconds), (amps * 2, seconds / 3), (amps * 5, seconds / 20));
    }

    private static WakingLocomotive Engine(Random random) => new(
        0.1 * random.NextDouble(),
        random.Next(3) == 0 ? null : new ChargingGroup(1, 10 + (90 * random.NextDouble()), 1e-4 + (5e-3 * random.NextDouble())));
}
