using System.Collections.Immutable;
using WireUp.Layouts;
using WireUp.Layouts.Reference;

namespace WireUp.Circuits.Signals;

/// <summary>The way along a bus from its booster to one of its points.</summary>
/// <param name="Point">The point.</param>
/// <param name="Metres">Length of the pair, metres.</param>
/// <param name="Ohms">Resistance of both wires and their connectors, Ω.</param>
/// <param name="Henries">Inductance of the loop to slow changes, henry.</param>
/// <param name="FastHenries">Inductance of the loop to fast ones, henry.</param>
/// <param name="Farads">Capacitance between the wires, farad.</param>
/// <param name="IsEnd">Whether the bus ends there.</param>
/// <param name="Runs">The runs passed, from the booster on.</param>
internal sealed record BusWay(
    string Point, double Metres, double Ohms, double Henries, double FastHenries, double Farads, bool IsEnd, ImmutableArray<BusRun> Runs)
{
    /// <summary>Resistance of the wires at a frequency, connectors left out, Ω.</summary>
    internal double WireOhmsAt(double hertz, UnitsNet.Temperature temperature) => Runs.GroupBy(run => run.Wire).Sum(runs =>
        2 * Conductors.OhmsPerMetre(runs.Key, temperature) * runs.Sum(run => run.Length.Meters) * SkinEffect.OfCopper(runs.Key, hertz));
}

/// <summary>Finds the way of least resistance from a booster to every point of a district's bus; on a ring the other way round is left out.</summary>
internal static class BusWays
{
    /// <summary>Every point of the bus, the nearest by resistance first; the first is the booster.</summary>
    internal static ImmutableArray<BusWay> Of(Layout layout, District district)
    {
        List<(BusRun Run, UnitsNet.Length? Spacing)> runs =
            [.. layout.Wiring.Buses.Where(bus => bus.District == district.Name).SelectMany(bus => bus.Runs.Select(run => (run, bus.Spacing)))];
        ILookup<string, (BusRun Run, UnitsNet.Length? Spacing, string To)> leaving = runs
            .SelectMany(item => new[] { (item.Run.From, (item.Run, item.Spacing, item.Run.To)), (item.Run.To, (item.Run, item.Spacing, item.Run.From)) })
            .ToLookup(pair => pair.Item1, pair => pair.Item2);

        ImmutableArray<BusWay>.Builder found = ImmutableArray.CreateBuilder<BusWay>();
        HashSet<string> seen = [];
        PriorityQueue<BusWay, (double Ohms, int Order)> open = new();
        open.Enqueue(new(district.Booster, 0, 0, 0, 0, 0, false, []), (0, 0));
        int order = 0;
        while (open.TryDequeue(out BusWay? way, out _))
        {
            if (seen.Add(way.Point))
            {
                found.Add(way with { IsEnd = way.Runs.Length > 0 && leaving[way.Point].Count() == 1 });
                foreach ((BusRun run, UnitsNet.Length? spacing, string to) in leaving[way.Point].Where(next => !seen.Contains(next.To)))
                {
                    BusWay next = Along(way, run, spacing, to, layout.Defaults);
                    open.Enqueue(next, (next.Ohms, ++order));
                }
            }
        }

        return found.Any(way => way.IsEnd) || found.Count < 2 ? found.ToImmutable() : WithFarthestAsEnd(found);
    }

    private static BusWay Along(BusWay way, BusRun run, UnitsNet.Length? spacing, string to, LayoutDefaults defaults)
    {
        WirePair pair = WirePair.Of(run.Wire, spacing);
        double metres = run.Length.Meters;
        return new(
            to,
            way.Metres + metres,
            way.Ohms + (2 * ((Conductors.OhmsPerMetre(run.Wire, defaults.Temperature) * metres) + (run.Connectors * defaults.Connector.Ohms))),
            way.Henries + (pair.HenriesPerMetre * metres),
            way.FastHenries + (pair.FastHenriesPerMetre * metres),
            way.Farads + (pair.FaradsPerMetre * metres),
            false,
            way.Runs.Add(run));
    }

    /// <summary>A bus that is nothing but a ring has no end: the point farthest from the booster stands for one.</summary>
    private static ImmutableArray<BusWay> WithFarthestAsEnd(ImmutableArray<BusWay>.Builder found)
    {
        BusWay farthest = found.MaxBy(way => way.Henries)!;
        return [.. found.Select(way => way with { IsEnd = way == farthest })];
    }
}
