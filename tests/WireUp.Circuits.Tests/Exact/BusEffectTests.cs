using System.Collections.Immutable;
using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>How drop and resistance follow each run of bus, against solving again with that run a little longer.</summary>
public sealed class BusEffectTests
{
    [Theory]
    [InlineData("home-yard.layout.yaml")]
    [InlineData("balloon-loop.layout.yaml")]
    [InlineData("three-rail.layout.yaml")]
    [InlineData("tarrow-valley-as-built.layout.yaml")]
    public void They_are_the_slopes_of_the_solved_circuit(string sample)
    {
        Layout layout = SampleFiles.Wired(sample);
        PowerReport report = Solve(layout);
        ImmutableArray<TrackPlace> places = [.. report.Districts.SelectMany(power => new[] { power.LowestVolts.At, power.LowestFault.At }).Distinct()];
        ImmutableArray<BusEffect> effects = BusEffects.Of(layout, places);
        Assert.Equal(places, effects.Select(effect => effect.At));
        int compared = 0;
        foreach (Bus bus in layout.Wiring.Buses.Where(bus => !bus.Runs.IsEmpty).Take(3))
        {
            foreach (int run in (int[])[0, bus.Runs.Length - 1])
            {
                Layout longer = Longer(layout, bus, run, 0.001);
                double ohms = Layouts.Reference.Conductors.OhmsPerMetre(bus.Runs[run].Wire, layout.Defaults.Temperature) * 0.001;
                ImmutableArray<BusEffect> after = BusEffects.Of(longer, places);
                for (int i = 0; i < places.Length; i++)
                {
                    bool isOwn = effects[i].District == bus.District;
                    Assert.Equal(isOwn ? effects[i].DropPerOhm[run] : 0, (after[i].DropVolts - effects[i].DropVolts) / ohms, 1e-3);
                    Assert.Equal(isOwn ? effects[i].LoopPerOhm[run] : 0, (after[i].LoopOhms - effects[i].LoopOhms) / ohms, 1e-3);
                    compared += isOwn ? 1 : 0;
                }
            }
        }

        Assert.True(compared > 0);
    }

    [Theory]
    [InlineData("home-yard.layout.yaml")]
    [InlineData("tarrow-valley-as-built.layout.yaml")]
    public void Their_values_are_those_of_the_report(string sample)
    {
        Layout layout = SampleFiles.Wired(sample);
        foreach (DistrictPower power in Solve(layout).Districts)
        {
            BusEffect volts = Assert.Single(BusEffects.Of(layout, [power.LowestVolts.At])), fault = Assert.Single(BusEffects.Of(layout, [power.LowestFault.At]));
            Assert.Equal(power.LowestVolts.Drop.DecimalFractions * power.SourceVolts.Volts, volts.DropVolts, 1e-9);
            Assert.Equal(power.LowestFault.FaultCurrent.Amperes, Math.Abs(fault.OpenVolts) / (fault.LoopOhms + layout.Defaults.Coin.Ohms), 1e-6);
        }
    }

    [Fact]
    public void A_place_without_a_feed_has_none()
    {
        Layout layout = SampleFiles.Wired("home-yard.layout.yaml");
        Layout dead = layout with { Wiring = layout.Wiring with { Feeders = [] } };
        Assert.Empty(BusEffects.Of(dead, [new(layout.Track.OfType<Piece.Section>().First().Id, 0.1)]));
    }

    private static Layout Longer(Layout layout, Bus bus, int run, double metres) => layout with
    {
        Wiring = layout.Wiring with
        {
            Buses = layout.Wiring.Buses.Replace(bus, bus with
            {
                Runs = bus.Runs.SetItem(run, bus.Runs[run] with { Length = bus.Runs[run].Length + Length.FromMeters(metres) }),
            }),
        },
    };

    private static PowerReport Solve(Layout layout) => PowerAnalysis.Solve(layout, PowerOptions.Default, TestContext.Current.CancellationToken);
}
