using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Circuits.Trains;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Worst places of trains that can be written down. Each rail has r = 0.05 Ω/m, source and breaker together 0.15 Ω, 15 V.</summary>
public sealed class WorstTrainsTests
{
    private const double RailOhmsPerMetre = 0.05, SourceOhms = 0.15;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    public void Trains_on_a_line_fed_at_one_end_crowd_at_the_other(int count)
    {
        // Heads at D, D − (L + s), …: with every engine towards the far end the k-th adds I·2·r·(D − k·(L + s)), and I at the source.
        (double amps, double length, double spacing, double line) = (0.5, 0.6, 0.1, 8);
        DistrictTrains found = Find(Line(line).Feeder("f1", "line", 0, "east", "main", metres: 0), Same(count, amps, length), spacing);
        double drop = Enumerable.Range(0, count).Sum(k => amps * (SourceOhms + (2 * RailOhmsPerMetre * (line - (k * (length + spacing))))));
        Assert.Equal(drop, found.AtLeast.Volts, 1e-6);
        Assert.InRange(found.AtMost.Volts, drop - 1e-9, drop + 0.001 + (2 * count * amps * 2 * RailOhmsPerMetre * 0.1));
        Assert.Equal(line, found.Trains[0].At.MetresFromA, 1e-6);
        Assert.Equal("b", found.Trains[0].Facing);
    }

    [Fact]
    public void Two_trains_on_a_ring_stand_head_to_head_opposite_its_feeder()
    {
        // Transfer between x and y > x from the feeder, ring D: 2·r·x·(D − y)/D. Engines at p and p + s give the one at p
        // I·2·r·p·(2D − 2p − s)/D, most at p = D/2 − s/4: I·2·r·(2D − s)²/(8D).
        (double amps, double spacing, double ring) = (0.8, 0.4, 10);
        PlanBuilder plan = new PlanBuilder().BareFeeds().Section("ring", ring).Join("ring.b", "ring.a", ohms: 0)
            .Booster("main").District("east", "main").Feeder("f1", "ring", 0, "east", "main", metres: 0);
        DistrictTrains found = Find(plan, Same(2, amps, 1), spacing);
        double drop = (2 * amps * SourceOhms) + (amps * 2 * RailOhmsPerMetre * Math.Pow((2 * ring) - spacing, 2) / (8 * ring));
        Assert.Equal(drop, found.AtLeast.Volts, 1e-4);
        Assert.InRange(found.AtMost.Volts, drop - 1e-9, drop + 0.02);
        Assert.Equal(spacing, Math.Abs(found.Trains[0].At.MetresFromA - found.Trains[1].At.MetresFromA), 1e-6);
    }

    [Fact]
    public void Lit_cars_draw_along_the_train()
    {
        // Engine at the far end of a line of D, n cars at (i + ½)·L/n behind it: each draws its c at its own distance from the feeder.
        TrainDemand express = new("express", ElectricCurrent.FromAmperes(0.4), 5, ElectricCurrent.FromAmperes(0.1), Length.FromMeters(2));
        DistrictTrains found = Find(Line(6).Feeder("f1", "line", 0, "east", "main", metres: 0), [express], 0.1);
        double drop = (0.9 * SourceOhms) + (2 * RailOhmsPerMetre * ((0.4 * 6) + (0.5 * (6 - 1))));
        Assert.Equal(drop, found.AtLeast.Volts, 1e-6);
        Assert.InRange(found.AtMost.Volts, drop, drop + (0.5 * 2 * RailOhmsPerMetre * 1.2));
    }

    [Fact]
    public void Trains_in_another_district_act_through_what_the_districts_share()
    {
        // One booster of 0.2 Ω for two districts, each with room for one train.
        Layout layout = new PlanBuilder().BareFeeds().Section("one", 1).Section("two", 1)
            .Booster("main", ohms: 0.2).District("left", "main", ohms: 0.05).District("right", "main", ohms: 0.07)
            .Feeder("f1", "one", 0, "left", "main", metres: 0).Feeder("f2", "two", 0, "right", "main", metres: 0).Build();
        WorstTrainsReport report = WorstTrains.Find(RailGraph.Build(layout), PowerOptions.Default, Same(3, 1, 0.9), Length.FromMeters(0.2), TestContext.Current.CancellationToken);
        Assert.Equal(["left", "right"], report.Districts.Select(district => district.District));
        Assert.Equal((2 * 0.2) + 0.05 + (2 * RailOhmsPerMetre), report.Districts[0].AtLeast.Volts, 1e-6);
        Assert.Equal((2 * 0.2) + 0.07 + (2 * RailOhmsPerMetre), report.Worst!.AtLeast.Volts, 1e-6);
        Assert.Equal(2, report.Worst.Trains.Length);
    }

    [Fact]
    public void A_train_does_not_stand_over_a_crossing_that_another_one_covers()
    {
        // Two lines of 2 m cross in their middle, both fed at their a ends; each train is as long as its line, so only one has room.
        Layout layout = LayoutFile.Read(
            """
            wireup: 1
            name: Crossing
            longest-train: 2 m
            track: { w: { length: 1 m }, e: { length: 1 m }, n: { length: 1 m }, s: { length: 1 m }, X: { crossing: 90 deg } }
            joined: [ w > X.a1, X.a2 > e, n > X.b1, X.b2 > s ]
            wiring:
              boosters: { main: { volts: 15 V, amps: 5 A, resistance: 0.1 ohm } }
              districts: { all: { booster: main, trip: 4 A } }
              bus: { all: { wire: 12 AWG, runs: [ main > P 1 m ] } }
              feeders:
                f1: { at: w@0, bus: P, wire: 20 AWG, length: 300 }
                f2: { at: n@0, bus: P, wire: 20 AWG, length: 300 }
            """, "crossing").Layout!;
        WorstTrainsReport report = WorstTrains.Find(RailGraph.Build(layout), PowerOptions.Default, Same(2, 1, 1.9), Length.FromMeters(0.1), TestContext.Current.CancellationToken);
        Assert.Single(report.Worst!.Trains);
        Assert.Equal(2, WorstTrains.Find(RailGraph.Build(layout), PowerOptions.Default, Same(2, 1, 0.9), Length.FromMeters(0.1), TestContext.Current.CancellationToken).Worst!.Trains.Length);
    }

    [Fact]
    public void The_trains_are_those_of_the_stock_list_that_move_at_once()
    {
        Locomotive Kind(string name, double amps, int count) => new(
            name, ElectricCurrent.FromAmperes(amps), ElectricCurrent.Zero, ElectricCurrent.Zero, ElectricCurrent.Zero, Length.FromMillimeters(90), count);
        Stock stock = new()
        {
            Locomotives = [Kind("switcher", 0.2, 2), Kind("mallet", 0.8, 2)],
            Trains =
            [
                new("local", ["switcher"], 2, ElectricCurrent.FromAmperes(0.05), Length.FromMeters(1)),
                new("ore drag", ["mallet", "mallet"], 0, ElectricCurrent.Zero, Length.FromMeters(2)),
                new("light", ["mallet"], 0, ElectricCurrent.Zero, Length.FromMeters(1.5)),
            ],
            MovingAtOnce = 3,
        };
        Layout layout = new PlanBuilder().Section("s", 1).Runs(stock).Build();
        Assert.Equal([("ore drag", 1.6), ("local", 0.3)], TrainDemand.Of(layout).Select(train => (train.Name, Math.Round(train.Total.Amperes, 9))));
        Layout all = layout with { Stock = stock with { MovingAtOnce = null } };
        Assert.Equal(["ore drag", "local", "switcher"], TrainDemand.Of(all).Select(train => train.Name));
        Assert.Equal(["ore drag", "ore drag", "local", "switcher"], TrainDemand.Of(layout, 4).Select(train => train.Name));
        Assert.Equal(["ore drag"], TrainDemand.Of(layout, 1).Select(train => train.Name));
        Assert.Equal(2, TrainDemand.Of(layout with { Stock = Stock.None }).Length);

        // A kind that is listed and of which there is none is nothing that could move.
        Assert.Equal(["HO engine", "HO engine"], TrainDemand.Of(layout with { Stock = new() { Locomotives = [Kind("sold", 0.5, 0)] } }).Select(train => train.Name));
        Assert.Throws<ArgumentOutOfRangeException>(() => TrainDemand.Of(layout, 0));
    }

    private static PlanBuilder Line(double metres) =>
        new PlanBuilder().BareFeeds().Section("line", metres).Booster("main").District("east", "main");

    private static ImmutableArray<TrainDemand> Same(int count, double amps, double metres) =>
        [.. Enumerable.Repeat(new TrainDemand("engine", ElectricCurrent.FromAmperes(amps), 0, ElectricCurrent.Zero, Length.FromMeters(metres)), count)];

    private static DistrictTrains Find(PlanBuilder plan, ImmutableArray<TrainDemand> trains, double spacing) => Assert.Single(WorstTrains.Find(
        RailGraph.Build(plan.Build()), PowerOptions.Default, trains, Length.FromMeters(spacing), TestContext.Current.CancellationToken).Districts);
}
