using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>Where the remedy of a short through frogs puts the gaps: at those frogs that join rails of opposite polarity.</summary>
public sealed class FrogGapTests
{
    private static readonly string[] Vees = ["W.a1/left", "W.b1/right", "W.a2/left", "W.b2/right"];
    private static readonly string[] Sides = ["W.a1/right", "W.b2/left", "W.b1/left", "W.a2/right"];

    [Fact]
    public void A_double_slip_wants_gaps_at_its_vees_only() => Names("slip: double, frog: live, frog-feed: contact", Vees, Sides);

    [Fact]
    public void A_live_crossing_of_one_phase_wants_gaps_at_its_vees_only() =>
        Names("crossing: 30 deg, frog: live, frog-feed: contact", Vees, Sides);

    [Fact]
    public void A_live_crossing_of_opposite_phases_wants_gaps_at_its_other_frogs_only() =>
        Names("crossing: 30 deg, frog: live, frog-feed: contact, phase: opposite", Sides, Vees, swapB: true);

    private static void Names(string piece, string[] wanted, string[] others, bool swapB = false)
    {
        string feeders = string.Join(", ", new[] { "a1", "a2", "b1", "b2" }.Select(end =>
            $"f-{end}: {{ at: {end}@0.5 m, bus: P1, wire: 20 AWG, length: 200{(swapB && end[0] == 'b' ? ", swap: true" : "")} }}"));
        Layout layout = Checks.Read($$"""
            wireup: 1
            name: Frogs
            longest-train: 1 m
            track:
              W: { {{piece}} }
              a1: { length: 1 m }
              a2: { length: 1 m }
              b1: { length: 1 m }
              b2: { length: 1 m }
            joined: [ a1.b > W.a1, W.a2 > a2.a, b1.b > W.b1, W.b2 > b2.a ]
            wiring:
              boosters: { main: { volts: 15 V, amps: 5 A } }
              districts: { d: { booster: main, trip: 4 A } }
              bus: { d: { wire: 2.5 mm2, runs: [ main > P1 1 m ] } }
              feeders: { {{feeders}} }
            """, "test");
        string remedies = string.Join('\n', Checks.Of(layout).Where(finding => finding.Code == "WU3001").Select(finding => finding.Remedy));
        Assert.Contains(", just beyond the frogs.", remedies, StringComparison.Ordinal);
        Assert.All(wanted, rail => Assert.Contains(rail, remedies, StringComparison.Ordinal));
        Assert.All(others, rail => Assert.DoesNotContain(rail, remedies, StringComparison.Ordinal));
    }
}
