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
        Random random = new(seed);
        double volts = 12 + (6 * random.NextDouble()), common = 0.1 + random.NextDouble();
        ChargingGroup[] groups =
        [
            .. Enumerable.Range(0, random.Next(1, 5)).Select(_ =>
                new ChargingGroup(random.Next(1, 9), 5 + (95 * random.NextDouble()), 1e-4 + (3e-3 * random.NextDouble()))),
        ];
        double longest = groups.Max(group => (group.Ohms + (common * group.Count)) * group.Farads);

        InrushCurrent ours = new(volts, common, groups);
        (double Seconds, double Value)[] theirs = NgspiceTransient.Follow(Netlist(volts, common, groups), "-i(vsource)", longest / 2000, 4 * longest);

        double largest = ours.AmpsAt(0);
        foreach (double part in (ReadOnlySpan<double>)[0.01, 0.03, 0.1, 0.3, 0.6, 1, 1.5, 2, 3, 3.9])
        {
            Assert.Equal(theirs.At(part * longest), ours.AmpsAt(part * longest), 2e-5 * largest);
        }
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
