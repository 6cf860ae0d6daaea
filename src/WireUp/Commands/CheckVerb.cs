using System.Collections.Immutable;
using System.CommandLine;
using System.Text.Json.Nodes;
using WireUp.Checking;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Rails;

namespace WireUp.Commands;

/// <summary><c>wireup check</c>: every rule over the layout.</summary>
internal sealed class CheckVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<bool> json = Common.Json();
        Option<bool> whyGaps = new("--why-gaps") { Description = "Say of every gap what would happen if it were closed." };
        Option<bool> cabs = new("--cabs") { Description = "List every gap at which the track of one cab meets that of another." };
        Option<LengthStyle?> lengths = Common.Lengths();
        VerbCommand command = new("check", """
            Says what is wrong or missing.

            It finds shorts (always, or in some turnout positions, with the path that closes them), rails
            nobody feeds, dead frogs, wires too thin for their breaker, coins that would not trip it.

            With --why-gaps it also goes through the gaps rail by rail: what each one prevents, in which turnout
            positions, and which of them nothing needs. With --cabs, for direct current and three-rail track, it lists
            the gaps with a cab on each side: which two can meet there while a train bridges it, and when.

            Examples:
              wireup check club.layout.yaml
              wireup check club.layout.yaml --json | jq '.summary'
              wireup check club.layout.yaml --why-gaps
              wireup check sample-layouts/two-cabs.layout.yaml --cabs

            Ends with 0 when no error was found, 1 when there are errors, 2 when the file cannot be read.
            """)
        {
            layout, json, whyGaps, cabs, lengths,
        };
        command.Runs<CheckVerb>((verb, parsed, cancel) =>
            Task.FromResult(verb.Run(
                parsed.GetRequiredValue(layout), (parsed.GetValue(json), parsed.GetValue(whyGaps), parsed.GetValue(cabs), parsed.GetValue(lengths)), cancel)));
        return command;
    }

    private int Run(FileInfo file, (bool Json, bool WhyGaps, bool Cabs, LengthStyle? Lengths) asked, CancellationToken cancel)
    {
        Layout layout = files.Read(file).In(asked.Lengths);
        CheckReport report = Checker.Check(layout, cancel);
        ImmutableArray<GapPurpose> gaps = asked.WhyGaps ? GapPurposes.Find(RailGraph.Build(layout), cancel) : [];
        if (asked.Json)
        {
            JsonObject results = ResultJson.Check(report.Findings);
            if (asked.WhyGaps)
            {
                results["gaps"] = ResultJson.Array(gaps, GapJson.One);
            }

            if (asked.Cabs)
            {
                results["cab-borders"] = ResultJson.Array(report.Cabs.Borders, CabText.Json);
            }

            terminal.Json(results);
        }
        else
        {
            if (asked.WhyGaps)
            {
                GapText.Write(terminal, layout, gaps);
            }

            if (asked.Cabs)
            {
                CabText.Write(terminal, layout, report.Cabs);
            }

            FindingText.Write(terminal, report.Findings, layout.Lengths);
            if (report.Findings.Length > 0)
            {
                terminal.Note($"'wireup explain {report.Findings[0].Code}' says more about the first.");
            }
        }

        return report.Findings.Any(finding => finding.Severity == Severity.Error) ? ExitCode.Findings : ExitCode.Fine;
    }
}
