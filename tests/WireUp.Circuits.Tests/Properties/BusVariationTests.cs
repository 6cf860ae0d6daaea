using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Network.WhatIfs;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Properties;

/// <summary>What places get with more resistance in runs of the bus, against the railway solved again with these runs longer. Where nothing is shorted: a short turns loads round.</summary>
public sealed class BusVariationTests
{
    private const int Choices = 12;

    [Theory]
    [InlineData("home-yard.layout.yaml")]
    [InlineData("three-rail.layout.yaml")]
    [InlineData("tarrow-valley-as-built.layout.yaml")]
    public void More_resistance_in_some_runs_gives_what_the_railway_solved_again_gives(string sample)
    {
        Layout layout = SampleFiles.Wired(sample);
        ILookup<string, TrackPlace> places = WorstPlaces(layout);
        ImmutableDictionary<string, BusVariation> variations = BusVariation.Of(layout, places);
        Random chance = new(5);
        foreach (Bus bus in layout.Wiring.Buses.Where(bus => !bus.Runs.IsEmpty && variations.ContainsKey(bus.District)).Take(3))
        {
            for (int choice = 0; choice < Choices; choice++)
            {
                double[] metres = [.. bus.Runs.Select(_ => chance.NextDouble() < 0.6 ? 0.1 + (20 * chance.NextDouble()) : 0)];
                double[] ohms = [.. bus.Runs.Select((run, i) => metres[i] * OhmsPerMetre(layout, run))];
                int[] runs = [.. Enumerable.Range(0, ohms.Length).Where(run => ohms[run] > 0).OrderBy(_ => chance.Next())];
                double[] again = BusVariation.Of(Longer(layout, bus, metres), places)[bus.District].Values();
                BusVariation variation = variations[bus.District];
                AssertSame(again, variation.Adding(runs, ohms)[^1]);
                AssertSame(again, variation.With(ohms).Values());

                // One half for good and the other half afterwards.
                double[] first = [.. ohms.Select((own, run) => run % 2 == 0 ? own : 0)];
                AssertSame(again, variation.With(first).Adding([.. runs.Where(run => run % 2 == 1)], ohms)[^1]);
            }
        }
    }

    [Fact]
    public void What_a_run_adds_last_is_what_the_values_lose_without_it()
    {
        Layout layout = SampleFiles.Wired("tarrow-valley-as-built.layout.yaml");
        ImmutableDictionary<string, BusVariation> variations = BusVariation.Of(layout, WorstPlaces(layout));
        Bus bus = layout.Wiring.Buses.Where(bus => variations.ContainsKey(bus.District)).MaxBy(bus => bus.Runs.Length)!;
        BusVariation variation = variations[bus.District];
        double[] ohms = [.. bus.Runs.Select((run, i) => (1 + (i % 3)) * OhmsPerMetre(layout, run))];
        int[] runs = [.. Enumerable.Range(0, bus.Runs.Length).Where(run => run % 4 != 3)];
        Assert.True(runs.Length > 8);
        double[][] taken = variation.Taking(runs, ohms, at => [.. new[] { at - 1, at - 2 }.Where(other => other >= 0)]);
        for (int at = 0; at < runs.Length; at++)
        {
            int[] left = [.. runs.Where((_, other) => other != at && other != at - 1 && other != at - 2)];
            double[] before = variation.Adding(left, ohms)[^1], after = variation.Adding([.. left, runs[at]], ohms)[^1];
            AssertSame([.. after.Zip(before, (with, without) => with - without)], taken[at]);
        }
    }

    [Fact]
    public void A_run_without_length_and_one_that_gets_no_more_change_nothing()
    {
        Layout layout = SampleFiles.Wired("home-yard.layout.yaml");
        Bus bus = layout.Wiring.Buses.First(bus => bus.Runs.Length > 2);
        Bus shorter = bus with { Runs = bus.Runs.SetItem(1, bus.Runs[1] with { Length = Length.Zero }) };
        layout = layout with { Wiring = layout.Wiring with { Buses = layout.Wiring.Buses.Replace(bus, shorter) } };
        BusVariation variation = BusVariation.Of(layout, WorstPlaces(layout))[bus.District];
        double[] ohms = [.. bus.Runs.Select((_, run) => run == 2 ? 0.0 : 0.05)];
        int[] all = [.. Enumerable.Range(0, ohms.Length)];
        double[][] values = variation.Adding(all, ohms);
        AssertSame(values[1], values[3]);
        AssertSame(values[^1], variation.With(ohms).Values());
        AssertSame(new double[variation.Count], variation.Taking(all, ohms, _ => [])[1]);
        Assert.NotEqual(values[0], values[1]);
    }

    [Theory]
    [InlineData("home-yard.layout.yaml")]
    [InlineData("tarrow-valley-as-built.layout.yaml")]
    public void Without_more_resistance_they_are_those_of_the_report(string sample)
    {
        Layout layout = SampleFiles.Wired(sample);
        foreach (DistrictPower power in Solve(layout).Districts)
        {
            double[] volts = Values(power.LowestVolts.At), fault = Values(power.LowestFault.At);
            Assert.Equal(power.LowestVolts.Drop.DecimalFractions * power.SourceVolts.Volts, volts[0], 1e-9);
            Assert.Equal(power.LowestFault.FaultCurrent.Amperes, power.SourceVolts.Volts / (fault[1] + layout.Defaults.Coin.Ohms), 1e-6);

            double[] Values(TrackPlace at) => BusVariation.Of(layout, new[] { at }.ToLookup(_ => power.District))[power.District].Values();
        }
    }

    [Fact]
    public void A_place_without_a_feed_has_none()
    {
        Layout layout = SampleFiles.Wired("home-yard.layout.yaml");
        Layout dead = layout with { Wiring = layout.Wiring with { Feeders = [] } };
        TrackPlace at = new(layout.Track.OfType<Piece.Section>().First().Id, 0.1);
        Assert.Empty(BusVariation.Of(dead, new[] { at }.ToLookup(_ => layout.Wiring.Districts[0].Name)));
    }

    private static void AssertSame(double[] expected, double[] actual)
    {
        Assert.Equal(expected.Length, actual.Length);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], actual[i], 1e-9 + (1e-7 * Math.Abs(expected[i])));
        }
    }

    private static ILookup<string, TrackPlace> WorstPlaces(Layout layout)
    {
        PowerReport report = Solve(layout);
        return report.Sections.Select(section => (section.District, section.LargestLoop.At))
            .Concat(report.Districts.SelectMany(power => new[] { (power.District, power.LowestVolts.At), (power.District, power.LowestFault.At) }))
            .Distinct()
            .ToLookup(pair => pair.District, pair => pair.At);
    }

    private static double OhmsPerMetre(Layout layout, BusRun run) => Layouts.Reference.Conductors.OhmsPerMetre(run.Wire, layout.Defaults.Temperature);

    private static Layout Longer(Layout layout, Bus bus, double[] metres) => layout with
    {
        Wiring = layout.Wiring with
        {
            Buses = layout.Wiring.Buses.Replace(bus, bus with { Runs = [.. bus.Runs.Select((run, i) => run with { Length = run.Length + Length.FromMeters(metres[i]) })] }),
        },
    };

    private static PowerReport Solve(Layout layout) => PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);
}
