using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>Feeders taken away by an update of one solution, against circuits built anew without them.</summary>
public class FeederRemovalTests
{
    [Theory]
    [InlineData("home-yard")]
    [InlineData("tarrow-valley-as-built")]
    public void A_limit_is_passed_or_rail_cut_off_with_the_feeder_with_which_it_is_in_a_circuit_built_anew(string sample)
    {
        Layout layout = OneDistrict(ExampleLayouts.Sample(sample));
        ImmutableArray<Feeder> feeders = layout.Wiring.Feeders;
        string district = layout.Wiring.Districts[0].Name;
        ElectricCurrent amps = ElectricCurrent.FromAmperes(4);
        FeederRemovals removals = new(layout, amps, feeders);
        Random chance = new(20261128);
        int between = 0, cutOff = 0;
        for (int trial = 0; trial < 40; trial++)
        {
            int[] order = [.. Enumerable.Range(0, feeders.Length)];
            chance.Shuffle(order);
            int at = chance.Next(feeders.Length);
            ImmutableArray<double>[] places = [.. Enumerable.Range(0, order.Length + 1).Select(count => FeederRemovals.OhmsAt(Without(layout, order[..count]), district, amps, feeders))];
            double[] ohms = [.. places.Select(all => all.Any(double.IsInfinity) ? double.PositiveInfinity : all[at])];
            Assert.Equal(double.PositiveInfinity, ohms[^1]);
            double[] finite = [.. ohms.Where(double.IsFinite).Distinct().Order()];
            double limit = trial % 2 == 0 || finite.Length < 2 ? finite[^1] + 1e-3 : (finite[chance.Next(finite.Length - 1)] + finite[^1]) / 2;
            int expected = Array.FindIndex(ohms, each => each > limit);
            Assert.Equal(expected, removals.Breaking(at, order, limit));
            Assert.Null(expected == 0 ? null : removals.Breaking(at, order.AsSpan(0, expected - 1), limit));
            _ = double.IsInfinity(ohms[expected]) ? cutOff++ : between++;
        }

        Assert.True(between > 10 && cutOff > 10, $"{between} limits between feeders, {cutOff} beyond all");
    }

    // Under the design load a place loses the train's current times what is told here; a district alone shares its booster with nobody.
    [Fact]
    public void What_is_told_is_the_drop_under_the_design_load_over_the_current_of_the_train()
    {
        Layout layout = OneDistrict(ExampleLayouts.Sample("home-yard"));
        ElectricCurrent amps = ElectricCurrent.FromAmperes(4);
        string district = layout.Wiring.Districts[0].Name;
        PowerReport report = PowerAnalysis.Solve(layout, PowerOptions.Default with { DistrictLoads = ImmutableSortedDictionary<string, ElectricCurrent>.Empty.Add(district, amps) }, TestContext.Current.CancellationToken);
        PlacePower worst = report.Districts.Single().LowestVolts;
        Feeder look = layout.Wiring.Feeders[0] with { At = worst.At };
        double ohms = FeederRemovals.OhmsAt(layout, district, amps, [look]).Single();
        double train = Math.Min(report.DesignLoad!.HeaviestTrain.Amperes, 4);
        Assert.InRange(train, 0.1, 3.9);
        Assert.Equal(worst.Drop.DecimalFractions * report.Districts.Single().SourceVolts.Volts, ohms * train, 3e-4);
    }

    private static Layout Without(Layout layout, int[] removed) =>
        layout with { Wiring = layout.Wiring with { Feeders = [.. layout.Wiring.Feeders.Where((_, i) => !removed.Contains(i))] } };

    private static Layout OneDistrict(Layout layout)
    {
        District first = layout.Wiring.Districts[0];
        return layout with
        {
            Wiring = layout.Wiring with
            {
                Boosters = [.. layout.Wiring.Boosters.Where(booster => booster.Name == first.Booster)],
                Districts = [first],
                Buses = [.. layout.Wiring.Buses.Where(bus => bus.District == first.Name)],
                Feeders = [.. layout.Wiring.Feeders.Where(feeder => feeder.District == first.Name)],
            },
        };
    }
}
