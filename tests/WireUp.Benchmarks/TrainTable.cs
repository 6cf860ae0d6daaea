using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Circuits.Places;
using WireUp.Circuits.Trains;
using WireUp.Rails;

namespace WireUp.Benchmarks;

/// <summary>What the map of every place and the search for the worst places of six trains cost on generated layouts.</summary>
internal static class TrainTable
{
    internal static void Run()
    {
        Console.WriteLine("| pieces | map of every place | worst places of 6 trains | districts | at most over at least, largest | searches cut short |");
        Console.WriteLine("| ---: | ---: | ---: | ---: | ---: | ---: |");
        foreach (int pieces in (ReadOnlySpan<int>)[100, 1_000, 10_000])
        {
            RailGraph graph = RailGraph.Build(LayoutGenerator.Make(pieces));
            Stopwatch map = Stopwatch.StartNew();
            _ = PowerMap.Of(graph, PowerOptions.Default);
            map.Stop();
            Stopwatch search = Stopwatch.StartNew();
            WorstTrainsReport report = WorstTrains.Find(graph, PowerOptions.Default, Trains());
            search.Stop();
            double worst = report.Districts.Max(district => district.AtMost.Volts / district.AtLeast.Volts);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"| {graph.Layout.Track.Length:N0} | {map.Elapsed.TotalMilliseconds:N0} ms | {search.Elapsed.TotalSeconds:F2} s | {report.Districts.Length} | {worst:F2} | {report.Districts.Count(district => district.IsSearchCut)} |"));
        }
    }

    /// <summary>Three long trains and three short ones.</summary>
    private static ImmutableArray<TrainDemand> Trains() =>
    [
        .. Enumerable.Range(0, 6).Select(i => new TrainDemand(
            "train", ElectricCurrent.FromAmperes(i < 3 ? 0.8 : 0.4), 0, ElectricCurrent.Zero, Length.FromMeters(i < 3 ? 2 : 1))),
    ];
}
