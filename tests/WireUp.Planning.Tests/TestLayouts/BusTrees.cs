using System.Collections.Immutable;
using System.Globalization;
using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Devices;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>A line of track fed from the taps of a bus that is any tree, one tap a section.</summary>
internal sealed record BusTrees(BusRuns Runs, Layout Track)
{
    public const string District = "d1";

    /// <summary>A tree of bus by chance, the same for the same seed.</summary>
    /// <param name="seed">The seed.</param>
    /// <param name="runs">How many runs.</param>
    /// <param name="isParted">Whether gaps part the sections, so that nothing but the bus joins its taps.</param>
    /// <param name="follows">Whether a run is as long as the track between its ends, with a tenth more; else of any length.</param>
    public static BusTrees Make(int seed, int runs, bool isParted, bool follows)
    {
        Random chance = new(seed);
        double section = 1 + (3 * chance.NextDouble());
        TrackBuilder line = TrackBuilder.Line(runs, section);
        for (int i = 1; isParted && i < runs; i++)
        {
            line.GapAtJoint(Text($"s{i}.a"));
        }

        ImmutableArray<int> parents = [.. Enumerable.Range(0, runs).Select(run => run == 0 ? -1 : chance.Next(-1, run))];
        return new(new(District, parents, [.. parents.Select((parent, run) => Math.Round(follows ? 1.1 * section * (run - parent) : 2 + (10 * chance.NextDouble()), 2))]), line.Build() with
        {
            Stock = new()
            {
                Locomotives = [new("heavy", Amps(1.2), Amps(0.1), Amps(2), Amps(2), Length.FromMillimeters(60), 2)],
            },
        });
    }

    /// <summary>The layout with the wire of each run.</summary>
    public Layout With(Func<string, int, Wire> wireOf) => Track with
    {
        Wiring = Track.Wiring with
        {
            Boosters = [new("main", ElectricPotential.FromVolts(15), Amps(8), ElectricResistance.FromOhms(0.05))],
            Districts = [new(District, "main", Amps(5), ElectricResistance.FromOhms(0.05))],
            Buses = [new(District, [.. Runs.Parent.Select((parent, run) => new BusRun(
                parent < 0 ? "main" : Text($"P{parent}"), Text($"P{run}"), Length.FromMeters(Runs.Metres[run]), wireOf(District, run)))])],
            Feeders = [.. Runs.Parent.Select((_, run) => new Feeder(
                Text($"f{run}"), new(new(Text($"s{run}")), 0.25), District, Text($"P{run}"), new Wire.Metric(0.75), Length.FromMillimeters(250)))],
        },
    };

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
