using WireUp.Layouts.Tests.Support;

namespace WireUp.Layouts.Tests.Exact;

public sealed class FaultLogFileTests
{
    private static readonly LoggedFault Jumper =
        new("joint a.b–c.a, left rail", FaultElementKind.Joiner, new(2026, 3, 1), "soldered a jumper: \"20 AWG\"") { State = FaultState.HighResistance, Readings = ["6.3 V at a@1 m under 0.5 A"] };

    private static readonly LoggedFault Tap = new("tap of feeder f1 at P1, leg A", FaultElementKind.Tap, new(2026, 4, 2), "remade");

    /// <summary>A log with the mark § in front of what is wrong; code, and a part of what is expected.</summary>
    public static TheoryData<string, string, string> Faults => new()
    {
        { "§fault: []\n", "WU1006", "\"faults\"" },
        { "faults: [ §joint ]\n", "WU1005", "\"part\"" },
        { "faults: [ §{ kind: joiner, date: 2026-03-01, cure: x } ]\n", "WU1007", "part:" },
        { "faults: [ §{ part: p, date: 2026-03-01, cure: x } ]\n", "WU1007", "\"joiner\"" },
        { "faults: [ { part: p, kind: §joint, date: 2026-03-01, cure: x } ]\n", "WU1010", "\"joiner\"" },
        { "faults: [ { part: p, kind: joiner, state: §opened, date: 2026-03-01, cure: x } ]\n", "WU1010", "\"open\"" },
        { "faults: [ { part: p, kind: joiner, date: §2026-13-01, cure: x } ]\n", "WU1011", "2026-03-01" },
        { "faults: [ §{ part: p, kind: joiner, date: 2026-03-01 } ]\n", "WU1007", "what was done" },
    };

    [Fact]
    public void A_new_log_holds_what_was_added()
    {
        string text = FaultLogFile.WithAdded(FaultLogFile.WithAdded(null, Jumper), Tap);
        Assert.Equal(Dump.Of(new FaultLog([Jumper, Tap])), Dump.Of(FaultLogFile.Read(text, "test").Log));
        Assert.StartsWith("# Faults found and cured", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("# mine\nfaults:\n  # the first\n  - { part: p, kind: gap, date: 2025-01-01, cure: cut }   # August\n# the end\n")]
    [InlineData("faults:\n- part: p\n  kind: gap\n  date: 2025-01-01\n  cure: cut   # August\n")]
    [InlineData("wireup: 1\r\nfaults: [ { part: p, kind: gap, date: 2025-01-01, cure: cut } ]   # August\r\n")]
    public void What_stands_in_a_log_stays_when_something_is_added(string text)
    {
        string changed = FaultLogFile.WithAdded(text, Tap);
        int same = text.Zip(changed).TakeWhile(pair => pair.First == pair.Second).Count();
        Assert.EndsWith(text[same..], changed, StringComparison.Ordinal);
        Assert.Equal(["p", Tap.Part], FaultLogFile.Read(changed, "test").Log!.Faults.Select(fault => fault.Part));
    }

    [Theory]
    [InlineData("# nothing yet\nfaults:\n")]
    [InlineData("faults: []\n")]
    [InlineData("wireup: 1\n")]
    public void A_log_without_faults_takes_its_first(string text) =>
        Assert.Equal([Tap.Part], FaultLogFile.Read(FaultLogFile.WithAdded(text, Tap), "test").Log!.Faults.Select(fault => fault.Part));

    [Fact]
    public void Nothing_is_added_to_a_log_with_problems() =>
        Assert.Throws<ArgumentException>(() => FaultLogFile.WithAdded("faults: [ { part: p } ]\n", Tap));

    [Theory]
    [MemberData(nameof(Faults))]
    public void A_problem_is_told_at_its_place(string marked, string code, string expected)
    {
        Marked given = Marked.Parse(marked);
        FaultLogReading read = FaultLogFile.Read(given.Text, "test");
        LayoutProblem problem = Assert.Single(read.Problems);
        Assert.Equal((code, given.Line, given.Column), (problem.Code, problem.Line, problem.Column));
        Assert.Contains(expected, problem.Expected, StringComparison.Ordinal);
        Assert.Null(read.Log);
    }

    [Fact]
    public void The_log_of_the_sample_is_read() =>
        Assert.Equal([], FaultLogFile.Read(RepoFiles.ReadText("sample-layouts/slate-branch.faults.yaml"), "log").Problems);

    [Fact]
    public void The_readings_of_the_sample_are_read()
    {
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/slate-branch.layout.yaml"), "layout").Layout!;
        ReadingsReading read = ReadingsFile.Read(layout, RepoFiles.ReadText("sample-layouts/slate-branch.readings.yaml"), "readings");
        Assert.Equal([], read.Problems);
        Assert.Equal(4, read.Readings!.Readings.Length);
    }
}
