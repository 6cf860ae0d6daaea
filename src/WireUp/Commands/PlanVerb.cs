using System.Collections.Immutable;
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
    private const int MostBoardScale = 1000;

    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<FileInfo> layout = Common.Layout();
        Option<bool> json = Common.Json();
        Option<DirectoryInfo?> folder = new("--out")
        {
            Description = "Folder for the wiring book (PDF, and HTML in one file), its lists (XLSX), the plan from above and below (PNG, SVG), the wiring schedule (CSV) and the layout with its wiring.",
        };
        Option<bool> write = new("--write") { Description = "Add the proposals to the layout file itself; its comments and order stay." };
        Option<bool> rework = new("--rework")
        {
            Description = "Propose changes of what is wired too, each with its price: feeders to exchange, or to move to another district.",
        };
        write.Validators.Add(result =>
        {
            if (result.GetValue(write) && result.GetResult(rework) is { Implicit: false })
            {
                result.AddError("--write only adds to the file, and --rework may change what is there: use --out, which writes the changed layout beside the book.");
            }
        });
        Option<bool> robust = new("--robust") { Description = "Enough feeders that every rail is still fed after any one joiner or feeder fails." };
        Option<PaperSize> paper = Common.Paper();
        Option<string?> wire = new("--wire")
        {
            Description = "Sizes of bus wire on hand, '1.5 mm2, 4 mm2'; with the price of a metre, '1.5 mm2=0.60, 4 mm2=1.90', the bus is made as cheap as can be.",
        };
        Option<string?> breaker = new("--breaker") { Description = "Breakers on hand, by the current at which they trip: '3 A, 4 A'; the usual ones if left out." };
        Option<string[]> whatIf = new("--what-if")
        {
            Description = $"Compare with the plan as it would be after a change, such as 'moving-at-once 16; breaker 4 A'; may be given several times. What can be changed: {WhatIfArguments.Keys}.",
            HelpName = "change",
        };
        Option<string?> labels = new("--labels")
        {
            Description = "With --out: sheets of labels too, of that width and height in mm: '38.1x21.2', '63.5x38.1'.",
            HelpName = "WxH",
        };
        Option<LengthStyle?> lengths = Common.Lengths();
        Option<int?> boardScale = new("--board-scale")
        {
            Description = "With --out: scale of the drawings of boards, 1 for full size, 10 for 1 : 10; left out: the largest usual one at which a board fits the paper.",
            HelpName = "N",
        };
        boardScale.Validators.Add(result =>
        {
            if (result.Tokens.Count > 0 && result.GetValueOrDefault<int?>() is not (>= 1 and <= MostBoardScale)) result.AddError($"--board-scale must be a number from 1 to {MostBoardScale}");
        });
        Option<string?> route = new("--route")
        {
            Description = "With --out: the route along which the book shows the volts, 'yard-1 > T3 > loop'; left out: the longest way to the place with the fewest.",
        };
        Option<string?> date = new("--date") { Description = "Date to print on the book, as you want to read it; none is taken from the clock." };
        Option<string?> by = new("--by") { Description = "Name to print on the book, of whoever answers for it.", HelpName = "name" };
        VerbCommand command = new("plan", """
            Proposes the wiring that is missing, proves it and prints the wiring book.

            It plans reversing sections, gaps, power districts, feeders, bus and its gauge, boosters and
            breakers; the fewest that keep every rule, with a bound on how few there could be. What is already wired is
            not touched unless you ask for --rework.
            The result is checked and solved as a circuit before it is shown; what could not be mended is said.

            Examples:
              wireup plan club.layout.yaml
              wireup plan club.layout.yaml --out book/ --paper letter --date '3 May' --by 'A. Builder'
              wireup plan club.layout.yaml --out book/ --labels 38.1x21.2
              wireup plan club.layout.yaml --out book/ --paper tabloid --lengths feet
              wireup plan club.layout.yaml --robust
              wireup plan club.layout.yaml --write
              wireup plan club.layout.yaml --wire '1.5 mm2=0.60, 2.5 mm2=0.95, 4 mm2=1.50'
              wireup plan club.layout.yaml --rework --out changed/
              wireup plan club.layout.yaml --what-if 'longest-train 2.4 m' --what-if 'moving-at-once 16; breaker 4 A'

            Ends with 0 when the plan passes its own checks, 1 when something remains, 2 when the file cannot be read.
            """)
        {
            layout, folder, write, robust, rework, wire, breaker, whatIf, paper, labels, boardScale, route, lengths, date, by, json,
        };
        command.Runs<PlanVerb>((verb, parsed, cancel) => Task.FromResult(verb.Run(
            parsed.GetRequiredValue(layout),
            new Wish(parsed.GetValue(folder), parsed.GetValue(write), parsed.GetValue(paper), parsed.GetValue(date), parsed.GetValue(json))
            {
                Options = PlanOptions.Default with
                {
                    Robust = parsed.GetValue(robust),
                    Rework = parsed.GetValue(rework),
                    WireOnHand = WireArguments.Read(parsed.GetValue(wire)),
                    Breakers = BreakerArguments.Read("--breaker", parsed.GetValue(breaker)),
                },
                WhatIfs = [.. parsed.GetValue(whatIf) ?? []],
                Lengths = parsed.GetValue(lengths),
                BoardScale = parsed.GetValue(boardScale),
                By = parsed.GetValue(by),
                Route = parsed.GetValue(route),
                Labels = LabelArguments.Read(parsed.GetValue(labels), parsed.GetValue(folder), parsed.GetValue(paper)),
            },
            cancel)));
        return command;
    }

    private int Run(FileInfo file, Wish wish, CancellationToken cancel)
    {
        if (wish.Write && LayoutFiles.IsStandardInput(file))
        {
            throw new InputRefused("--write adds to a file, and standard input is none; use --out");
        }

        LayoutDocument document = files.ReadDocument(file);
        Layout layout = document.Reading.Layout!.In(wish.Lengths);
        if (!wish.WhatIfs.IsEmpty)
        {
            return Compare(layout, wish, cancel);
        }

        BookOptions book = wish.Book(layout);
        PlanResult plan = Plan(new("", layout, wish.Options), cancel);
        if (cancel.IsCancellationRequested)
        {
            Report(plan);
            terminal.Complain("stopped; the plan above is unfinished and nothing was written");
            return ExitCode.Stopped;
        }

        if (wish.Folder is { } folder)
        {
            PlanFolder.Write(folder, file, document, plan, book, cancel);
            if (wish.Labels is { } labels)
            {
                PlanFolder.WriteLabels(folder, file, plan, labels);
            }

            terminal.Note($"wrote {PlanFolder.Count + (wish.Labels is null ? 0 : 1)} files to {folder}");
        }

        if (wish.Write)
        {
            LayoutFiles.WriteOver(file, document.WithAdded(plan.After).Text, document.Text);
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

    private PlanResult Plan(WhatIf question, CancellationToken cancel) => ProgressLine.Show<PlanProgress, PlanResult>(
        terminal,
        question.Question.Length > 0 ? question.Question : "planning",
        progress => $"{progress.Stage} ({progress.Percent} %)",
        progress => Planner.Plan(question.Layout, question.Options, progress, cancel));

    /// <summary>Plans the layout as it is and as it would be, and shows the figures side by side; nothing is written.</summary>
    private int Compare(Layout layout, Wish wish, CancellationToken cancel)
    {
        if (wish.Write || wish.Folder is not null)
        {
            throw new InputRefused("--what-if compares plans and writes none: leave out --write and --out, or change the layout file and plan again");
        }

        ImmutableArray<WhatIf> questions = [new("as it is", layout, wish.Options), .. wish.WhatIfs.Select(typed => WhatIfArguments.Read(typed, layout, wish.Options))];
        List<(string Question, PlanResult Plan)> outcomes = [];
        foreach (WhatIf question in questions)
        {
            PlanResult plan = Plan(question, cancel);
            if (cancel.IsCancellationRequested)
            {
                break;
            }

            outcomes.Add((question.Question, plan));
        }

        if (wish.Json)
        {
            terminal.Json(ResultJson.Comparison(outcomes));
        }
        else
        {
            terminal.Show(Tables.Comparison(outcomes, layout.Lengths));
            foreach ((string question, PlanResult plan) in outcomes.Where(outcome => !outcome.Plan.Remains.IsEmpty))
            {
                terminal.Markup($"[bold red]remains[/] [bold]{Words.Plain(question)}[/]: {Words.Plain(plan.Remains[0])}{(plan.Remains.Length > 1 ? $" And {plan.Remains.Length - 1} more." : "")}");
            }
        }

        if (cancel.IsCancellationRequested)
        {
            terminal.Complain("stopped; what is above was planned to the end");
            return ExitCode.Stopped;
        }

        return outcomes.All(outcome => outcome.Plan.IsFinished) ? ExitCode.Fine : ExitCode.Findings;
    }

    private void Report(PlanResult plan)
    {
        terminal.Markup($"[bold]{Words.Plain(plan.Before.Name)}[/]: {Words.Count(plan.Proposals.Length, "proposal", "proposals")}");
        terminal.Show(Tables.ProposalCounts(plan));
        if (plan.Proposals.IsEmpty)
        {
            terminal.Markup(PlanResult.NothingToCompare);
        }
        else
        {
            terminal.Show(Tables.Objectives(plan));
        }

        terminal.Show(Tables.Gauges(plan));
        terminal.Show(Tables.Districts(plan.Power, plan.After.Lengths));
        FindingText.Write(terminal, plan.Findings, plan.After.Lengths);
        foreach (string remains in plan.Remains)
        {
            terminal.Markup($"[bold red]remains[/] {Words.Plain(remains)}");
        }

        terminal.Markup($"[bold{(plan.IsFinished ? "" : " red")}]{plan.Verdict}[/]");
        bool forOneCab = plan.After is { Control: ControlSystem.Direct, Wiring.Switches.IsEmpty: true };
        if (forOneCab)
        {
            terminal.Note("Planned for one cab. For more, name the cabs under 'boosters' and ask for blocks: see docs/control-systems.md.");
        }
    }

    private sealed record Wish(DirectoryInfo? Folder, bool Write, PaperSize Paper, string? Date, bool Json)
    {
        public PlanOptions Options { get; init; } = PlanOptions.Default;

        public ImmutableArray<string> WhatIfs { get; init; } = [];

        public LabelOptions? Labels { get; init; }

        public LengthStyle? Lengths { get; init; }

        public int? BoardScale { get; init; }

        public string? By { get; init; }

        public string? Route { get; init; }

        public BookOptions Book(Layout layout) => new()
        {
            Paper = Paper,
            Date = Date,
            By = By,
            BoardScale = BoardScale,
            Route = Route is { } typed ? PlaceQuestions.Stops(layout, typed) : [],
        };
    }
}
