using WireUp.Layouts;

namespace WireUp.Checking.Tests.Exact;

/// <summary>WU4005 where the rule is kept and trains meet all the same.</summary>
public sealed class OverloadTests
{
    // Two districts with half of the track each; 16 engines of 0.3 A, of which 8 move. By rule each district has to carry
    // half of 8 × 0.3 A × 1.25 = 3 A, so that its breaker must trip at 2.25 A. An engine draws its 0.3 A in one of the districts
    // with the chance 1/2 × 8/16 = 1/4, and of 16 such no more than eight do so for 99 % of the time (binomial: 0.9925; seven: 0.973).
    // Eight draw 2.4 A.
    [Theory]
    [InlineData("2.3 A", "5 A", true, false)]
    [InlineData("2.4 A", "5 A", false, false)]
    [InlineData("2.2 A", "5 A", false, false)]
    [InlineData("2.5 A", "2.3 A", false, true)]
    public void Trains_that_meet_must_not_draw_more_than_breaker_and_booster_bear(string trip, string booster, bool breakerWarns, bool boosterWarns)
    {
        Finding[] found = [.. Checks.Of(Layout(trip, booster)).Where(finding => finding.Code == "WU4005" && finding.Message.StartsWith("Trains that meet", StringComparison.Ordinal))];
        Assert.Equal(breakerWarns ? ["west", "east"] : boosterWarns ? ["a", "b"] : [], found.SelectMany(finding => finding.Places));
        Assert.All(found, finding => Assert.Contains("draw up to 2.4 A", finding.Message, StringComparison.Ordinal));
    }

    // 0.8 of 2.3 A is more than the 1.5 A that the rule gives each booster, so that only trains that meet are too much for it.
    private static Layout Layout(string trip, string booster) => Checks.Read(
        $$"""
        wireup: 1
        name: Two halves
        longest-train: 1 m
        max-feeder-distance: 3 m
        track: { w: { length: 5 m }, e: { length: 5 m } }
        joined: [ w > e ]
        wiring:
          boosters: { a: { amps: {{booster}} }, b: { amps: {{booster}} } }
          districts: { west: { booster: a, trip: {{trip}} }, east: { booster: b, trip: {{trip}} } }
          feeders:
            f1: { at: w@2.5 m, bus: a, district: west, wire: 2.5 mm2, length: 1 m }
            f2: { at: e@2.5 m, bus: b, district: east, wire: 2.5 mm2, length: 1 m }
          gaps: [ { at: w.b } ]
        stock:
          moving-at-once: 8
          locomotives: { engine: { running: 0.3 A, stopped: 0 A, count: 16 } }
        """,
        "halves");
}
