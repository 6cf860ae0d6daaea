using System.Globalization;
using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Rings of two sections, the first fed by district "first", the other by "second", for sessions that can be worked out by hand.</summary>
internal static class Rings
{
    /// <summary>Trains never stop, and draw the same whatever they do.</summary>
    internal static OperatingModel NeverStopping { get; } = OperatingModel.Of("HO") with { Dwell = (0, 0), StartSeconds = 0, CellMetres = 2 };

    /// <summary>So many rings.</summary>
    internal static Layout Layout(int rings, double firstMetres, double secondMetres, Stock stock, string names = "ring")
    {
        PlanBuilder plan = new PlanBuilder().Runs(stock)
            .Booster("left").Booster("right").District("first", "left").District("second", "right")
            .Run("first", "left", "tap", 1).Run("second", "right", "tap", 1);
        for (int ring = 0; ring < rings; ring++)
        {
            string one = Name(names, ring, "a"), other = Name(names, ring, "b");
            plan.Section(one, firstMetres).Section(other, secondMetres)
                .Join($"{one}.b", $"{other}.a", RailSet.Both).Join($"{other}.b", $"{one}.a", RailSet.Both)
                .Feeder($"{one}-f", one, firstMetres / 2, "first", "tap").Feeder($"{other}-f", other, secondMetres / 2, "second", "tap");
        }

        return plan.Build();
    }

    /// <summary>Locomotives of these currents, in ampere.</summary>
    internal static Stock Engines(int count, double running, double stopped, double starting) => new()
    {
        Locomotives =
        [
            new("engine", ElectricCurrent.FromAmperes(running), ElectricCurrent.FromAmperes(stopped), ElectricCurrent.FromAmperes(starting),
                ElectricCurrent.FromAmperes(2 * starting), Length.FromMillimeters(60), count),
        ],
    };

    /// <summary>Trains 6 m long, each with one locomotive at its head: on a ring of 10 m there is room for one.</summary>
    internal static Stock LongTrains(int count, double amps) => Engines(count, amps, amps, amps) with
    {
        Trains = [.. Enumerable.Range(0, count).Select(i =>
            new Train(Name("train", i, ""), ["engine"], 0, ElectricCurrent.Zero, Length.FromMeters(6)))],
    };

    internal static SessionRailway Railway(Layout layout, OperatingModel? model = null) => new(RailGraph.Build(layout), model);

    private static string Name(string names, int ring, string part) => string.Create(CultureInfo.InvariantCulture, $"{names}{ring}{part}");
}
