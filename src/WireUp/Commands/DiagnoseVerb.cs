using System.Collections.Immutable;
using System.CommandLine;
using WireUp.Documents;
using WireUp.Faults;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup diagnose</c>: from readings and symptoms to the likeliest faults and the reading to make next.</summary>
internal sealed class DiagnoseVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<string?> readings = new("--readings") { Description = "File of readings, *.readings.yaml; - for standard input." };
        Option<string[]> reading = new("--reading") { Description = "A reading: 'spur@0.6 m=6.3 V under 0.5 A'. May be given several times." };
        Option<string[]> symptom = new("--symptom") { Description = "What is seen: 'stops at siding@1 m when T1.diverging'. May be given several times." };
        Option<string?> tools = new("--tools") { Description = "Tools on hand for the next reading: some of volts, ohms, load, clamp, supply." };
        Option<bool> pairs = new("--pairs") { Description = "Try two faults at a time as well." };
        Option<FileInfo?> picture = new("--picture") { Description = "Picture of the plan with the suspected places lettered: .svg, .png or .pdf." };
        CureArguments.Options cure = new();
        Option<int?> survey = new("--survey") { Description = "Print this many parts, those most worth measuring once a year; needs no readings." };
        Option<LengthStyle?> lengths = Common.Lengths();
        Option<bool> json = Common.Json();
        VerbCommand command = new("diagnose", """
            Finds what is faulty from readings and symptoms, and says what to measure next.

            A spot is dead or weak. Say what you see, with or without a meter; every joint, feeder, tap, wire, blade, contact and
            gap of the layout is held against it. The answer ranks them with how sure it is, never one without its runner-up,
            and names the reading that tells most for each minute of work.

            What can be said, as --reading, --symptom or in a file (docs/readings-format.md):
              6.3 V at spur@0.6 m under 0.5 A                 a meter across the rails, a lamp beside it
              40 mV from loop.b/left to spur.a/right under 0.5 A at spur@1 m      along one rail, across a joint
              0.4 ohm from f1/A to spur@0.6 m/left            power off
              no continuity from T1/frog to P1/A              power off
              1.2 A in f1/A under 2 A at loop@1 m             a clamp round a feeder
              stops at siding@1 m when T1.diverging           runs, slows, stops, dead
              short in east when T1.diverging                 no short in east
              pressing at T1.points helps                     does not help
            A symptom in free words ('short while the turnout moves') is answered from a list of common causes.

            Examples:
              wireup diagnose club.layout.yaml --symptom 'stops at spur@0.6 m'
              wireup diagnose club.layout.yaml --reading 'spur@0.6 m=14 V' --reading 'spur@0.6 m=6.3 V under 0.5 A'
              wireup diagnose club.layout.yaml --readings saturday.readings.yaml --picture suspects.svg
              wireup diagnose club.layout.yaml --readings - --json < saturday.readings.yaml
              wireup diagnose club.layout.yaml --readings saturday.readings.yaml --cured 'joint main-7.b/left' \
                --cure 'soldered a jumper' --date 2026-03-01
              wireup diagnose club.layout.yaml --survey 20

            Low voltage only. Ohms and continuity with the power off; never measure on mains.

            Ends with 0 when a fault is suspected, 1 when nothing in the layout explains the readings (or nothing is wrong),
            2 when something cannot be read.
            """)
        {
            layout, readings, reading, symptom, tools, pairs, picture, survey, lengths, json,
        };
        cure.AddTo(command);
        command.Runs<DiagnoseVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout),
            new(parsed.GetValue(readings), parsed.GetValue(reading) ?? [], parsed.GetValue(symptom) ?? [], parsed.GetValue(tools)),
            new(parsed.GetValue(pairs), parsed.GetValue(picture), parsed.GetValue(survey), cure.Of(parsed), parsed.GetValue(json)) { Lengths = parsed.GetValue(lengths) },
            cancel)));
        return command;
    }

    private int Run(FileInfo file, ReadingArguments typed, Asked asked, CancellationToken cancel)
    {
        if (asked.Picture is not null)
        {
            PictureFile.Check(asked.Picture);
        }

        LayoutDocument document = files.ReadDocument(file);
        Layout layout = document.Reading.Layout!.In(asked.Lengths);
        (ReadingSet set, ImmutableArray<SymptomRow> advice) = typed.Read(layout, files, file);
        FaultBook book = FaultBook.Open(files, file);
        if (asked.Cure is { } cure)
        {
            terminal.Note(book.Write(layout, set, cure));
            return ExitCode.Fine;
        }

        if (asked.Survey is { } count)
        {
            return new SurveyAnswer(terminal).Show(layout, book.Learn(layout), set, count, asked.Json, cancel);
        }

        return typed.IsEmpty
            ? throw new InputRefused("nothing was measured or seen: give --readings FILE, --reading '…' or --symptom '…'; 'wireup diagnose --help' shows how")
            : Answer((layout, set, advice), book.Learn(layout), asked, cancel);
    }

    private int Answer((Layout Layout, ReadingSet Set, ImmutableArray<SymptomRow> Advice) given, FaultPriors priors, Asked asked, CancellationToken cancel)
    {
        (Layout layout, ReadingSet set, ImmutableArray<SymptomRow> advice) = given;
        Diagnosis? diagnosis = set.Readings.IsEmpty ? null
            : FaultSearch.Rank(layout, set, priors, new() { Pairs = asked.Pairs }, cancel)
                ?? throw new InputRefused($"the circuit of '{layout.Name}' has no solution to hold readings against: it needs a booster with its wiring; 'wireup check' says what is missing");
        if (asked.Json)
        {
            terminal.Json(FaultJson.Of(set, diagnosis, advice));
        }
        else
        {
            FaultText.Show(terminal, layout, set, diagnosis);
            FaultText.Show(terminal, advice);
        }

        if (asked.Picture is not null && diagnosis is not null)
        {
            Draw(layout, diagnosis, asked.Picture, cancel);
        }

        return diagnosis is null ? ExitCode.Fine : IsFound(diagnosis) ? ExitCode.Fine : ExitCode.Findings;
    }

    /// <summary>Whether some fault of the layout is more probable than that there is none, and the readings do not contradict it.</summary>
    private static bool IsFound(Diagnosis diagnosis) =>
        diagnosis.Contradiction is null && diagnosis.NothingWrong + diagnosis.NotInModel < 0.5;

    private void Draw(Layout layout, Diagnosis diagnosis, FileInfo picture, CancellationToken cancel)
    {
        DrawingOptions options = new()
        {
            Layers = DrawingLayers.All & ~(DrawingLayers.Districts | DrawingLayers.Findings),
            Marks = [.. SuspectLetters.Places(layout, diagnosis).Select(place => new PlanMark(SuspectLetters.Of(place.Rank), place.Place))],
            Title = $"{layout.Name}: suspected parts",
        };
        PictureFile.Write(picture, LayoutDrawing.Draw(layout, options, cancel));
        terminal.Note($"wrote {picture}");
    }

    /// <summary>What else was asked for.</summary>
    private sealed record Asked(bool Pairs, FileInfo? Picture, int? Survey, CureArguments? Cure, bool Json)
    {
        public LengthStyle? Lengths { get; init; }
    }
}
