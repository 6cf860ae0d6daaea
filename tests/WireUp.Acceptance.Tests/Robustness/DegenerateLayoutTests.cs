using System.Text;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Documents;
using WireUp.Layouts;
using WireUp.Planning;
using WireUp.Rails;

namespace WireUp.Acceptance.Tests.Robustness;

/// <summary>Layouts that nobody would build: each is refused with a problem that names its line, or goes through every room.</summary>
public class DegenerateLayoutTests
{
    private const string Head = "wireup: 1\nname: Odd\nscale: HO\nlongest-train: 1 m\nshortest-pickup: 60\n";
    private const string Oval = "track:\n  a: { length: 1 m }\n  b: { length: 1 m }\njoined:\n  - a > b > a\n";
    private const string Fed =
        "wiring:\n  boosters:\n    main: { amps: 3 A }\n  districts:\n    all: { booster: main, trip: 2 A }\n  bus:\n    all: { wire: 14 AWG, runs: [ main > P1 1 m ] }\n  feeders:\n    f1: { at: a@0.5 m, bus: P1, wire: 20 AWG, length: 200 }\n";

    /// <summary>Name, text, and the code of the problem it has, or nothing where it is to be read.</summary>
    public static TheoryData<string, string, string?> Layouts => new()
    {
        { "an empty file", "", "WU1005" },
        { "only a comment", "# nothing\n", "WU1005" },
        { "a list", "- 1\n", "WU1005" },
        { "no track", Head, "WU1007" },
        { "no track, by name", Head + "track: {}\n", "WU1007" },
        { "one piece", Head + "track:\n  a: { length: 1 m }\n", null },
        { "one stop and nothing else", Head + "track:\n  s: { stop: true }\n", null },
        { "a turnout alone", Head + "track:\n  T1: { turnout: left, frog: live }\n", null },
        { "a length of nothing", Head + "track:\n  a: { length: 0 }\n", "WU1013" },
        { "a length below nothing", Head + "track:\n  a: { length: -1 m }\n", "WU1013" },
        { "a length that is no number", Head + "track:\n  a: { length: NaN }\n", "WU1011" },
        { "a length without end", Head + "track:\n  a: { length: 1e999 }\n", "WU1013" },
        { "a ring of one piece", Head + "track:\n  a: { length: 1 m }\njoined:\n  - a > a\n", null },
        { "no supply", Head + Oval, null },
        { "every joint insulated", Head + Oval + "joints:\n  a.b: { insulated: true }\n  b.b: { insulated: true }\n" + Fed, null },
        { "a feeder to a bus that is nowhere", Head + Oval + Fed.Replace("bus: P1", "bus: P9", StringComparison.Ordinal), "WU1016" },
        { "two pieces of one name", Head + "track:\n  a: { length: 1 m }\n  a: { length: 2 m }\n", "WU1004" },
        { "a name for a piece and a switch", Head + Oval + "wiring:\n  switches:\n    a: { positions: [on, off] }\n", "WU1015" },
        { "a name in other letters", Head + "name2: x\n", "WU1006" },
        { "names in Greek and Arabic letters", Head + "track:\n  αβγ: { length: 1 m }\n  قطار: { length: 1 m }\njoined:\n  - αβγ > قطار\n", null },
        { "a control character in a name", Head + "track:\n  \"a\\u0007b\": { length: 1 m }\n", "WU1014" },
        { "an override of the direction of writing in a name", Head + "track:\n  \"a\\u202Eb\": { length: 1 m }\n", "WU1014" },
        { "a railway called by marks that run from right to left", Head.Replace("Odd", "\"\\u202Eytrap\"", StringComparison.Ordinal) + Oval + Fed, null },
        { "a railway called by markup", Head.Replace("Odd", "\"<b>[red]=1+1</b>\"", StringComparison.Ordinal) + Oval + Fed, null },
        { "a name without letters", Head + "track:\n  \"\": { length: 1 m }\n", "WU1014" },
        { "a thousand brackets", Head + "track: " + new string('[', 1000) + "\n", "WU1002" },
        { "an alias", Head + "track: &x\n  a: { length: 1 m }\nwiring: *x\n", "WU1003" },
        { "a null byte", Head + "track:\n  a\0: { length: 1 m }\n", "WU1001" },
    };

    [Theory]
    [MemberData(nameof(Layouts))]
    public void A_layout_that_nobody_would_build_is_refused_by_line_or_goes_through_every_room(string what, string text, string? code)
    {
        LayoutReading reading = LayoutFile.Read(text, "odd.layout.yaml");
        if (code is not null)
        {
            Assert.Null(reading.Layout);
            LayoutProblem problem = Assert.Single(reading.Problems, problem => problem.Code == code);
            Assert.True(problem.Line >= 1 && problem.Message.Length > 0, what);
            return;
        }

        Layout layout = reading.Layout ?? throw new InvalidOperationException($"{what}: {string.Join("; ", reading.Problems)}");
        GoThrough(layout);
    }

    [Fact]
    public void A_layout_of_as_many_pieces_as_the_format_allows_is_read_and_checked_and_one_more_is_refused()
    {
        Assert.NotNull(LayoutFile.Read(Chain(LayoutLimits.Pieces), "large.layout.yaml").Layout);
        LayoutReading refused = LayoutFile.Read(Chain(LayoutLimits.Pieces + 1), "large.layout.yaml");
        Assert.Null(refused.Layout);
        Assert.Contains(refused.Problems, problem => problem.Code == "WU1002");
    }

    /// <summary>Bytes of the samples changed at random: whatever comes, it is read or refused, and what is read can be written and read again.</summary>
    [Fact]
    public void Samples_with_bytes_changed_at_random_are_read_or_refused_and_never_crash()
    {
        string[] samples = [.. RepoFiles.SampleLayouts.Select(File.ReadAllText).Where(text => text.Length < 6000)];
        Random random = new(20261128);
        int read = 0, refused = 0;
        for (int trial = 0; trial < 2000; trial++)
        {
            StringBuilder text = new(samples[random.Next(samples.Length)]);
            for (int changes = random.Next(1, 3); changes > 0; changes--) Change(text, random);
            LayoutReading reading = LayoutFile.Read(text.ToString(), "fuzzed.layout.yaml");
            if (reading.Layout is not { } layout)
            {
                refused++;
                Assert.NotEmpty(reading.Problems);
                continue;
            }

            read++;
            LayoutReading again = LayoutFile.Read(LayoutFile.Write(layout), "written.layout.yaml");
            Assert.True(again.Layout is not null, $"trial {trial}: {string.Join("; ", again.Problems)}\n{text}");
            if (trial % 40 == 0) Checker.Check(layout, TestContext.Current.CancellationToken);
        }

        Assert.True(read > 300 && refused > 300, $"{read} read, {refused} refused: the changes are too mild or too wild to tell anything");
    }

    private static void Change(StringBuilder text, Random random)
    {
        const string Sharp = "{}[]:,->@#&*!|'\"%\t\n 0123456789.eE-+abzmΩé\u202E\0\uFFFF";
        int at = random.Next(text.Length);
        switch (random.Next(4))
        {
            case 0:
                text[at] = Sharp[random.Next(Sharp.Length)];
                break;
            case 1:
                text.Insert(at, Sharp[random.Next(Sharp.Length)]);
                break;
            case 2:
                text.Remove(at, Math.Min(random.Next(1, 30), text.Length - at));
                break;
            default:
                text.Insert(random.Next(text.Length), text.ToString(at, Math.Min(random.Next(1, 60), text.Length - at)));
                break;
        }
    }

    private static void GoThrough(Layout layout)
    {
        CancellationToken cancel = TestContext.Current.CancellationToken;
        CheckReport report = Checker.Check(layout, cancel);
        Assert.All(report.Findings, finding => Assert.DoesNotContain('\0', finding.Message));
        PowerReport power = PowerAnalysis.Solve(RailGraph.Build(layout), new PowerOptions(), cancel);
        Assert.All(power.Districts, district => Assert.True(double.IsFinite(district.LowestVolts.Volts.Volts)));
        PlanResult plan = Planner.Plan(layout, PlanOptions.Default, null, cancel);
        Assert.NotNull(LayoutFile.Read(LayoutFile.Write(plan.After), "planned.layout.yaml").Layout);
        Scene scene = LayoutDrawing.Draw(plan.After, new DrawingOptions { Proposals = plan.Proposals, Before = plan.Before }, cancel);
        Assert.StartsWith("<svg", SvgScene.Write(scene), StringComparison.Ordinal);
    }

    private static string Chain(int pieces)
    {
        StringBuilder text = new(Head + "track:\n");
        for (int i = 0; i < pieces; i++) text.Append("  p").Append(i).Append(": { length: 1 m }\n");
        return text.Append("joined:\n  - p0 > p1\n").ToString();
    }
}
