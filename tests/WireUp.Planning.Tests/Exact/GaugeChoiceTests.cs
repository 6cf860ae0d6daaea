using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Planning.Devices;
using WireUp.Planning.Tests.TestLayouts;

namespace WireUp.Planning.Tests.Exact;

/// <summary>The wire of every run, against every choice there is.</summary>
public sealed class GaugeChoiceTests
{
    private const int Runs = 7;

    // 1.5 mm² carries 9 A and the trip is 5 A: no size is too thin for that, so drop and fault current decide.
    private static readonly WireStock Stock = new(WireSystem.Metric, [new(new Wire.Metric(1.5)), new(new Wire.Metric(2.5)), new(new Wire.Metric(4))]);

    private static readonly WireStock Priced = new(
        WireSystem.Metric, [new(new Wire.Metric(1.5), 0.7), new(new Wire.Metric(2.5), 0.8), new(new Wire.Metric(4), 2)]);

    [Fact]
    public void Where_nothing_but_bus_joins_the_taps_no_choice_is_cheaper_and_the_bound_says_so()
    {
        foreach (int seed in Enumerable.Range(1, 12))
        {
            (GaugeChoice choice, double least) = Chosen(seed, isParted: true, seed % 3 == 0 ? Priced : Stock);
            Assert.Equal(least, choice.Cost.Value, 0.011);
            Assert.Equal(choice.Cost.Value, choice.Cost.Bound, 1e-9);
        }
    }

    [Fact]
    public void Where_rails_join_them_too_no_choice_is_cheaper_and_the_bound_says_so()
    {
        foreach (int seed in Enumerable.Range(1, 200))
        {
            (GaugeChoice choice, double least) = Chosen(seed, isParted: false, Stock);
            Assert.Equal(least, choice.Cost.Value, 0.011);
            Assert.Equal(choice.Cost.Value, choice.Cost.Bound, 1e-9);
        }
    }

    // Bus that takes long ways round between taps that the rails join: there a run matters most to what another adds.
    [Fact]
    public void However_long_its_ways_round_no_choice_is_cheaper_and_the_bound_says_so()
    {
        foreach (int seed in Enumerable.Range(1, 200))
        {
            (GaugeChoice choice, double least) = Chosen(seed, isParted: false, Stock, follows: false);
            Assert.Equal(least, choice.Cost.Value, 0.011);
            Assert.Equal(choice.Cost.Value, choice.Cost.Bound, 1e-9);
        }
    }

    [Fact]
    public void A_district_uses_two_sizes_at_most_and_none_is_thicker_than_the_one_before_it()
    {
        int mixed = 0;
        foreach (int seed in Enumerable.Range(1, 8))
        {
            BusTrees tree = Strained(seed, isParted: false, Stock, follows: true);
            ImmutableArray<Wire> wires = Choose(tree, Stock).Districts[0].Wires;
            Assert.InRange(wires.Distinct().Count(), 1, 2);
            Assert.All(wires, (wire, run) => Assert.True(tree.Runs.Parent[run] < 0 || Area(wire) <= Area(wires[tree.Runs.Parent[run]])));
            mixed += wires.Distinct().Count() - 1;
        }

        Assert.True(mixed > 0);
    }

    [Fact]
    public void Where_no_wire_keeps_the_drop_the_thickest_is_taken_and_the_verdict_says_what_is_not_kept()
    {
        BusTrees tree = BusTrees.Make(1, Runs, isParted: false, follows: true);
        tree = tree with { Track = tree.Track with { MaxDrop = Ratio.FromPercent(0.5) } };
        DistrictGauges gauges = Choose(tree, Stock).Districts[0];
        Assert.All(gauges.Wires, wire => Assert.Equal(Stock.Thickest, wire));
        Assert.Contains("drop", gauges.Verdict, StringComparison.Ordinal);
    }

    private static (GaugeChoice Choice, double Least) Chosen(int seed, bool isParted, WireStock stock, bool follows = true)
    {
        BusTrees tree = Strained(seed, isParted, stock, follows);
        GaugeChoice choice = Choose(tree, stock);
        DistrictGauges gauges = choice.Districts[0];
        Assert.Equal("", gauges.Verdict);
        Assert.True(Keeps(tree, (_, run) => gauges.Wires[run]));
        return (choice, Every(tree, stock).Where(sizes => Keeps(tree, (_, run) => stock.Sizes[sizes[run]].Wire)).Min(sizes => tree.Runs.Cost(stock, sizes)));
    }

    /// <summary>A tree whose drop limit lies between what the thinnest and the thickest wire give.</summary>
    private static BusTrees Strained(int seed, bool isParted, WireStock stock, bool follows)
    {
        BusTrees tree = BusTrees.Make(seed, Runs, isParted, follows);
        double thin = Drop(stock.Sizes[0].Wire), thick = Drop(stock.Thickest);
        return tree with { Track = tree.Track with { MaxDrop = Ratio.FromPercent(thick + ((thin - thick) * (0.1 + (0.07 * (seed % 10))))) } };

        double Drop(Wire wire) => Power(tree, (_, _) => wire).LowestVolts.Drop.Percent;
    }

    private static GaugeChoice Choose(BusTrees tree, WireStock stock) =>
        new GaugeChooser([tree.Runs], stock, tree.With, TestContext.Current.CancellationToken).Choose();

    private static IEnumerable<ImmutableArray<int>> Every(BusTrees tree, WireStock stock)
    {
        IEnumerable<ImmutableArray<int>> all = [[]];
        foreach (int parent in tree.Runs.Parent)
        {
            all = all.SelectMany(sizes => Enumerable.Range(0, stock.Sizes.Length)
                .Where(size => parent < 0 || size <= sizes[parent])
                .Select(size => sizes.Add(size)));
        }

        return all.Where(sizes => sizes.Distinct().Count() <= 2);
    }

    private static bool Keeps(BusTrees tree, Func<string, int, Wire> wireOf)
    {
        DistrictPower power = Power(tree, wireOf);
        return power.LowestVolts.Drop <= tree.Track.MaxDrop && power.FaultOverTrip >= Constants.FaultOverTripGood.Value;
    }

    private static DistrictPower Power(BusTrees tree, Func<string, int, Wire> wireOf) =>
        Assert.Single(PowerAnalysis.Solve(tree.With(wireOf), PowerOptions.Default, TestContext.Current.CancellationToken).Districts);

    private static double Area(Wire wire) => Conductors.AreaSquareMillimetres(wire);
}
