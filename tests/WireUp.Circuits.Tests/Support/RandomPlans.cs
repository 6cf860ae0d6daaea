using UnitsNet;
using WireUp.Circuits.Network;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Support;

/// <summary>
/// Small layouts drawn from a seed: sections and turnouts joined at random, gaps, one or two boosters, up to three districts,
/// feeders anywhere and now and then the wrong way round. Most are no sensible railway; all are circuits.
/// </summary>
internal static class RandomPlans
{
    /// <summary>
    /// Seeds of sixty layouts in which each length of track belongs to one district and no rail is shorted to the other: only
    /// there does the share of the design load not depend on where a section happens to be divided.
    /// </summary>
    internal static TheoryData<int> PlainSeeds { get; } = [.. Enumerable.Range(1001, 1000).Where(IsPlain).Take(60)];

    internal static (Layout Layout, PowerOptions Options) Make(int seed)
    {
        Random random = new(seed);
        PlanBuilder plan = new();
        (string Name, double Metres)[] sections = [.. Enumerable.Range(0, random.Next(3, 11)).Select(i => ($"s{i}", Metres(random)))];
        string[] turnouts = [.. Enumerable.Range(0, random.Next(0, 4)).Select(i => $"T{i}")];
        AddTrack(plan, random, sections, turnouts);
        List<(string District, string Tap)> taps = AddWires(plan, random);
        for (int i = 0; i < random.Next(2, 8); i++)
        {
            (string name, double metres) = sections[random.Next(sections.Length)];
            (string district, string tap) = taps[random.Next(taps.Count)];
            plan.Feeder($"f{i}", name, Along(random, metres), district, tap, 0.1 + random.NextDouble(), swap: random.Next(12) == 0);
        }

        PowerOptions options = new()
        {
            Loads = [.. Enumerable.Range(0, random.Next(1, 4)).Select(_ => Load(random, sections[random.Next(sections.Length)]))],
            Probes = [.. sections.Select(section => new TrackPlace(new(section.Name), Along(random, section.Metres)))],
        };
        return (plan.Build(), options);
    }

    /// <summary>The same with loads of every kind, up to six of them; some take more than can be had.</summary>
    internal static (Layout Layout, PowerOptions Options) MakeWithDemands(int seed)
    {
        (Layout layout, PowerOptions options) = Make(seed);
        Random random = new(seed + 7_000);
        LoadDemand Demand() => random.Next(3) switch
        {
            0 => new LoadDemand.Current(ElectricCurrent.FromAmperes(random.NextDouble())),
            1 => new LoadDemand.Power(Power.FromWatts(20 * random.NextDouble())),
            _ => new LoadDemand.Resistance(ElectricResistance.FromOhms(5 + (50 * random.NextDouble()))),
        };
        return (layout, options with { Loads = [.. options.Probes.Take(6).Select(place => new PlacedLoad(place, Demand()))] });
    }

    private static bool IsPlain(int seed)
    {
        Layout layout = Make(seed).Layout;
        NodalModel model = NodalModel.Of(CircuitBuilder.Build(RailGraph.Build(layout), PowerOptions.Default.Turnouts));
        TrackSurvey survey = new(model, model.Potentials([]));
        return !survey.Paths.HasRing && survey.Live.Count > 2;
    }

    private static void AddTrack(PlanBuilder plan, Random random, (string Name, double Metres)[] sections, string[] turnouts)
    {
        foreach ((string name, double metres) in sections)
        {
            plan.Section(name, metres, 0.02 + (0.2 * random.NextDouble()));
            if (random.Next(5) == 0)
            {
                plan.Cut(name, Along(random, metres), (RailSet)random.Next(1, 4));
            }
        }

        foreach (string name in turnouts)
        {
            plan.Turnout(name, (FrogKind)random.Next(3), random.Next(2) * 0.2, (TurnoutHand)random.Next(3));
        }

        List<string> ends = [.. sections.SelectMany(section => new[] { $"{section.Name}.a", $"{section.Name}.b" })];
        foreach (string name in turnouts)
        {
            Piece.Turnout turnout = (Piece.Turnout)plan.Piece(name);
            ends.AddRange(turnout.Ends.Select(end => end.ToString()));
        }

        while (ends.Count > 2)
        {
            (string first, string second) = (Draw(random, ends), Draw(random, ends));
            if (random.Next(5) > 0)
            {
                double? ohms = random.Next(4) == 0 ? 0 : 0.002 * Math.Pow(50, random.NextDouble());
                plan.Join(first, second, random.Next(6) == 0 ? (RailSet)random.Next(1, 4) : RailSet.None, ohms);
            }
        }
    }

    private static List<(string District, string Tap)> AddWires(PlanBuilder plan, Random random)
    {
        List<(string District, string Tap)> taps = [];
        int boosters = random.Next(1, 3);
        for (int b = 0; b < boosters; b++)
        {
            plan.Booster($"b{b}", 12 + (4 * random.NextDouble()), 0.02 + (0.2 * random.NextDouble()));
        }

        for (int d = 0; d < random.Next(1, 4); d++)
        {
            (string district, string booster) = ($"d{d}", $"b{random.Next(boosters)}");
            plan.District(district, booster, random.Next(3) == 0 ? 0 : 0.1 * random.NextDouble());
            taps.Add((district, booster));
            for (int p = 0; p < random.Next(1, 5); p++)
            {
                (_, string from) = taps.Where(tap => tap.District == district).ElementAt(random.Next(taps.Count(tap => tap.District == district)));
                plan.Run(district, from, $"P{p}", Metres(random), new Wire.Awg(random.Next(10, 19)));
                taps.Add((district, $"P{p}"));
            }
        }

        return taps;
    }

    private static PlacedLoad Load(Random random, (string Name, double Metres) section) =>
        new(new(new(section.Name), Along(random, section.Metres)), ElectricCurrent.FromAmperes(0.1 + random.NextDouble()));

    private static double Metres(Random random) => Math.Round(0.2 + (3 * random.NextDouble()), 3);

    private static double Along(Random random, double metres) => random.Next(6) switch
    {
        0 => 0,
        1 => metres,
        _ => Math.Round(metres * (0.05 + (0.9 * random.NextDouble())), 3),
    };

    private static string Draw(Random random, List<string> ends)
    {
        int at = random.Next(ends.Count);
        string end = ends[at];
        ends.RemoveAt(at);
        return end;
    }
}
