using UnitsNet;
using WireUp.Layouts;

namespace WireUp.Documents.Tests.Schedules.Exact;

public sealed class BusLineTests
{
    private static readonly Wire Thick = new Wire.Metric(2.5);
    private static readonly Wire Thin = new Wire.Metric(1.5);

    [Fact]
    public void A_line_goes_on_through_its_taps_and_at_a_fork_along_the_longer_way()
    {
        // main – a – b – c (1 + 2 + 3 m) and, from a, a short branch a – d (1 m).
        BusLine[] lines = Lines(Run("main", "a", 1), Run("a", "d", 1), Run("a", "b", 2), Run("b", "c", 3));

        Assert.Equal(["east:1 main a b c", "east:2 a d"], lines.Select(Words));
        Assert.Equal(6, lines[0].Length.Meters, 1e-9);
        Assert.Equal([("a", 1.0), ("b", 3.0)], lines[0].Taps().Select(tap => (tap.Point, tap.FromStart.Meters)));
    }

    [Fact]
    public void Another_gauge_begins_another_line() => Assert.Equal(
        ["east:1 main a", "east:2 a b c"],
        Lines(Run("main", "a", 1), Run("a", "b", 1, Thin), Run("b", "c", 1, Thin)).Select(Words));

    [Fact]
    public void Built_and_new_are_never_one_cable()
    {
        Bus bus = new("east", [Run("main", "a", 1), Run("a", "b", 1), Run("b", "c", 1)]);
        Layout before = TestLayouts.Crossover with { Wiring = Wiring.None with { Buses = [bus with { Runs = bus.Runs[..2] }] } };

        Assert.Equal(["east:1 main a b", "east:2 b c"], new BusLines(before).Of(bus).Select(Words));
    }

    [Fact]
    public void A_ring_ends_where_it_began() =>
        Assert.Equal(["east:1 main a b main"], Lines(Run("main", "a", 1), Run("a", "b", 1), Run("b", "main", 1)).Select(Words));

    [Fact]
    public void A_very_long_chain_is_one_line()
    {
        BusRun[] runs = [.. Enumerable.Range(0, 20_000).Select(i => Run($"p{i}", $"p{i + 1}", 0.1))];
        Assert.Equal(20_001, Assert.Single(Lines(runs)).Points.Length);
    }

    private static BusLine[] Lines(params BusRun[] runs) => [.. new BusLines(null).Of(new("east", [.. runs]))];

    private static BusRun Run(string from, string to, double metres, Wire? wire = null) => new(from, to, Length.FromMeters(metres), wire ?? Thick);

    private static string Words(BusLine line) => $"{line.Name} {string.Join(' ', line.Points)}";
}
