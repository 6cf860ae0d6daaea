using UnitsNet;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>What a file says of wires, contacts, breakers and what engines draw.</summary>
public sealed class ElectricalReadingTests
{
    private const string Text = ProblemTests.Base + """
        defaults:
          resistance: { contact: 50 mohm, connector: 7 mohm }
          frog-wire: 400 mm 22 AWG stranded
        wiring:
          boosters: { main: { amps: 5 A, delay: 250 ms } }
          districts:
            east: { booster: main, trip: 3 A, delay: 20 ms, reclose: 5 s, curve: [ 3.3 A 10 s, 6 A 0.5 s, 15000 mA 20 ms ] }
          bus:
            east:
              wire: 14 AWG stranded
              spacing: 150 mm
              runs: [ main > P1 2 m, P1 > P2 3.1 m 2 connectors, P2 > P3 1 m 1.5 mm2 solid 1 connector ]
        stock:
          locomotives:
            tank: { draws: power, stay-alive: 1000 uF, charging: 100 ohm }

        """;

    private static readonly Layout Read = LayoutFile.Read(Text, "test").Layout!;

    [Fact]
    public void Wires_are_solid_or_stranded_as_said()
    {
        Bus bus = Assert.Single(Read.Wiring.Buses);
        Assert.Equal(
            [new Wire.Awg(14) { Stranded = true }, new Wire.Awg(14) { Stranded = true }, new Wire.Metric(1.5) { Solid = true }],
            bus.Runs.Select(run => run.Wire));
        Assert.Equal([0, 2, 1], bus.Runs.Select(run => run.Connectors));
        Assert.Equal(0.15, bus.Spacing!.Value.Meters);
        Assert.Equal(new WireLength(Length.FromMeters(0.4), new Wire.Awg(22) { Stranded = true }), Read.Defaults.FrogWire);
        Assert.Equal((0.05, 0.007), (Read.Defaults.Contact.Ohms, Read.Defaults.Connector.Ohms));
    }

    [Fact]
    public void A_breaker_has_its_curve_and_its_times()
    {
        District district = Assert.Single(Read.Wiring.Districts);
        Assert.Equal([(3.3, 10), (6, 0.5), (15, 0.02)], district.Curve.Select(point => (point.Current.Amperes, point.Time.Seconds)));
        Assert.Equal((0.02, 5), (district.Delay.Seconds, district.Reclose.Seconds));
        Assert.Equal(0.25, Assert.Single(Read.Wiring.Boosters).Delay.Seconds);
    }

    [Fact]
    public void An_engine_says_what_it_draws_and_what_keeps_it_alive()
    {
        Locomotive tank = Assert.Single(Read.Stock.Locomotives);
        Assert.Equal((LoadKind.Power, 0.001, 100), (tank.Draw, tank.StayAlive!.Value.Farads, tank.Charging.Ohms));
    }

    [Fact]
    public void What_is_not_said_is_what_is_usual()
    {
        Layout plain = LayoutFile.Read(ProblemTests.Base + ProblemTests.Wired, "test").Layout!;
        District district = plain.Wiring.Districts[0];
        Assert.Equal((0.1, 2, 0.3), (district.Delay.Seconds, district.Reclose.Seconds, plain.Wiring.Boosters[0].Delay.Seconds));
        Assert.Empty(district.Curve);
        Assert.Equal((0.02, 0.01), (plain.Defaults.Contact.Ohms, plain.Defaults.Connector.Ohms));
        Assert.Null(plain.Defaults.FrogWire);
        Assert.Null(plain.Wiring.Buses[0].Spacing);
    }
}
