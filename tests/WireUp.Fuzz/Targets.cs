using System.Collections.Immutable;
using UnitsNet;
using WireUp.Commands;
using WireUp.Layouts;
using WireUp.Layouts.Tracing;
using WireUp.Layouts.Tracing.Svg;

namespace WireUp.Fuzz;

/// <summary>What is fed with inputs. Whatever is typed is read or refused; an exception is a defect, and so is a text of our own that we cannot read.</summary>
internal static class Targets
{
    private const string Small = """
        wireup: 1
        name: Fuzzed
        scale: HO
        longest-train: 1 m
        shortest-pickup: 60
        track:
          loop: { length: 2 m }
          T1: { turnout: left, frog: live }
          spur: { length: 1 m }
        joined:
          - loop.a > T1.points
          - T1.through > loop.b
          - T1.diverging > spur
        wiring:
          boosters:
            main: { amps: 3 A }
          districts:
            all: { booster: main, trip: 2 A }
          bus:
            all: { wire: 14 AWG, runs: [ main > P1 1 m ] }
          feeders:
            f1: { at: loop@0.5 m, bus: P1, wire: 20 AWG, length: 200 }
        """;

    // Verbs that write nothing; 'serve' and those that make files would leave the fuzzer's own machine changed.
    private static readonly ImmutableArray<string> Asking = ["check", "power", "diagnose", "wire", "explain", "export", "completion"];
    private static readonly ImmutableArray<string> Writing = ["-o", "--out", "--plot", "--picture", "--cured", "--session"];

    private static readonly Layout Club = LayoutFile.Read(Small, "fuzzed.layout.yaml") is { Layout: { } layout } ? layout : throw new InvalidOperationException(string.Join("; ", LayoutFile.Read(Small, "fuzzed.layout.yaml").Problems));

    /// <summary>What the targets are called.</summary>
    public static ImmutableArray<string> Names { get; } = ["layout", "readings", "drawing", "arguments"];

    /// <summary>The target of a name.</summary>
    public static Action<string>? Find(string name) => name switch
    {
        "layout" => ReadLayout,
        "readings" => ReadReadings,
        "drawing" => TraceDrawing,
        "arguments" => Command,
        _ => null,
    };

    private static void ReadLayout(string text)
    {
        if (LayoutFile.Read(text, "fuzzed.layout.yaml") is { Layout: { } layout }) ReadBack(LayoutFile.Write(layout));
    }

    private static void ReadReadings(string text)
    {
        ReadingsFile.Read(Club, text, "fuzzed.readings.yaml");
        FaultLogFile.Read(text, "fuzzed.faults.yaml");
        LayoutWords.Sentence(Club, text);
    }

    private static void TraceDrawing(string text)
    {
        (SvgReading? read, _) = SvgDrawing.Read(text, new() { Width = Length.FromMeters(3) });
        if (read is null) return;
        (TracedLayout? traced, _) = LineTracer.Trace(read.Lines, new() { Name = "Fuzzed", LongestTrain = Length.FromMeters(1) });
        if (traced is not null) ReadBack(TracedText.Write(traced, "fuzzed.svg"), allowed: "WU1013"); // a line of more than 10 km, which import refuses so
    }

    /// <summary>A line is an argument; the layout comes from standard input.</summary>
    private static void Command(string text)
    {
        string[] arguments = text.Replace("\0", "", StringComparison.Ordinal).Split('\n'); // no system passes NUL in an argument
        if (!Asking.Contains(arguments[0]) || arguments.Any(argument => argument.StartsWith('@') || Writing.Any(option => argument.StartsWith(option, StringComparison.Ordinal))))
        {
            Verbs.Root().Parse([.. arguments.Where(argument => !argument.StartsWith('@'))]);
            return;
        }

        Console.SetIn(new StringReader(Small));
        Console.SetOut(TextWriter.Null);
        using StringWriter errors = new();
        Console.SetError(errors);
        int code = Verbs.RunAsync(arguments).GetAwaiter().GetResult();
        if (code is not (0 or 1 or 2)) throw new InvalidOperationException($"exit {code}: {errors}");
    }

    private static void ReadBack(string written, string? allowed = null)
    {
        LayoutReading again = LayoutFile.Read(written, "written.layout.yaml");
        if (again.Layout is null && again.Problems.Any(problem => problem.Code != allowed)) throw new InvalidOperationException($"what was written cannot be read: {string.Join("; ", again.Problems)}\n{written}");
    }
}
