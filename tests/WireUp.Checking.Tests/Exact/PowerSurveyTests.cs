namespace WireUp.Checking.Tests.Exact;

/// <summary>Track that has current in some positions only is solved in them, and the worst of all positions is told.</summary>
public sealed class PowerSurveyTests
{
    // 15 V over a joint of 10 ohm are 1.5 A at most, less than the 4 A of the breaker; over any other way some 30 A flow.
    [Theory]
    [InlineData("T1.through", "straight")]
    [InlineData("T1.diverging", "branch")]
    public void The_worst_coin_is_found_beyond_either_blade(string bad, string section)
    {
        Finding found = Assert.Single(Blades(bad, "10 ohm", "WU4001"));
        Assert.Equal([$"{section}@1 m", "town"], found.Places);
    }

    [Theory]
    [InlineData("T1.through", "straight")]
    [InlineData("T1.diverging", "branch")]
    public void The_lowest_volts_are_found_beyond_either_blade(string bad, string section)
    {
        // 0.1 A and a quarter more spread over the track; a joint of 50 ohm takes volts from what lies beyond it, in one rail.
        Finding found = Assert.Single(Blades(bad, "50 ohm", "WU4003", "stock: { locomotives: { tram: { running: 0.1 A } } }"));
        Assert.Equal([$"{section}@1 m", "town"], found.Places);
    }

    [Theory]
    [InlineData("run")]
    [InlineData("program")]
    public void A_district_that_has_track_in_one_position_only_is_judged_in_it(string first)
    {
        Finding found = Assert.Single(Found($$"""
            track: { bench: { length: 1 m } }
            wiring:
              boosters: { main: { volts: 15 V, amps: 5 A, resistance: 10 ohm }, tool: { volts: 15 V, amps: 5 A } }
              districts: { town: { booster: main, trip: 4 A }, bench: { booster: tool, trip: 4 A, use: programming } }
              switches: { K: [{{first}}, {{(first == "run" ? "program" : "run")}}] }
              feeders:
                f1: { at: bench@0.5 m, bus: main, district: town, wire: 2.5 mm2, length: 250, when: K.run }
                f2: { at: bench@0.5 m, bus: tool, district: bench, wire: 2.5 mm2, length: 250, when: K.program }
            """, "WU4001"));
        Assert.Equal("town", found.Places[^1]);
    }

    // The first position is that of the usual set; each other one contradicts all before it and takes a set of its own.
    [Theory]
    [InlineData(65, 0)]
    [InlineData(66, 1)]
    public void Positions_beyond_64_sets_are_told_as_not_checked(int positions, int told)
    {
        string[] names = [.. Enumerable.Range(0, positions).Select(i => $"p{i}")];
        string[] places = [.. Enumerable.Range(0, positions).Select(i => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"s@{0.01 * (i + 1):0.##}?S.p{i}"))];
        PlanBuilder plan = new PlanBuilder().Sections("s").Switch("S", string.Join(' ', names)).Feed("d", places);
        Assert.Equal(told, Checks.Of(plan, "WU4010").Count(finding => finding.Message.Contains("\"s\" were not checked, because more than 64 sets", StringComparison.Ordinal)));
    }

    private static IEnumerable<Finding> Blades(string bad, string ohms, string code, string stock = "") => Found($$"""
        track:
          toe: { length: 1 m }
          T1: { turnout: left, frog: live }
          straight: { length: 1 m }
          branch: { length: 1 m }
        joined: [ toe > T1.points, T1.through > straight, T1.diverging > branch ]
        joints: { {{bad}}: { resistance: {{ohms}} } }
        wiring:
          boosters: { main: { volts: 15 V, amps: 5 A } }
          districts: { town: { booster: main, trip: 4 A } }
          feeders: { f1: { at: toe@0.5 m, bus: main, district: town, wire: 2.5 mm2, length: 250 } }
        {{stock}}
        """, code);

    private static IEnumerable<Finding> Found(string rest, string code) =>
        Checks.Of(Checks.Read($"wireup: 1\nname: Blades\nlongest-train: 0.5 m\nmax-feeder-distance: 5 m\n{rest}\n", "blades")).Where(finding => finding.Code == code);
}
