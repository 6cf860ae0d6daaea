using System.CommandLine;
using WireUp.Checking;
using WireUp.Circuits;
using WireUp.Documents;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Planning;
using WireUp.Rails;

namespace WireUp.Commands;

/// <summary>What <c>export</c> writes.</summary>
internal enum ExportFormat
{
    /// <summary>A netlist for a circuit simulator.</summary>
    Spice,

    /// <summary>The wiring schedule as comma-separated values.</summary>
    Csv,

    /// <summary>Pieces, rails and wiring as JSON.</summary>
    Json,

    /// <summary>Every list of the wiring book as comma-separated values, a file each.</summary>
    Lists,
}

/// <summary><c>wireup export</c>: the layout for other programs.</summary>
internal sealed class ExportVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<ExportFormat> format = new("--format")
        {
            Description = "spice: a netlist that a circuit simulator runs as it is; csv: the wiring schedule; json: pieces, rails and wiring; lists: every list of the wiring book, a CSV file each.",
            Required = true,
        };
        Option<string[]> load = new("--load") { Description = "For spice: a current taken at a place, 'loop@1 m=0.5 A'. May be given several times." };
        Option<string[]> probe = new("--probe") { Description = "For spice: a place that must be a node, 'loop@1 m'. May be given several times." };
        Option<FileInfo?> target = new("--out") { Description = "File to write, for lists the folder; left out: standard output." };
        Option<string[]> set = PlaceArguments.SetOption();
        Option<LengthStyle?> lengths = Common.Lengths();
        VerbCommand command = new("export", """
            Writes the layout for other programs.

            Examples:
              wireup export club.layout.yaml --format spice --load 'loop@1 m=0.5 A' > club.cir
              ngspice -b club.cir
              wireup export club.layout.yaml --format csv --out wires.csv
              wireup export club.layout.yaml --format lists --out lists/
            """)
        {
            layout, format, load, probe, set, target, lengths,
        };
        command.Runs<ExportVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout),
            (parsed.GetValue(format), parsed.GetValue(lengths)),
            new PlaceArguments(parsed.GetValue(load) ?? [], parsed.GetValue(probe) ?? [], parsed.GetValue(set) ?? []),
            parsed.GetValue(target),
            cancel)));
        return command;
    }

    private int Run(FileInfo source, (ExportFormat Format, LengthStyle? Lengths) wanted, PlaceArguments asked, FileInfo? target, CancellationToken cancel)
    {
        Layout layout = files.Read(source).In(wanted.Lengths);
        cancel.ThrowIfCancellationRequested();
        if (wanted.Format == ExportFormat.Lists)
        {
            return WriteLists(layout, target ?? throw new InputRefused("--format lists writes a file for each list: say into which folder with --out"), cancel);
        }

        PowerOptions options = asked.Options(layout);
        RailGraph graph = RailGraph.Build(layout, options.Places);
        string text = wanted.Format switch
        {
            ExportFormat.Spice => SpiceNetlist.Write(graph, options),
            ExportFormat.Csv => Schedule.Of(layout).ToCsv(),
            ExportFormat.Json => LayoutJson.Of(graph).ToJsonString(Terminal.Pretty) + "\n",
            _ => throw new ArgumentOutOfRangeException(nameof(wanted), wanted.Format, "not a format"),
        };
        if (target is null)
        {
            terminal.Write(text);
        }
        else
        {
            LayoutFiles.Write(target, text);
            terminal.Note($"wrote {target}");
        }

        return ExitCode.Fine;
    }

    /// <summary>The lists of all wiring that the file holds, as for a railway of which nothing is built yet.</summary>
    private int WriteLists(Layout layout, FileInfo target, CancellationToken cancel)
    {
        CheckReport check = Checker.Check(layout, cancel);
        PlanResult whole = new(layout with { Wiring = Wiring.None }, layout) { Findings = check.Findings, Power = check.Power };
        int count = ListFolder.Write(new(target.FullName), WiringBook.Make(whole, new(), cancel));
        terminal.Note($"wrote {Output.Words.Count(count, "list", "lists")} to {target}");
        return ExitCode.Fine;
    }
}
