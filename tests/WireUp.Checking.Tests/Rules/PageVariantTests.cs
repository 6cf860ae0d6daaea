namespace WireUp.Checking.Tests.Rules;

/// <summary>
/// The layouts of the finding pages with one thing changed: just at a limit and just beyond it, and each way in which a rule can word what
/// it found. The limits are those that the pages name, with their sources.
/// </summary>
public sealed class PageVariantTests
{
    private const string None = "";

    /// <summary>Page and example, what is written in place of what, and what the page's rule then says: nothing, or severity, message and remedy with this in it.</summary>
    public static TheoryData<string, string, string> Rows => new()
    {
        // 0.5 mm² carries 3 A in a bus, and 5 A in a feeder of at most 300 mm.
        { "WU4004 faulty", "trip: 4 A => trip: 3 A", None },
        { "WU4004 faulty", "trip: 4 A => trip: 3.01 A", "warning: Bus run \"main > P1\" of district \"shelf\"" },
        { "WU4004 faulty", "wire: 0.5 mm2, runs => wire: 2.5 mm2, runs | trip: 4 A => trip: 5 A | length: 250 => length: 300", None },
        { "WU4004 faulty", "wire: 0.5 mm2, runs => wire: 2.5 mm2, runs | trip: 4 A => trip: 5.01 A | length: 250 => length: 300", "can carry 5 A, and the breaker before it trips at 5.01 A only. Use thicker wire there, or set the breaker to 5 A or less." },
        { "WU4004 faulty", "wire: 0.5 mm2, runs => wire: 2.5 mm2, runs | length: 250 => length: 301", "warning: Feeder \"f1\" of district \"shelf\"" },
        { "WU4004 faulty", "wire: 0.5 mm2, runs => wire: 2.5 mm2, runs | length: 250 => length: 301", "can carry 3 A, and the breaker before it trips at 4 A only." },
        { "WU4004 faulty", "[ main > P1 2 m ] => [ main > P1 2 m, P1 > P2 1 m ]", "Bus runs \"main > P1\" and \"P1 > P2\"" },

        // 1.2 A and a quarter more are 1.5 A to carry: a breaker of 1.5 times that, a booster of which that is 0.8.
        { "WU4005 faulty", "trip: 1.5 A => trip: 2.25 A", None },
        { "WU4005 faulty", "trip: 1.5 A => trip: 2.24 A", "has to carry 1.5 A, and its breaker trips at 2.24 A, less than 1.5 times that. Divide district \"shelf\", or set its breaker to 2.25 A or more" },
        { "WU4005 corrected", "amps: 5 A => amps: 1.875 A", None },
        { "WU4005 corrected", "amps: 5 A => amps: 1.87 A", "The districts of booster \"main\" have to carry 1.5 A together, more than 0.8 times its 1.87 A. Give some of the districts of \"main\" a booster of their own." },
        { "WU4005 corrected", "  bus: =>     yard: { booster: spare, trip: 0.4 A }\n  bus: |   districts: =>     spare: { amps: 0.5 A }\n  districts:", None }, // nothing feeds it

        // A breaker opens again where a single train draws too much, or all that stand there; so does a booster.
        { "WU4014 faulty", "  moving-at-once =>   trains: { local: { locomotives: [switcher], length: 0.2 m } }\n  moving-at-once | 4700 uF => 47000 uF | charging: 10 ohm => charging: 1 ohm", "warning: When the breaker of district \"shelf\" closes again with train \"local\" alone behind it" },
        { "WU4014 faulty", "count: 12 => count: 3", None },
        { "WU4014 faulty", "  shelf: { length: 2 m } =>   shelf: { length: 2 m }\n  yard: { length: 2 m } | amps: 5 A => amps: 5 A, delay: 20 ms | trip: 4 A => trip: 40 A |   bus: =>     yard: { booster: main, trip: 40 A }\n  bus:\n    yard: { wire: 2.5 mm2, runs: [ main > P2 2 m ] } |   feeders: =>   feeders:\n    f2: { at: yard@1 m, bus: P2, wire: 0.5 mm2, length: 250 }", "advice: When booster \"main\" closes again, 12 locomotives" },

        // Two boosters of different volts, either of them the higher one; half an ampere is borne.
        { "WU4020 faulty", "volts: 15 V => volts: 13 V", "from \"east\" to \"west\", whose volts are 1 V apart." },
        { "WU4020 faulty", "volts: 15 V => volts: 14.4 V", None },
        { "WU4020 faulty", "    f2: =>     f3: { at: west@1.5 m, bus: P1, wire: 0.5 mm2, length: 250, swap: true }\n    f2:", None }, // shorted: no volts are reckoned

        // Supplies are told in watts, those of alternating current in volt-amperes.
        { "WU5001 faulty", "15 V dc => 15 V ac", "(15 V, 90 VA) is not energy-limited." },

        // The frogs of a single slip.
        { "WU2005 faulty", "slip: double => slip: single", "so a train that takes the slip road a1-b2 shorts at them." },

        // 5 A are usual at most in HO.
        { "WU4006 faulty", "trip: 8 A => trip: 5 A", None },
        { "WU4006 faulty", "trip: 8 A => trip: 5.01 A", "trips at 5.01 A, above the 5 A that are usual at most in scale HO." },

        // A breaker of several behind a booster of 5 A trips at 4 A or less; between 4 and 5 A it is advice.
        { "WU4007 faulty", "trip: 5 A => trip: 4 A", None },
        { "WU4007 faulty", "trip: 5 A => trip: 4.1 A", "advice: The breaker of district \"west\" trips at 4.1 A, more than 0.8 times the 5 A" },
        { "WU4007 faulty", "trip: 5 A => trip: 4.99 A", "advice: The breaker" },
        { "WU4007 faulty", "trip: 5 A => trip: 5 A", "warning: The breaker" },
        { "WU4007 faulty", "trip: 5 A => trip: 5 A", "Set the breaker of \"west\" to 4 A or less." },

        // A supply gives 1.1 times what its boosters shut down at: 82.5 W at 15 V for 5 A.
        { "WU4009 faulty", "rating: 60 W => rating: 82.5 W", None },
        { "WU4009 faulty", "rating: 60 W => rating: 82.4 W", "gives 5.49 A, less than 1.1 times the 5 A at which its boosters shut down. Use a supply of 5.5 A or more" },
        { "WU4009 faulty", "supply: brick,  => ", None },
        { "WU4009 faulty", "rating: 60 W => rating: 82.5 W | resistance: 0.1 ohm } => resistance: 0.1 ohm }\n    other: { supply: brick, volts: 15 V, amps: 1 A }", "less than 1.1 times the 6 A" },

        // 2 m to either end of the section from the feeder in its middle.
        { "WU4008 faulty", "max-feeder-distance: 1 m => max-feeder-distance: 2 m", None },
        { "WU4008 faulty", "max-feeder-distance: 1 m => max-feeder-distance: 1.9 m", "1 section (\"shelf\") lies in part farther than 1.9 m from any feeder" },
        { "WU4008 faulty", "max-feeder-distance: 1 m => max-feeder-distance: 2.9 m | shelf@2 m => shelf@1 m", "the farthest place, \"shelf@4 m\", is 3 m away. Put a feeder at \"shelf@4 m\"." },
        { "WU4008 faulty", "max-feeder-distance: 1 m => max-feeder-distance: 3 m | shelf@2 m => shelf@1 m", None },

        // A booster waits 300 ms: a breaker that takes half of it is in order, more is advice, as long or longer a warning.
        { "WU4012 faulty", "delay: 400 ms => delay: 150 ms", None },
        { "WU4012 faulty", "delay: 400 ms => delay: 160 ms", "advice: A short of" },
        { "WU4012 faulty", "delay: 400 ms => delay: 299 ms", "advice: A short of" },
        { "WU4012 faulty", "delay: 400 ms => delay: 300 ms", "warning: A short of" },
        { "WU4012 faulty", "delay: 400 ms => delay: 400 ms", "Set the breaker of \"west\" to 150 ms or less, or the booster to 800 ms or more." },

        // 60 mm is the wheel base; the gaps lie at 1.8 m less what stands here.
        { "WU3024 faulty", "loop-1@1760 => loop-1@1740", None },
        { "WU3024 faulty", "loop-1@1760 => loop-1@1741", "there are 59 mm of fixed track" },
        { "WU3024 faulty", "loop-1@1760 => loop-1@1700 | longest-train: 1.2 m => longest-train: 1.2 m\nstock: { locomotives: { twin: { pickup: 120 } } }", "the longest pick-up wheel base in the file is 120 mm" },

        // 60 mm of wheel base and 50 mm of margin.
        { "WU3023 corrected", "buffer: { length: 400 } => buffer: { length: 110 } | buffer@200 => buffer@50", None },
        { "WU3023 corrected", "buffer: { length: 400 } => buffer: { length: 109 } | buffer@200 => buffer@50", "there is 109 mm of dead track while \"K1\" is set to program, less than the 60 mm of the longest pick-up wheel base in the file and 50 mm." },
        { "WU3023 corrected", "buffer: { length: 400 } => buffer: { length: 109 } | buffer@200 => buffer@50", "warning: Between" },
        { "WU3023 corrected", "trip: 2.5 A } => trip: 2.5 A, reversing: true }", "warning: The nearest running track to programming district \"bench\" is reversing district \"town\"" },
        { "WU3023 faulty", ", when: K1.program =>  | f4: { at: bench@300, bus: P1, wire: 20 AWG, length: 200, when: K1.run } => f4: { at: main-2@700, bus: P1, wire: 20 AWG, length: 200 }", "error: Between" },

        // 1.5 m before the edge in HO, by the gauge in other scales: 0.818 m in N.
        { "WU5005 corrected", "near: { length: 1600 } => near: { length: 1500 }", None },
        { "WU5005 corrected", "near: { length: 1600 } => near: { length: 1499 }", "keeps its current, 1.5 m before the edge \"bridge.a\"; a train needs 1.5 m to stop." },
        { "WU5005 corrected", "near: { length: 1600 } => near: { length: 819 } | name: => scale: N\nname:", None },
        { "WU5005 corrected", "near: { length: 1600 } => near: { length: 817 } | name: => scale: N\nname:", "a train needs 818 mm to stop." },

        // A switch is defeated where every rail that its gap cuts gets current otherwise.
        { "WU5004 faulty", "length: 200 }\n  gaps => length: 200, when: S1.off }\n  gaps", None },
        { "WU5004 faulty", "rails: left => rails: right", "Switch \"S1\" does not turn off the track beyond the gap \"main.b\": feeder \"f2\" feeds it always." },
        { "WU5004 faulty", "rails: left => rails: both", "Take off feeder \"f2\" or move it" },
        { "WU5004 faulty", "at: main.b => at: shed@100", "the track beyond the gap \"shed@0.1 m\"" },
        { "WU5004 corrected", "length: 200 }\n  gaps => length: 200 }\n    f2: { at: shed@300, bus: P1, wire: 20 AWG, length: 200, when: S1.on }\n  gaps", None },
        { "WU5004 corrected", "S1: [on, off] => S1: [on, off]\n    S2: [on, off] | length: 200 }\n  gaps => length: 200 }\n    f2: { at: shed@300, bus: P1, wire: 20 AWG, length: 200, when: S2.on }\n  gaps", "feeder \"f2\" feeds it too when \"S2\" is set to on." },

        // Power for accessories: never on the rails; under direct control on a supply of its own.
        { "WU5003 faulty", "bus: Q1 => bus: Q1", "error: Feeder \"f2\" brings district \"points\", which is for accessories, to the rails at \"main@1.5 m\"." },
        { "WU5003 corrected", "longest => control: direct\nlongest", None },
        { "WU5003 corrected", "longest => control: direct\nlongest | points: { booster: points => points: { booster: station | points > Q1 => station > Q1", "warning: District \"points\", which is for accessories, shares controller \"station\" with district \"town\"" },
        { "WU5003 corrected", "points: { booster: points => points: { booster: station | points > Q1 => station > Q1", None },
        { "WU5003 corrected", "longest => control: direct\nlongest | amps: 5 A => amps: 5 A, isolated: false | amps: 2 A => amps: 2 A, isolated: false", "shares a side of its output with district \"town\"" },
        { "WU5003 corrected", "longest => control: direct\nlongest | amps: 5 A => amps: 5 A, isolated: false", None },
        { "WU5003 corrected", "longest => control: direct\nlongest | amps: 2 A => amps: 2 A, isolated: false", None },

        // 120 mm of dead rail: whatever is longer bridges it, and the shortest that does is named.
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 121 } } }\nlongest", "error: From gap \"loop-1@1.7 m\" to gap \"loop-2@0.02 m\" it is 120 mm of dead rail" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 121 } } }\nlongest", "which engine \"shunter\" with a pick-up wheel base of 121 mm bridges" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 }, goods: { pickup: 300 }, tram: { pickup: 200 } } }\nlongest", "which engine \"tram\" with" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 } } }\nlongest", "warning: From gap" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 } } }\nlongest", "which a train of 1.2 m with metal wheels bridges" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 } }, trains: { local: { locomotives: [shunter], lit-cars: 1, length: 0.9 m } } }\nlongest", "which a lit car with pick-ups some 248 mm apart bridges" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 } }, trains: { local: { locomotives: [shunter], lit-cars: 1, length: 0.9 m } } }\nlongest", "warning: From gap" },
        { "WU3016 faulty", "longest => stock: { locomotives: { shunter: { pickup: 119 } }, trains: { local: { locomotives: [shunter], length: 0.9 m } } }\nlongest", "which a train of 1.2 m" },

        // One rail cut, the rail opposite left: that rail is named, in a joint or within a section.
        { "WU3004 faulty", "f1: => f1:", "error: Districts \"shore\" and \"town\" are joined by both rails, between feeders" },
        { "WU3004 faulty", "f1: => f1:", "Cut gaps in both rails between \"f2\" and \"f1\", at one place." },
        { "WU3004 faulty", "  feeders =>   gaps: [ { at: west.b, rails: left } ]\n  feeders", "warning: Districts \"shore\" and \"town\" are joined by a rail, between feeders" },
        { "WU3004 faulty", "  feeders =>   gaps: [ { at: west.b, rails: left } ]\n  feeders", "Cut the rail \"east.a/left\" too, opposite the gap that is there." },
        { "WU3004 faulty", "  feeders =>   gaps: [ { at: east@100, rails: right } ]\n  feeders", "Cut the rail \"east@0.1 m/left\" too, opposite the gap that is there." },
        { "WU3022 faulty", "f1: => f1:", "Cut the rail \"" },

        // Cabs on a common rail: at most one of them may share a side of its output.
        { "WU3018 faulty", "cab-a: { volts: 12 V, amps: 1.5 A, isolated: false } => cab-a: { volts: 12 V, amps: 1.5 A }", None },
        { "WU3018 faulty", "cab-b: { volts: 12 V, amps: 1.5 A, isolated: false } => cab-b: { volts: 12 V, amps: 1.5 A }", None },
    };

    [Theory]
    [MemberData(nameof(Rows))]
    public void Rule_of_a_page_says_of_its_changed_layout(string example, string edits, string expected)
    {
        string text = ExampleLayouts.OfPages.Single(page => page.Name == example).Text;
        foreach (string[] edit in edits.Split(" | ").Select(edit => edit.Split(" => ")))
        {
            Assert.Contains(edit[0], text, StringComparison.Ordinal);
            text = text.Replace(edit[0], edit[1], StringComparison.Ordinal);
        }

        string[] found =
        [
            .. Checks.Of(Checks.Read(text, example)).Where(finding => finding.Code == example.Split(' ')[0])
                .Select(finding => $"{finding.Severity.Word()}: {finding.Message} {finding.Remedy}"),
        ];
        if (expected.Length == 0)
        {
            Assert.Empty(found);
        }
        else
        {
            Assert.Contains(found, said => said.Contains(expected, StringComparison.Ordinal));
        }
    }
}
