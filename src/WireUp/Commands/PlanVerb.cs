using System.CommandLine;
using WireUp.Documents;
using WireUp.Files;
using WireUp.Layouts;
using WireUp.Output;
using WireUp.Planning;

namespace WireUp.Commands;

/// <summary><c>wireup plan</c>: proposes what is missing, proves it, writes it down.</summary>
internal sealed class PlanVerb(LayoutFiles files, Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<bool> json = Common.Json();
        Option<DirectoryInfo?> folder = new("--out")
        {
            Description = "Folder for the wiring book (PDF), the plan from above and below (PNG, SVG), the wiring schedule (CSV) and the layout with its wiring.",
        };
        Option<bool> write = new("--write") { Description = "Add the proposals to the layout file itself; its comments and order stay." };
        Option<bool> robust = new("--robust") { Description = "Enough feeders that every rail is still fed after any one joiner or feeder fails." };
        Option<PaperSize> paper = Common.Paper();
        Option<string?> date = new("--date") { Description = "Date to print on the book, as you want to read it; none is taken from the clock." };
        VerbCommand command = new("plan", """
            Proposes the wiring that is missing, proves it and prints the wiring book.

            It plans reversing sections, gaps, power districts, feeders, bus and its gauge, boosters and
            breakers; the fewest that keep every rule, with a bound on how few there could be. What is already wired is not touched.
            The result is checked and solved as a circuit before it is shown; what could not be mended is said.

            Examples:
              wireup plan club.layout.yaml
              wireup plan club.layout.yaml --out book/ --paper letter --date '3 May'
              wireup plan club.layout.yaml --robust
              wireup plan club.layout.yaml --write

            Ends with 0 when the plan passes its own checks, 1 when something remains, 2 when the file cannot be read.
            """)
        {
            layout, folder, write, robust, paper, date, json,
        };
        command.Runs<PlanVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout),
            new Wish(parsed.GetValue(folder), parsed.GetValue(write), parsed.GetValue(robust), parsed.GetValue(paper), parsed.GetValue(date), parsed.GetValue(json)),
            cancel)));
        return command;
    }

    private int Run(FileInfo file, Wish wish, CancellationToken cancel)
    {
        LayoutDocument document = files.ReadDocument(file);
        PlanResult plan = PlanProgressLine.Show(terminal, progress => Planner.Plan(document.Reading.Layout!, PlanOptions.Default with { Robust = wish.Robust }, progress, cancel));
        if (cancel.IsCancellationRequested)
        {
            Report(plan);
            terminal.Complain("stopped; the plan above is unfinished and nothing was written");
            return ExitCode.Stopped;
        }

        if (wish.Folder is { } folder)
        {
            PlanFolder.Write(folder, file, document, plan, new BookOptions { Paper = wish.Paper, Date = wish.Date }, cancel);
            terminal.Note($"wrote {PlanFolder.Count} files to {folder}");
        }

        if (wish.Write)
        {
            LayoutFiles.Write(file, document.WithAdded(plan.After).Text);
            terminal.Note($"added {plan.Proposals.Length} proposals to {file}");
        }

        if (wish.Json)
        {
            terminal.Json(ResultJson.Plan(plan));
        }
        else
        {
            Report(plan);
        }

        return plan.IsFinished ? ExitCode.Fine : ExitCode.Findings;
    }

    private void Report(PlanResult plan)
    {
        terminal.Markup($"[bold]{Words.Plain(plan.Before.Name)}[/]: {Words.Count(plan.Proposals.Length, "proposal", "proposals")}");
        terminal.Show(Tables.ProposalCounts(plan));
        terminal.Show(Tables.Objectives(plan));
        terminal.Show(Tables.Gauges(plan));
        terminal.Show(Tables.Districts(plan.Power));
        FindingText.Write(terminal, plan.Findings);
        foreach (string remains in plan.Remains)
        {
            terminal.Markup($"[bold red]remains[/] {Words.Plain(remains)}");
        }

        terminal.Markup(plan.IsFinished
            ? "[bold]The plan passes its own checks: no error, and a coin trips every breaker.[/]"
            : "[bold red]The plan is not finished.[/]");
        bool forOneCab = plan.Before is { Control: ControlSystem.Direct, Wiring.Switches.IsEmpty: true };
        if (forOneCab)
        {
            terminal.Note("Planned for one cab. Blocks and selectors for more are for you to write: see docs/control-systems.md and the sample two-cabs.");
        }
    }

    private sealed record Wish(DirectoryInfo? Folder, bool Write, bool Robust, PaperSize Paper, string? Date, bool Json);
}
