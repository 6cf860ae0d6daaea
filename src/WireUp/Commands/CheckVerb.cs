using System.CommandLine;
using WireUp.Checking;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup check</c>: every rule over the layout.</summary>
internal sealed class CheckVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<bool> json = Common.Json();
        VerbCommand command = new("check", """
            Says what is wrong or missing.

            It finds shorts (always, or in some turnout positions, with the path that closes them), rails
            nobody feeds, dead frogs, wires too thin for their breaker, coins that would not trip it.

            Examples:
              wireup check club.layout.yaml
              wireup check club.layout.yaml --json | jq '.summary'

            Ends with 0 when no error was found, 1 when there are errors, 2 when the file cannot be read.
            """)
        {
            layout, json,
        };
        command.Runs<CheckVerb>((verb, parsed, cancel) =>
            Task.FromResult(verb.Run(parsed.GetRequiredValue(layout), parsed.GetValue(json), cancel)));
        return command;
    }

    private int Run(FileInfo file, bool json, CancellationToken cancel)
    {
        Layout layout = files.Read(file);
        CheckReport report = Checker.Check(layout, cancel);
        if (json)
        {
            terminal.Json(ResultJson.Check(report.Findings));
        }
        else
        {
            FindingText.Write(terminal, report.Findings);
            if (report.Findings.Length > 0)
            {
                terminal.Note($"'wireup explain {report.Findings[0].Code}' says more about the first.");
            }
        }

        return report.Findings.Any(finding => finding.Severity == Severity.Error) ? ExitCode.Findings : ExitCode.Fine;
    }
}
