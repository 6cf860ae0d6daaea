using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Buses;
using WireUp.Planning.Devices;

namespace WireUp.Planning;

/// <summary>Puts new feeders and bus into the wiring of a layout. What is there keeps its order and comes first.</summary>
internal static class PlanAssembly
{
    private const double StepMetres = 0.01;

    /// <summary>The layout with every new feeder and run of bus.</summary>
    /// <param name="draft">A draft with feeders and buses.</param>
    /// <param name="options">Length of feeders.</param>
    /// <param name="system">Sizes of feeder wire.</param>
    /// <param name="wireOf">The wire of a new run of bus, by district and number.</param>
    public static Layout Of(PlanDraft draft, PlanOptions options, WireSystem system, Func<string, int, Wire> wireOf)
    {
        Wiring wiring = draft.Layout.Wiring;
        Dictionary<(string District, int Number), string> names = PointNames(wiring, draft.Buses);
        return draft.Layout with
        {
            Wiring = wiring with
            {
                Buses = Buses(wiring, draft.Buses, names, wireOf),
                Feeders = [.. wiring.Feeders, .. Feeders(draft, names, options, system)],
            },
        };
    }

    /// <summary>Names of the new bus points: P1, P2, … in the order of the districts, leaving out names that are taken.</summary>
    private static Dictionary<(string District, int Number), string> PointNames(Wiring wiring, ImmutableArray<PlannedBus> buses)
    {
        HashSet<string> taken =
        [
            .. wiring.Boosters.Select(booster => booster.Name),
            .. wiring.Buses.SelectMany(bus => bus.Runs).SelectMany(run => new[] { run.From, run.To }),
            .. wiring.Feeders.Select(feeder => feeder.Tap),
        ];
        return buses
            .SelectMany(bus => bus.Runs.Select(run => (bus.District, run.To.Number)))
            .Zip(Free("P", taken))
            .ToDictionary(pair => pair.First, pair => pair.Second);
    }

    /// <summary>The new feeders, numbered in the order of the districts and, within one, of the track.</summary>
    private static IEnumerable<Feeder> Feeders(
        PlanDraft draft, Dictionary<(string District, int Number), string> names, PlanOptions options, WireSystem system)
    {
        Dictionary<string, District> districts = draft.Layout.Wiring.Districts.ToDictionary(district => district.Name);
        IEnumerable<(PlannedBus Bus, TrackPlace At)> sites = draft.Buses.SelectMany(bus => bus.Task.Feeders.Where(bus.Taps.ContainsKey).Select(at => (bus, at)));
        foreach (((PlannedBus bus, TrackPlace at), string name) in sites.Zip(Free("f", [.. draft.Layout.Wiring.Feeders.Select(feeder => feeder.Name)])))
        {
            (BusPoint tap, double away) = bus.Taps[at];
            double metres = options.FeederLength.Meters + (Math.Ceiling((away / StepMetres) - 1e-6) * StepMetres);
            yield return new(
                name,
                at,
                bus.District,
                tap.Name ?? names[(bus.District, tap.Number)],
                GaugeChooser.FeederWire(system, districts[bus.District].Trip.Amperes),
                Length.FromMeters(Math.Round(metres, 3)))
            {
                Swap = draft.Reversing!.SwapAt(at),
            };
        }
    }

    private static ImmutableArray<Bus> Buses(
        Wiring wiring, ImmutableArray<PlannedBus> planned, Dictionary<(string District, int Number), string> names, Func<string, int, Wire> wireOf)
    {
        Dictionary<string, ImmutableArray<BusRun>> added = planned
            .Where(bus => !bus.Runs.IsEmpty)
            .ToDictionary(bus => bus.District, bus => bus.Runs
                .Select((run, i) => new BusRun(Name(bus, run.From), Name(bus, run.To), Length.FromMeters(run.Metres), wireOf(bus.District, i)))
                .ToImmutableArray());
        HashSet<string> known = [.. wiring.Buses.Select(bus => bus.District)];
        return
        [
            .. wiring.Buses.Select(bus => added.TryGetValue(bus.District, out ImmutableArray<BusRun> runs) ? bus with { Runs = [.. bus.Runs, .. runs] } : bus),
            .. planned.Where(bus => !known.Contains(bus.District) && added.ContainsKey(bus.District)).Select(bus => new Bus(bus.District, added[bus.District])),
        ];

        string Name(PlannedBus bus, BusPoint point) => point.Name ?? names[(bus.District, point.Number)];
    }

    private static IEnumerable<string> Free(string letter, HashSet<string> taken) => Enumerable.Range(1, int.MaxValue - 1)
        .Select(number => string.Create(CultureInfo.InvariantCulture, $"{letter}{number}"))
        .Where(name => !taken.Contains(name));
}
