using System.Globalization;
using WireUp.Circuits.Signals;
using WireUp.Circuits.Tests.Support;

namespace WireUp.Circuits.Tests.Truth;

/// <summary>
/// A step into a bus, against the circuit simulator's solution of a ladder of many small coils, resistors and capacitors: another
/// model of the same wires, with the resistance all along them instead of at their ends.
/// </summary>
public sealed class LineTransientTests
{
    private const int Rungs = 60;

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Peak_frequency_and_settling_of_random_buses_are_the_simulators(int seed)
    {
        Line line = Random(new(seed));
        double seconds = line.EdgeSeconds + (30 / line.RingHertz);

        Transient ours = LineTransient.Follow(line, seconds);
        (double Seconds, double Value)[] theirs = NgspiceTransient.Follow(Ladder(line), "v(end)", line.DelaySeconds / 20, seconds);

        Assert.Equal(theirs.Max(point => point.Value), ours.Peak, 0.005);
        Assert.Equal(Frequency(theirs, ours.Final), ours.RingHertz, 0.005 * ours.RingHertz);
        Assert.Equal(Settled(theirs, ours.Final), ours.SettledSeconds, (0.03 * seconds) + (0.5 / line.RingHertz));
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Peaks_with_a_terminator_are_the_simulators(int seed)
    {
        Line line = Random(new(seed));
        line = line with { TerminatorOhms = line.Ohms * 1.1, TerminatorFarads = 3 / line.RingHertz / line.Ohms };
        double seconds = line.EdgeSeconds + (15 / line.RingHertz);

        (double Seconds, double Value)[] theirs = NgspiceTransient.Follow(Ladder(line), "v(end)", line.DelaySeconds / 20, seconds);

        Assert.Equal(theirs.Max(point => point.Value), LineTransient.Follow(line, seconds).Peak, 0.005);
    }

    /// <summary>Ten to fifty metres, 80 to 300 Ω, an edge of a fifth to two thirds of the ringing, and something at the end.</summary>
    private static Line Random(Random random)
    {
        double ohms = 80 + (220 * random.NextDouble()), delay = 4e-9 * (10 + (40 * random.NextDouble()));
        double wire = 0.2 + (2 * random.NextDouble());
        Line line = new(ohms, delay, wire + 0.1 + random.NextDouble(), wire, 0)
        {
            LoadFarads = delay / ohms * (0.5 + (4 * random.NextDouble())),
            LoadOhms = random.Next(2) == 0 ? double.PositiveInfinity : ohms * (3 + (20 * random.NextDouble())),
        };
        return line with { EdgeSeconds = (0.2 + (0.45 * random.NextDouble())) / line.RingHertz };
    }

    private static IEnumerable<string> Ladder(Line line)
    {
        double henries = line.Ohms * line.DelaySeconds / Rungs, farads = line.DelaySeconds / line.Ohms / Rungs, ohms = 2 * line.WireOhms / Rungs;
        yield return Text($"Vsource source 0 PWL(0 0 {line.EdgeSeconds:R} 1)");

        // Half of the wires' resistance belongs to the source in our line; here it lies along the wires.
        yield return Text($"Rsource source n0 {line.SourceOhms - line.WireOhms:R}");
        for (int i = 0; i < Rungs; i++)
        {
            string to = i == Rungs - 1 ? "end" : $"n{i + 1}";
            yield return Text($"R{i} n{i} m{i} {ohms:R}");
            yield return Text($"L{i} m{i} {to} {henries:R} IC=0");
            yield return Text($"C{i} {to} 0 {(i == Rungs - 1 ? farads / 2 : farads):R} IC=0");
        }

        yield return Text($"Cload end 0 {line.LoadFarads:R} IC=0");
        if (!double.IsInfinity(line.LoadOhms))
        {
            yield return Text($"Rload end 0 {line.LoadOhms:R}");
        }

        if (!double.IsInfinity(line.TerminatorOhms))
        {
            yield return Text($"Rend end rc {line.TerminatorOhms:R}");
            yield return Text($"Cend rc 0 {line.TerminatorFarads:R} IC=0");
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static double Frequency((double Seconds, double Value)[] course, double final)
    {
        List<double> crossings = [];
        for (int i = 1; i < course.Length; i++)
        {
            if ((course[i - 1].Value < final) != (course[i].Value < final))
            {
                crossings.Add(course[i].Seconds);
            }
        }

        int halves = Math.Min(8, crossings.Count - 1);
        return halves / (2 * (crossings[halves] - crossings[0]));
    }

    private static double Settled((double Seconds, double Value)[] course, double final) =>
        course.Where(point => Math.Abs(point.Value - final) > 0.05).Max(point => point.Seconds);
}
