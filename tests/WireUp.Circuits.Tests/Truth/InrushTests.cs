using System.Globalization;
using WireUp.Circuits.Devices;
using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Truth;

public sealed class InrushTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 12)];

    /// <summary>One to four kinds of capacitor behind one loop resistance, each kind one to eight times, against the circuit simulator.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Charging_current_of_random_locomotives_is_the_simulators(int seed)
    {
        (double volts, double common, ChargingGroup[] groups, double longest) = Fleet(seed);

        InrushCurrent ours = new(volts, common, groups);
        (double Seconds, double Value)[] theirs = NgspiceTransient.Follow(Netlist(volts, common, groups), "-i(vsource)", longest / 2000, 4 * longest);

        double largest = ours.AmpsAt(0);
        foreach (double part in (ReadOnlySpan<double>)[0.01, 0.03, 0.1, 0.3, 0.6, 1, 1.5, 2, 3, 3.9])
        {
            Assert.Equal(theirs.At(part * longest), ours.AmpsAt(part * longest), 2e-5 * largest);
        }
    }

    /// <summary>How long the simulator's current stays above a trip current decides: a breaker a little faster opens, one a little slower does not.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void A_breaker_opens_again_just_when_the_simulators_current_stays_above_its_trip_for_its_delay(int seed)
    {
        (double volts, double common, ChargingGroup[] groups, double longest) = Fleet(seed);
        (double Seconds, double Value)[] theirs = NgspiceTransient.Follow(Netlist(volts, common, groups), "-i(vsource)", longest / 2000, 4 * longest);
        double trip = theirs.At(0.2 * longest), above = theirs.Last(point => point.Value >= trip).Seconds;
        WakingLocomotive[] engines = [.. groups.SelectMany(group => Enumerable.Repeat(new WakingLocomotive(0, group with { Count = 1 }), group.Count))];

        Assert.NotNull(OpensAfter(0.98 * above));
        Assert.Null(OpensAfter(1.02 * above));

        double? OpensAfter(double delay) =>
            new Restart(TripCurve.Flat(trip, delay), volts, common) { PulseAmps = 0, PulseSeconds = 0 }.OpensAfterSeconds([.. engines]);
    }

    private static (double Volts, double CommonOhms, ChargingGroup[] Groups, double LongestSeconds) Fleet(int seed)
    {
        Random random = new(seed);
        double volts = 12 + (6 * random.NextDouble()), common = 0.1 + random.NextDouble();
        ChargingGroup[] groups =
        [
            .. Enumerable.Range(0, random.Next(1, 5)).Select(_ =>
                new ChargingGroup(random.Next(1, 9), 5 + (95 * random.NextDouble()), 1e-4 + (3e-3 * random.NextDouble()))),
        ];
        return (volts, common, groups, groups.Max(group => (group.Ohms + (common * group.Count)) * group.Farads));
    }

    private static IEnumerable<string> Netlist(double volts, double common, ChargingGroup[] groups)
    {
        yield return Text($"Vsource source 0 DC {volts:R}");
        yield return Text($"Rcommon source rails {common:R}");
        int number = 0;
        foreach (ChargingGroup group in groups)
        {
            for (int i = 0; i < group.Count; i++)
            {
                number++;
                yield return Text($"R{number} rails c{number} {group.Ohms:R}");
                yield return Text($"C{number} c{number} 0 {group.Farads:R} IC=0");
            }
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
