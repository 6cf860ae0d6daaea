using WireUp.Layouts;

namespace WireUp.Circuits.Tests.Exact;

/// <summary>Contacts, connectors and frog wires are resistances in the way of the current: sums that can be checked by hand.</summary>
public sealed class ContactTests
{
    [Theory]
    [InlineData("", 0)]
    [InlineData(" 1 connector", 0.02)]
    [InlineData(" 3 connectors", 0.06)]
    public void A_connector_counts_in_both_wires_of_a_run(string connectors, double ohms) =>
        Assert.Equal(LoopAt("spur", runs: "main > P1 2 m") + ohms, LoopAt("spur", runs: $"main > P1 2 m{connectors}"), 1e-12);

    [Theory]
    [InlineData(0)]
    [InlineData(0.02)]
    [InlineData(0.2)]
    public void One_rail_of_the_leg_of_a_live_turnout_gets_its_current_through_a_blade(double contact) =>
        Assert.Equal(LoopAt("leg", contact: 0) + contact, LoopAt("leg", contact: contact), 1e-12);

    [Fact]
    public void A_frog_wire_lies_beside_the_blade()
    {
        // Blade 1 ohm; contact 1 ohm and one metre of 0.5 mm2, which the standard allows 39 mohm: the two in parallel.
        double blade = LoopAt("leg", contact: 1), both = LoopAt("leg", contact: 1, feed: ", frog-feed: contact", frogWire: "frog-wire: 1 m 0.5 mm2");
        Assert.Equal(blade - 1 + (1 / (1 + (1 / 1.039))), both, 1e-12);
    }

    private static double LoopAt(string section, string runs = "main > P1 2 m", double contact = 0.02, string feed = "", string frogWire = "")
    {
        string text = string.Create(System.Globalization.CultureInfo.InvariantCulture, $$"""
            wireup: 1
            name: Contacts
            longest-train: 1 m
            defaults:
              resistance: { contact: {{contact}} ohm, connector: 10 mohm, coin: 0 ohm }
              {{(frogWire.Length > 0 ? frogWire : "joint: joiner")}}
            track:
              spur: { length: 1 m }
              T: { turnout: left, frog: live{{feed}} }
              leg: { length: 1 m }
            joined:
              - spur > T.points
              - T.through > leg
            wiring:
              boosters: { main: { volts: 10 V, amps: 5 A } }
              districts: { all: { booster: main, trip: 3 A } }
              bus: { all: { wire: 2.5 mm2, runs: [ {{runs}} ] } }
              feeders: { f1: { at: spur@0.5 m, bus: P1, wire: 0.5 mm2, length: 200 } }

            """);
        Layout layout = LayoutFile.Read(text, "test").Layout!;

        // A hundredth of the loop's short: volts lost over the current drawn, as a meter would find it.
        PowerOptions options = PowerOptions.Default with { Loads = [new(new(new(section), 0), UnitsNet.ElectricCurrent.FromAmperes(0.01))] };
        double volts = Assert.Single(PowerAnalysis.Solve(layout, options).Places).Volts.Volts;
        return (10 - volts) / 0.01;
    }
}
