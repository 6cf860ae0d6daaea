using UnitsNet;
using WireUp.Circuits.Tests.Support;
using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Loads that answer to their volts, on one line fed at its end, where they have closed forms.</summary>
public sealed class LoadKindTests
{
    // 12 V behind 1 ohm of track to the place of the load, there and back.
    private const double Volts = 12, Ohms = 1;
    private static readonly TrackPlace Far = new(new("line"), 10);

    [Theory]
    [InlineData(0.1)]
    [InlineData(20)]
    [InlineData(35.999)]
    [InlineData(36)]
    public void Constant_power_settles_at_the_higher_root_of_its_quadratic(double watts)
    {
        // u = e − Z·P/u: u = (e + √(e² − 4ZP))/2, as far as P = e²/4Z = 36 W.
        PlaceVolts place = Assert.Single(Solve(new LoadDemand.Power(Power.FromWatts(watts))).Places);
        double expected = (Volts + Math.Sqrt((Volts * Volts) - (4 * Ohms * watts))) / 2;
        Assert.Equal(expected, place.Volts.Volts, watts > 35.9 ? 1e-5 : 1e-11);
        Assert.Equal(watts, place.Volts.Volts * place.Drawn!.Value.Amperes, 1e-9);
    }

    [Theory]
    [InlineData(36.001)]
    [InlineData(40)]
    [InlineData(1000)]
    public void More_power_than_a_quarter_of_the_short_circuit_power_is_refused(double watts)
    {
        PowerReport report = Solve(new LoadDemand.Power(Power.FromWatts(watts)));
        Assert.Equal("line@10 m", Assert.IsType<CircuitProblem.NoOperatingPoint>(Assert.Single(report.Problems)).At);
        Assert.True(((CircuitProblem.NoOperatingPoint)report.Problems[0]).IsProved);
        Assert.Empty(report.Places);
        Assert.NotEmpty(report.Districts);
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(11)]
    public void A_resistance_divides_the_volts(double ohms)
    {
        PlaceVolts place = Assert.Single(Solve(new LoadDemand.Resistance(ElectricResistance.FromOhms(ohms))).Places);
        Assert.Equal(Volts * ohms / (ohms + Ohms), place.Volts.Volts, 1e-11);
        Assert.Equal(Volts / (ohms + Ohms), place.Drawn!.Value.Amperes, 1e-11);
    }

    [Fact]
    public void Loads_of_every_kind_at_one_place_share_its_volts()
    {
        // 1 A, 20 ohm and 10 W: u = 12 − (1 + u/20 + 10/u), a quadratic in u.
        double expected = (11 + Math.Sqrt((11 * 11) - (4 * 1.05 * 10))) / (2 * 1.05);
        PowerReport report = Solve(
            new LoadDemand.Current(ElectricCurrent.FromAmperes(1)),
            new LoadDemand.Resistance(ElectricResistance.FromOhms(20)),
            new LoadDemand.Power(Power.FromWatts(10)));
        Assert.Equal(3, report.Places.Length);
        Assert.All(report.Places, place => Assert.Equal(expected, place.Volts.Volts, 1e-11));
        foreach ((double amps, PlaceVolts place) in new[] { 1, expected / 20, 10 / expected }.Zip(report.Places))
        {
            Assert.Equal(amps, place.Drawn!.Value.Amperes, 1e-11);
        }
    }

    [Fact]
    public void A_train_of_the_stock_draws_as_its_engines_do()
    {
        Layout layout = Line().Build() with
        {
            Stock = new()
            {
                Locomotives =
                [
                    new("steam", Amps(0.5), Amps(0.1), Amps(1), Amps(2), Length.FromMillimeters(60), 1) { Draw = LoadKind.Power },
                    new("lamp", Amps(0.24), Amps(0.1), Amps(1), Amps(2), Length.FromMillimeters(60), 1) { Draw = LoadKind.Resistance },
                ],
                Trains = [new("mail", ["steam", "lamp", "steam"], 3, Amps(0.05), Length.FromMeters(1))],
            },
        };
        LoadDemand[] demands = [.. PlacedLoad.OfStock(Far, "mail", layout).Select(load => load.Demand)];
        Assert.Equal(6, (double)((LoadDemand.Power)demands[0]).Watts.Watts, 1e-12);
        Assert.Equal(50, ((LoadDemand.Resistance)demands[1]).Ohms.Ohms, 1e-12);
        Assert.Equal(6, (double)((LoadDemand.Power)demands[2]).Watts.Watts, 1e-12);
        Assert.Equal(0.15, ((LoadDemand.Current)demands[3]).Amps.Amperes, 1e-12);
        Assert.Single(PlacedLoad.OfStock(Far, "steam", layout));
        Assert.Empty(PlacedLoad.OfStock(Far, "nothing", layout));
    }

    private static ElectricCurrent Amps(double amps) => ElectricCurrent.FromAmperes(amps);

    private static PowerReport Solve(params LoadDemand[] demands) => PowerAnalysis.Solve(
        Line().Build(), PowerOptions.Default with { Loads = [.. demands.Select(demand => new PlacedLoad(Far, demand))] });

    private static PlanBuilder Line() => new PlanBuilder().BareFeeds()
        .Section("line", 10, Ohms / 20)
        .Booster("main", Volts, 0)
        .District("all", "main", 0)
        .Feeder("f1", "line", 0, "all", "main", 0);
}
