using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Exact;

/// <summary>What a readings file says, and what is wrong with one: the mark § stands in front of the fault, and is taken out before reading.</summary>
public sealed class ReadingsFileTests
{
    /// <summary>The list of readings with one reading.</summary>
    private static string One(string reading) => $"readings:\n  - {{ {reading} }}\n";

    /// <summary>Readings and how they are said in a few words.</summary>
    public static TheoryData<string, string> Readings => new()
    {
        { "volts: 14.1 V, at: loop@1 m", "14.1 V at loop@1 m" },
        { "volts: 0 V, at: spur@-200", "0 V at spur@1 m" },
        { "volts: 6.3 V, at: loop@1 m, load: 0.5 A", "6.3 V at loop@1 m under 0.5 A" },
        { "volts: 6 V, at: loop@1 m, load: 12 ohm", "6 V at loop@1 m under 12 ohm" },
        { "volts: 6 V, at: loop@1 m, load: { at: spur@1 m, ohms: 12 ohm }", "6 V at loop@1 m under 12 ohm at spur@1 m" },
        { "volts: 6.3 V, at: P1, load: { at: spur.b, amps: 1 A }", "6.3 V at P1 under 1 A at spur.b" },
        { "volts: 12 V, at: breaker east", "12 V at breaker east" },
        { "volts: 12 V, at: east", "12 V at breaker east" },
        { "volts: 12 V, at: main", "12 V at booster main" },
        { "volts-along: 42 mV, from: loop.b/left, to: T1.points/right, load: { at: spur@1 m, amps: 0.5 A }", "42 mV from loop.b/left to T1.points/right under 0.5 A at spur@1 m" },
        { "ohms: 0.4 ohm, from: f1/A, to: loop@1 m/left, power: off", "0.4 ohm from f1/A to loop@1 m/left" },
        { "ohms: open, from: feeder f2/B, to: bus f2/B, power: off", "no continuity from f2/B to f2/B" },
        { "ohms: 220 kohm, from: P1/A, to: P1/B, power: off", "220 kohm from P1/A to P1/B" },
        { "continuity: yes, from: T1/frog, to: booster other/A, power: off, turnouts: { T1: diverging }", "continuity from T1/frog to booster other/A when T1.diverging" },
        { "continuity: no, from: W/frog-1-3, to: breaker other/B, power: off", "no continuity from W/frog-1-3 to breaker other/B" },
        { "amps: 1.2 A, in: f1/B, load: { at: loop@1 m, amps: 2 A }", "1.2 A in f1/B under 2 A at loop@1 m" },
        { "runs: stops, at: loop@1.5 m, locomotive: switcher", "stops at loop@1.5 m with switcher" },
        { "runs: runs, at: T1.diverging, turnouts: { T1: diverging }, switches: { S1: off }", "runs at T1.diverging when S1.off, T1.diverging" },
        { "breaker: trips, district: east", "breaker of east trips" },
        { "breaker: holds, district: east, supply: { booster: main, volts: 12 V, amps: 1 A }", "breaker of east holds fed with 12 V up to 1 A at booster main" },
        { "pressed: T1.through", "pressing at T1.through helps" },
        { "pressed: loop@0.2 m, worked: no", "pressing at loop@0.2 m does not help" },
    };

    /// <summary>Text, code, offending text, and a part of what is expected.</summary>
    public static TheoryData<string, string, string, string> Faults => new()
    {
        { "§", "WU1005", "", "readings:" },
        { "§layout: x\n", "WU1007", "", "readings:" },
        { "§reading: []\n" + One("pressed: T1.points"), "WU1006", "reading", "\"readings\"" },
        { "wireup: §2\n" + One("pressed: T1.points"), "WU1008", "2", "1" },
        { "date: §1.3.2026\n" + One("pressed: T1.points"), "WU1011", "1.3.2026", "2026-03-01" },
        { "meter: { §volt: 1 % }\n" + One("pressed: T1.points"), "WU1006", "volt", "\"volts\"" },
        { "meter: { volts: §60 % }\n" + One("pressed: T1.points"), "WU1013", "60 %", "50 %" },
        { "tools: [volts, §lamp]\n" + One("pressed: T1.points"), "WU1010", "lamp", "\"clamp\"" },
        { "tools: [§[volts]]\n" + One("pressed: T1.points"), "WU1005", "", "\"volts\"" },
        { "readings:\n  - §6.3 V at loop@1 m\n", "WU1005", "6.3 V at loop@1 m", "a mapping such as" },
        { "readings:\n  - §{ at: loop@1 m }\n", "WU1007", "", "\"volts\", \"volts-along\"" },
        { "readings:\n  - §{ volts: 1 V, ohms: 1 ohm, at: loop@1 m }\n", "WU1023", "", "a line of its own" },
        { "readings:\n  - §{ volts: 6 V }\n", "WU1007", "", "at:" },
        { "readings:\n  - §{ ohms: 1 ohm, from: f1/A, to: P1/A }\n", "WU1007", "", "power" },
        { One("volts: §6, at: loop@1 m"), "WU1012", "6", "14.5 V" },
        { One("volts: §230 V, at: loop@1 m"), "WU1013", "230 V", "low voltage only" },
        { One("volts: §-6 V, at: loop@1 m"), "WU1013", "-6 V", "without sign" },
        { One("volts: 6 V, at: §lop@1 m"), "WU1016", "lop", "\"loop\"" },
        { One("volts: 6 V, at: loop@§3 m"), "WU1020", "3 m", "from 0 to 2 m" },
        { One("volts: 6 V, at: §T1"), "WU1017", "T1", "\"T1.points\"" },
        { One("volts: 6 V, at: T1.§point"), "WU1017", "point", "\"points\"" },
        { One("volts: 6 V, at: §P9"), "WU1016", "P9", "\"P1\"" },
        { One("volts: 6 V, at: §breaker eest"), "WU1016", "eest", "\"east\"" },
        { One("volts: 6 V, at: §other"), "WU1015", "other", "\"breaker other\" or \"booster other\"" },
        { One("volts: 6 V, at: loop@1 m, §laod: 1 A"), "WU1006", "laod", "\"load\"" },
        { One("volts: 6 V, at: loop@1 m, load: §big"), "WU1011", "big", "0.25 A" },
        { One("volts: 6 V, at: loop@1 m, load: { at: loop@0.5 m, ohms: 12 ohm, §amps: 1 A }"), "WU1023", "amps", "one of the two" },
        { One("volts-along: 1 V, from: §loop, to: P1/A"), "WU1011", "loop", "loop@2.7 m/left" },
        { One("volts-along: 1 V, from: loop@1 m/§A, to: P1/A"), "WU1010", "A", "\"left\" or \"right\"" },
        { One("volts-along: 1 V, from: P1/§left, to: P1/A"), "WU1010", "left", "\"A\" or \"B\"" },
        { One("volts-along: 1 V, from: §f2/A, to: P1/A"), "WU1015", "f2", "\"feeder f2\" or \"bus f2\"" },
        { One("volts-along: 1 V, from: §T2/frog, to: P1/A"), "WU1016", "T2", "live frogs" },
        { One("volts-along: 1 V, from: W/§frog, to: P1/A"), "WU1010", "frog", "frog-1-2" },
        { One("volts-along: 1 V, from: P1/B, to: P1/A, load: §0.5 A"), "WU1007", "0.5 A", "at: loop@1 m" },
        { One("ohms: 1 ohm, from: f1/A, to: P1/A, power: §on"), "WU1010", "on", "\"off\"" },
        { One("continuity: §maybe, from: f1/A, to: P1/A, power: off"), "WU1010", "maybe", "\"yes\" or \"no\"" },
        { One("amps: 1 A, in: §P1/A"), "WU1016", "P1/A", "f1/A" },
        { One("runs: §stop, at: loop@1 m"), "WU1010", "stop", "\"stops\"" },
        { One("runs: stops, at: loop@1 m, locomotive: §switchr"), "WU1016", "switchr", "\"switcher\"" },
        { One("breaker: trips, district: §eest"), "WU1016", "eest", "\"east\"" },
        { One("pressed: T1.points, turnouts: { §loop: in }"), "WU1028", "loop", "\"T1\"" },
        { One("pressed: T1.points, turnouts: { T1: §straight }"), "WU1028", "straight", "\"through\"" },
        { One("pressed: T1.points, turnouts: { T1: §[through] }"), "WU1005", "", "diverging" },
        { One("pressed: T1.points, supply: { booster: §man, volts: 12 V, amps: 1 A }"), "WU1016", "man", "\"main\"" },
        { One("pressed: T1.points, §supply: { volts: 12 V, amps: 1 A }"), "WU1007", "", "booster:" },
    };

    [Theory]
    [MemberData(nameof(Readings))]
    public void A_reading_says_what_was_read(string reading, string words)
    {
        ReadingsReading read = ReadingsFile.Read(MeasuredLayout.Layout, One(reading), "test");
        Assert.Equal([], read.Problems.Select(problem => problem.ToString()));
        MeterReading one = Assert.Single(read.Readings!.Readings);
        Assert.Equal(words, one.ToString());
        Assert.Equal(2, one.Line);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_fault_is_told_at_its_place(string marked, string code, string text, string expected)
    {
        Marked given = Marked.Parse(marked);
        ReadingsReading read = ReadingsFile.Read(MeasuredLayout.Layout, given.Text, "test");
        LayoutProblem problem = Assert.Single(read.Problems);
        Assert.Equal((code, given.Line, given.Column, text), (problem.Code, problem.Line, problem.Column, problem.Text));
        Assert.Contains(expected, problem.Expected, StringComparison.Ordinal);
        Assert.Null(read.Readings);
    }

    [Theory]
    [MemberData(nameof(Readings))]
    public void What_a_reading_says_of_itself_is_read_as_the_same_reading(string reading, string words)
    {
        MeterReading one = Assert.Single(ReadingsFile.Read(MeasuredLayout.Layout, One(reading), "test").Readings!.Readings);
        if (words.Contains("f2/", StringComparison.Ordinal))
        {
            Assert.Contains("more than one thing", LayoutWords.Sentence(MeasuredLayout.Layout, words).Trouble, StringComparison.Ordinal);
            return;
        }

        ReadingRead again = LayoutWords.Sentence(MeasuredLayout.Layout, words);
        Assert.Null(again.Trouble);
        Assert.Equal(Dump.Of(one with { Line = 0 }), Dump.Of(again.Value));
    }

    [Theory]
    [InlineData("loop@1 m=6.3 V", "6.3 V at loop@1 m")]
    [InlineData("loop@1 m = 6.3 V under 0.5 A", "6.3 V at loop@1 m under 0.5 A")]
    [InlineData("loop@1 m=6 V under 12 ohm when T1.diverging", "6 V at loop@1 m under 12 ohm when T1.diverging")]
    [InlineData("f1/A > loop@1 m/left=0.4 ohm", "0.4 ohm from f1/A to loop@1 m/left")]
    [InlineData("f1/A > loop@1 m/left=open", "no continuity from f1/A to loop@1 m/left")]
    [InlineData("loop.b/left > T1.points/right=40 mV under 1 A at spur@1 m", "40 mV from loop.b/left to T1.points/right under 1 A at spur@1 m")]
    [InlineData("f1/A=1.2 A under 2 A at P1", "1.2 A in f1/A under 2 A at P1")]
    [InlineData("stalls  at spur@1 m with switcher when T1.diverging, S1.off", "stops at spur@1 m with switcher when S1.off, T1.diverging")]
    [InlineData("short in east when W.left", "breaker of east trips when W.left")]
    [InlineData("no short in east", "breaker of east holds")]
    public void The_short_way_says_the_same(string typed, string words) =>
        Assert.Equal((words, null), (LayoutWords.Sentence(MeasuredLayout.Layout, typed).Value?.ToString(), LayoutWords.Sentence(MeasuredLayout.Layout, typed).Trouble));

    [Theory]
    [InlineData("loop@1 m=6.3", "\"6.3\" has no unit")]
    [InlineData("lop@1 m=6.3 V", "there is no piece \"lop\"; expected \"loop\"")]
    [InlineData("6.3 V at loop@1 m under lots", "\"lots\" is not a current")]
    [InlineData("40 mV from P1/A to P1/B under 0.5 A", "does not say where the load stands")]
    [InlineData("1 A in P1/A", "\"P1/A\" is not a single wire")]
    [InlineData("stops at loop@1 m with mallet", "there is no locomotive \"mallet\"")]
    [InlineData("stops at loop@1 m when T1.straight", "\"T1\" has no position \"straight\"")]
    [InlineData("short in west", "there is no district \"west\"; expected \"east\"")]
    [InlineData("12 V at loop@1 m fed with 12 V", "is no limited supply")]
    [InlineData("pressing at loop@1 m is fun", "is no reading; expected a sentence such as")]
    [InlineData("it is all broken", "is no reading; expected a sentence such as")]
    public void What_is_no_reading_says_why(string typed, string trouble)
    {
        Assert.Null(LayoutWords.Sentence(MeasuredLayout.Layout, typed).Value);
        Assert.Contains(trouble, LayoutWords.Sentence(MeasuredLayout.Layout, typed).Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_file_says_once_holds_for_every_reading_that_says_nothing_else()
    {
        ReadingSet set = ReadingsFile.Read(MeasuredLayout.Layout, """
            wireup: 1
            layout: test.layout.yaml
            date: 2026-03-01
            meter: { volts: 0.5 %, amps: 2 % }
            tools: [volts, clamp]
            load-box: 1.5 A
            turnouts: { T1: diverging, W: right }
            supply: { booster: main, volts: 12 V, amps: 1 A }
            readings:
              - { volts: 11 V, at: loop@1 m }
              - { volts: 12 V, at: loop@1 m, turnouts: { T1: through }, supply: none }
            """, "test").Readings!;
        Assert.Equal(("test.layout.yaml", new DateOnly(2026, 3, 1), ReadingTools.Volts | ReadingTools.Clamp, 1.5), (set.LayoutFile, set.Date, set.Tools, set.LoadBox.Amperes));
        Assert.Equal((0.5, 1.5, 2.0), (set.Meter.Volts.Percent, set.Meter.Ohms.Percent, set.Meter.Amps.Percent));
        Assert.Equal(
            ["11 V at loop@1 m when T1.diverging, W.right fed with 12 V up to 1 A at booster main", "12 V at loop@1 m when T1.through, W.right"],
            set.Readings.Select(reading => reading.ToString()));
    }

    [Fact]
    public void A_place_gives_the_points_on_both_of_its_conductors()
    {
        (ReadingPoint first, ReadingPoint second) = new ReadingPlace.AtEnd(new(new("T1"), "points")).Points(ControlSystem.Command);
        Assert.Equal(("T1.points/left", "T1.points/right"), (first.ToString(), second.ToString()));
        (first, second) = new ReadingPlace.Along(new(new("loop"), 0.5)).Points(ControlSystem.ThreeRail);
        Assert.Equal(("loop@0.5 m/centre", "loop@0.5 m/running"), (first.ToString(), second.ToString()));
        (first, second) = new ReadingPlace.AtBus("east", "P1").Points(ControlSystem.Command);
        Assert.Equal(("P1/A", "P1/B"), (first.ToString(), second.ToString()));
    }

    [Fact]
    public void Without_more_the_meter_is_an_ordinary_one_and_the_load_a_lamp() =>
        Assert.Equal((1.0, 1.5, 3.0, 0.5), (MeterAccuracy.Usual.Volts.Percent, MeterAccuracy.Usual.Ohms.Percent, MeterAccuracy.Usual.Amps.Percent, ReadingSet.None.LoadBox.Amperes));

    [Fact]
    public void A_file_of_too_many_readings_is_refused()
    {
        string text = "readings:\n" + string.Concat(Enumerable.Repeat("  - { pressed: T1.points }\n", ReadingsFile.MostReadings + 1));
        LayoutProblem problem = Assert.Single(ReadingsFile.Read(MeasuredLayout.Layout, text, "test").Problems);
        Assert.Equal(("WU1002", ReadingsFile.MostReadings + 2), (problem.Code, problem.Line));
    }

    [Fact]
    public void A_resistor_draws_the_full_volts_over_its_ohms()
    {
        MeterReading reading = Assert.Single(ReadingsFile.Read(MeasuredLayout.Layout, One("volts: 0 V, at: loop@1 m, load: 12 ohm"), "test").Readings!.Readings);
        ReadingLoad load = ((MeterReading.Volts)reading).Load!;
        Assert.Equal(MeasuredLayout.Layout.Wiring.Boosters[0].Volts.Volts / 12, load.Amps.Amperes, 1e-12);
        Assert.Equal(12, load.Resistance!.Value.Ohms);
    }
}
