using UnitsNet;
using WireUp.Layouts;
using WireUp.Planning.Buses;

namespace WireUp.Planning.Tests.Exact;

public sealed class TerminalStripTests
{
    // What meets where: the breaker and one run at the booster; two runs and a feeder at P1; runs as listed and feeders as counted at P2.
    [Theory]
    [InlineData(2, 1, 0)]
    [InlineData(2, 2, 4)]
    [InlineData(3, 0, 3)]
    [InlineData(3, 1, 4)]
    [InlineData(1, 2, 0)]
    [InlineData(1, 3, 4)]
    public void Wires_that_a_tap_does_not_take_get_a_strip_with_a_way_for_each(int runs, int feeders, int ways)
    {
        Wiring wiring = Wired(["main > P1", "P1 > P2", .. Enumerable.Range(3, runs - 1).Select(i => $"P2 > P{i}")], ["P1", .. Enumerable.Repeat("P2", feeders)]);
        Proposal[] strips = [.. TerminalStrips.Of(Wiring.None, wiring)];
        if (ways == 0)
        {
            Assert.Empty(strips);
            return;
        }

        Proposal strip = Assert.Single(strips);
        Assert.Equal((ProposalKind.TerminalStrip, "P2"), (strip.Kind, strip.At));
        Assert.Contains($"a terminal strip of {ways} ways", strip.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_runs_from_a_booster_meet_the_breaker_on_a_strip() =>
        Assert.Equal("main", Assert.Single(TerminalStrips.Of(Wiring.None, Wired(["main > P1", "main > P2"], []))).At);

    [Fact]
    public void What_is_built_with_many_wires_already_gets_none()
    {
        Wiring built = Wired(["main > P1", "P1 > P2", "P1 > P3"], []);
        Assert.Empty(TerminalStrips.Of(built, Wired(["main > P1", "P1 > P2", "P1 > P3", "P3 > P4"], ["P4"])));
        Assert.Equal("P3", Assert.Single(TerminalStrips.Of(built, Wired(["main > P1", "P1 > P2", "P1 > P3", "P3 > P4", "P3 > P5"], []))).At);
    }

    private static Wiring Wired(string[] runs, string[] taps) => Wiring.None with
    {
        Districts = [new("d1", "main", ElectricCurrent.FromAmperes(3), ElectricResistance.FromOhms(0.05))],
        Buses = [new("d1", [.. runs.Select(run => run.Split(" > ")).Select(ends => new BusRun(ends[0], ends[1], Length.FromMeters(1), new Wire.Metric(2.5)))])],
        Feeders = [.. taps.Select((tap, i) => new Feeder($"f{i}", new(new("s"), 1), "d1", tap, new Wire.Metric(0.5), Length.FromMillimeters(250)))],
    };
}
