using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>Hand switches, what conducts in one position only, and what a district's power is for.</summary>
public sealed class SwitchReadingTests
{
    private const string Text = """
        wireup: 1
        name: Two cabs
        control: direct
        longest-train: 1 m
        track:
          main: { length: 4 m }
          T1: { turnout: left }
          TT: { turntable: 4, length: 300 }
        joined:
          - main > T1.points
          - T1.through > TT.t1
        wiring:
          boosters:
            cab-a: { amps: 1 A }
            cab-b: { amps: 1 A, isolated: false }
          districts:
            a: { booster: cab-a, trip: 1 A }
            b: { booster: cab-b, trip: 1 A, use: programming }
            c: { booster: cab-b, trip: 1 A, use: accessories, reversing: false }
          switches:
            B1: [cab-a, cab-b, off]   # on the fascia
            "2": [1, 2]
          feeders:
            f1: { at: main@1 m, bus: cab-a, district: a, wire: 20 AWG, length: 200, when: B1.cab-a }
            f2: { at: TT@150, bus: cab-b, district: b, wire: 20 AWG, length: 200, swap: true, when: 2.1 }
          gaps:
            - { at: main@100, rails: left, bridged-when: B1.off }
            - { at: T1.through, bridged-when: T1.through }
            - { at: TT@-100, bridged-when: TT.t3 }

        """;

    [Fact]
    public void Switches_have_their_positions_in_order() =>
        Assert.Equal(["B1: cab-a cab-b off", "2: 1 2"], Read(Text).Wiring.Switches.Select(hand => $"{hand.Name}: {string.Join(' ', hand.Positions)}"));

    [Fact]
    public void Feeders_and_gaps_name_the_position_in_which_they_conduct()
    {
        Wiring wiring = Read(Text).Wiring;
        Assert.Equal(["B1.cab-a", "2.1"], wiring.Feeders.Select(feeder => feeder.When.ToString()));
        Assert.Equal(["B1.off", "T1.through", "TT.t3"], wiring.Gaps.Select(gap => gap.BridgedWhen.ToString()));
    }

    [Fact]
    public void Places_on_a_bridge_count_from_its_head_or_back_from_its_tail()
    {
        Wiring wiring = Read(Text).Wiring;
        Assert.Equal(new TrackPlace(new("TT"), 0.15), wiring.Feeders[1].At);
        Assert.Equal(new GapPlace.InSection(new(new("TT"), 0.2)), wiring.Gaps[2].At);
    }

    [Fact]
    public void Cabs_are_isolated_unless_told_otherwise_and_power_is_for_trains()
    {
        Wiring wiring = Read(Text).Wiring;
        Assert.Equal([true, false], wiring.Boosters.Select(booster => booster.Isolated));
        Assert.Equal([DistrictUse.Running, DistrictUse.Programming, DistrictUse.Accessories], wiring.Districts.Select(district => district.Use));
    }

    [Fact]
    public void The_phase_of_an_alternating_controller_is_read()
    {
        string text = Text.Replace("direct", "three-rail", StringComparison.Ordinal).Replace("rails: left", "rails: centre", StringComparison.Ordinal)
            .Replace("isolated: false", "phase: turned", StringComparison.Ordinal).Replace("cab-a: { amps: 1 A }", "cab-a: { amps: 1 A, phase: same }", StringComparison.Ordinal);
        Assert.Equal([false, true], Read(text).Wiring.Boosters.Select(booster => booster.PhaseTurned));
    }

    [Fact]
    public void It_is_written_back_the_same()
    {
        Layout layout = Read(Text);
        string written = LayoutFile.Write(layout);
        Assert.Equal(Dump.Of(layout), Dump.Of(Read(written)));
        Assert.Contains("switches: { B1: [cab-a, cab-b, \"off\"], \"2\": [\"1\", \"2\"] }", written, StringComparison.Ordinal);
    }

    [Fact]
    public void Ends_and_positions_that_look_like_numbers_are_written_in_quotes()
    {
        string written = LayoutFile.Write(Read("""
            wireup: 1
            name: x
            longest-train: 1 m
            track: { "1": { transfer-table: 5, length: 300 }, s: { length: 1 m } }
            joined: [ s > 1.e5 ]
            wiring: { gaps: [ { at: 1.e5, bridged-when: 1.2 } ] }

            """));
        Assert.Contains("{ at: \"1.e5\", rails: both, bridged-when: \"1.2\" }", written, StringComparison.Ordinal);
        Assert.Equal(new Setting(new("1"), "2"), Assert.Single(Read(written).Wiring.Gaps).BridgedWhen);
    }

    [Fact]
    public void A_switch_is_added_before_what_it_switches()
    {
        LayoutDocument document = LayoutDocument.Open(Text, "test");
        Wiring wiring = document.Reading.Layout!.Wiring;
        LayoutDocument grown = document.WithWiring(wiring with
        {
            Switches = [.. wiring.Switches, new Switch(new("B2"), ["on", "off"])],
            Feeders = [.. wiring.Feeders, wiring.Feeders[0] with { Name = "f3", When = new Setting(new("B2"), "on") }],
        });
        Assert.Contains("    B1: [cab-a, cab-b, off]   # on the fascia\n    \"2\": [1, 2]\n    B2: [\"on\", \"off\"]\n", grown.Text, StringComparison.Ordinal);
        Assert.Contains("when: B2.on }\n", grown.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_switch_cannot_change_its_positions_by_adding()
    {
        LayoutDocument document = LayoutDocument.Open(Text, "test");
        Wiring wiring = document.Reading.Layout!.Wiring;
        Wiring changed = wiring with { Switches = [wiring.Switches[0], wiring.Switches[1] with { Positions = ["1", "2", "3"] }] };
        Assert.Throws<ArgumentException>(() => document.WithWiring(changed));
    }

    private static Layout Read(string text)
    {
        LayoutReading reading = LayoutFile.Read(text, "test");
        Assert.Equal([], reading.Problems.Select(problem => problem.ToString()));
        return reading.Layout!;
    }
}
